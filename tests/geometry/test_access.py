from __future__ import annotations

import itertools
from collections.abc import Callable

import numpy as np
import pytest
import shapely
from scipy.optimize import linprog

from seqviz.geometry.access import Cylinder, cylinder_meets, cylinders_meet
from seqviz.geometry.polygons import convex_pieces
from seqviz.geometry.pose import IDENTITY, Array, Pose, any_across, frozen, turn_about, unit
from seqviz.geometry.prism import Piece, Prism
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.geometry.solids import Solids, solids_of
from seqviz.geometry.spans import line_spans, solid_spans
from tests.geometry.prisms import (
    boxes,
    random_axis,
    random_poses,
    random_prism,
    random_prismoid,
    random_prismoids,
    random_prisms,
)

LIMIT = TOLERANCE + GUARD
X, Y, Z = np.eye(3)


def _tool(start: tuple[float, float, float], length: float, radius: float, axis: Array = Z) -> Cylinder:
    return Cylinder(start=np.array(start, dtype=np.float64), axis=axis, length=length, radius=radius)


# A flange stands 28 mm from the axis: the distance of the tool's axis from x = 0 is 28, its radius varies.
@pytest.mark.parametrize(("radius", "met"), [(28.0, False), (28.05, False), (28.06, True), (27.0, False)])
def test_beside_a_flange(radius: float, met: bool) -> None:
    flange = boxes(((-1, -100, 0), (0, 100, 25)))
    assert cylinder_meets(_tool((28, 0, 0), 90, radius), flange).tolist() == [met]


# Nearest is the edge at (3, 4): 5 from the axis.
@pytest.mark.parametrize(("radius", "met"), [(5.0, False), (5.05, False), (5.06, True)])
def test_past_a_corner(radius: float, met: bool) -> None:
    corner = boxes(((3, 4, 0), (100, 100, 25)))
    assert cylinder_meets(_tool((0, 0, 0), 90, radius), corner).tolist() == [met]


@pytest.mark.parametrize(("start", "met"), [(1.6, False), (1.55, False), (1.54, True)])
def test_standing_on_the_stack(start: float, met: bool) -> None:
    stack = boxes(((-20, -20, 0.8), (20, 20, 1.6)))
    assert cylinder_meets(_tool((0, 0, start), 90, 10), stack).tolist() == [met]


@pytest.mark.parametrize(("length", "met"), [(40.0, False), (40.05, False), (40.06, True)])
def test_under_an_overhanging_flange(length: float, met: bool) -> None:
    flange = boxes(((5, -20, 40), (30, 20, 41)))
    assert cylinder_meets(_tool((0, 0, 0), length, 10), flange).tolist() == [met]


def test_a_piece_is_met_only_between_the_ends() -> None:
    pieces = boxes(((-50, 0, 0), (-40, 1, 5)), ((-9, 0, 0), (-8, 1, 5)), ((-9, 0, 200), (-8, 1, 205)))
    assert cylinder_meets(_tool((0, 0, 0), 90, 10), pieces).tolist() == [False, True, False]


def test_a_slanting_strip_is_cut_off_at_the_tool_s_ends() -> None:
    # A strip in the plane x = 40 - z: at z = 30, the tool's end, it is 10 from the axis, at z = 40 it meets
    # it.
    down = unit(np.array([1.0, 0.0, -1.0]))
    frame = np.column_stack([down, Y, np.cross(down, Y)])
    strip = boxes(((0, -5, 0), (80, 5, 1e-3)))
    strip = strip.moved(Pose(rotation=frame, translation=np.array([-10.0, 0.0, 50.0])))
    # Limits: z = 29.95 - 1e-6 gives x = 10.05 (+ 0.0014 for the thickness on the far side).
    assert cylinder_meets(_tool((0, 0, 0), 30, 10.09), strip).tolist() == [False]
    assert cylinder_meets(_tool((0, 0, 0), 30, 10.12), strip).tolist() == [True]
    assert cylinder_meets(_tool((0, 0, 0), 45, 1), strip).tolist() == [True]


def test_a_tool_inside_a_block_and_a_block_inside_a_tool() -> None:
    assert cylinder_meets(_tool((0, 0, 0), 5, 2), boxes(((-50, -50, -50), (50, 50, 50)))).tolist() == [True]
    assert cylinder_meets(_tool((0, 0, -50), 100, 60), boxes(((-1, -1, -1), (1, 1, 1)))).tolist() == [True]


def test_a_tool_no_longer_than_the_tolerances_meets_nothing() -> None:
    assert cylinder_meets(_tool((0, 0, 0), 0.1, 60), boxes(((-1, -1, -1), (1, 1, 1)))).tolist() == [False]


@pytest.mark.parametrize("make", [random_prisms, random_prismoids])
def test_cylinders_agree_with_shapely_s_hull_in_5000_random_cases(make: Callable[..., Solids]) -> None:
    rng = np.random.default_rng(31)
    solids = make(rng, 5000, 0.0)
    tools = []
    for k, pose in enumerate(random_poses(rng, 5000, 60.0)):
        axis = pose.rotation[0] if k % 3 else np.eye(3)[k % 2]
        length, radius = float(rng.choice([20.0, 90.0, 600.0])), float(rng.choice([3.0, 12.0, 50.0]))
        start = (pose.translation if k % 2 else np.zeros(3)) - axis * rng.uniform(-60.0, length)
        tools.append(Cylinder(start=start, axis=axis, length=length, radius=radius))
    radii = np.array([tool.radius for tool in tools])
    near = [_distance_by_hull(tool, vertices) for tool, vertices in zip(tools, solids.vertices, strict=True)]
    expected = np.array(near) < radii - LIMIT
    found = np.array([cylinder_meets(tool, solids.take([k]))[0] for k, tool in enumerate(tools)])
    np.testing.assert_array_equal(found, expected)
    assert 1000 < expected.sum() < 4000


def _distance_by_hull(tool: Cylinder, vertices: Array) -> float:
    """Return the distance of the tool's axis from what is left of the hull between its ends.

    Brute force: corners between the ends, and where the line between ANY two corners crosses an end.
    """
    across = any_across(tool.axis)
    frame = np.array([across, np.cross(tool.axis, across), tool.axis])
    local = (np.unique(vertices, axis=0) - tool.start) @ frame.T
    low, high = LIMIT, tool.length - LIMIT
    points = [local[(local[:, 2] > low) & (local[:, 2] < high)][:, :2]]
    first, second = (
        local[list(side)] for side in zip(*itertools.combinations(range(len(local)), 2), strict=True)
    )
    for level in (low, high):
        crossing = (first[:, 2] - level) * (second[:, 2] - level) < 0.0
        a, b = first[crossing], second[crossing]
        share = ((level - a[:, 2]) / (b[:, 2] - a[:, 2]))[:, None]
        points.append((a + (b - a) * share)[:, :2])
    left = np.concatenate(points)
    return float(shapely.MultiPoint(left).convex_hull.distance(shapely.Point(0, 0))) if len(left) else np.inf


def test_many_cylinders_equal_one_by_one(monkeypatch: pytest.MonkeyPatch) -> None:
    rng = np.random.default_rng(32)
    solids = random_prisms(rng, 50, 200.0, smallest=20.0)
    tools = [
        _tool((p.translation[0], p.translation[1], p.translation[2]), 200.0, 20.0, p.rotation[0])
        for p in random_poses(rng, 60, 300.0)
    ]
    monkeypatch.setattr("seqviz.geometry.access._PAIRS_AT_ONCE", 7)
    monkeypatch.setattr("seqviz.geometry.access._BOX_TESTS_AT_ONCE", 170)
    together = cylinders_meet(tools, solids)
    assert together.shape == (60, 50)
    assert together.sum() > 50
    monkeypatch.undo()
    for k, tool in enumerate(tools):
        np.testing.assert_array_equal(cylinder_meets(tool, solids), together[k])


def test_no_cylinders_or_no_pieces() -> None:
    assert cylinders_meet([], boxes(((0, 0, 0), (1, 1, 1)))).shape == (0, 1)
    assert cylinders_meet([_tool((0, 0, 0), 1, 1)], solids_of([])).shape == (1, 0)


@pytest.mark.parametrize(("gap", "met"), [(0.0, False), (-TOLERANCE, False), (-0.06, True)])
def test_round_numbers_in_2000_random_poses(gap: float, met: bool) -> None:
    # 28 mm tool, 14 mm from a flange's face and standing on a sheet: exact tangency twice.
    rng = np.random.default_rng(33)
    pieces = boxes(((-1, -300, 0), (14 - 14 - gap, 300, 25)), ((0, -300, -0.8), (60, 300, 0.0 - gap)))
    for pose in random_poses(rng, 2000, 5000.0):
        tool = Cylinder(
            start=pose.points(np.array([14.0, 0.0, 0.0])), axis=pose.vectors(Z), length=90.0, radius=14.0
        )
        assert cylinder_meets(tool, pieces.moved(pose)).tolist() == [met, met]


def test_line_spans_of_layers() -> None:
    # skin 0.8, rail 1.0 over it, a clear space of 2.2, a lid of 1.5
    stack = boxes(((0, 0, 0), (50, 50, 0.8)), ((0, 0, 0.8), (50, 50, 1.8)), ((0, 0, 4), (50, 50, 5.5)))
    up = line_spans(np.array([10.0, 10.0, 0.8]), Z, stack)
    np.testing.assert_allclose(up, [[-0.8, 0.0], [0.0, 1.0], [3.2, 4.7]], atol=1e-12)
    np.testing.assert_allclose(line_spans(np.array([10.0, 10.0, 0.8]), -Z, stack)[:, ::-1], -up, atol=1e-12)


def test_a_slanting_line_is_inside_for_longer() -> None:
    # 60 degrees off the normal: 2 mm of sheet are 4 mm of line.
    slope = np.array([np.sin(np.pi / 3), 0.0, 0.5])
    spans = line_spans(np.array([10.0, 10.0, -1.0]), slope, boxes(((0, 0, 0), (50, 50, 2))))
    np.testing.assert_allclose(spans, [[2.0, 6.0]], atol=1e-12)


@pytest.mark.parametrize(
    ("point", "axis"),
    [
        ((10, 5, 0), Z),  # along a side face
        ((10, 10, 0), Z),  # along an edge
        ((0, 20, 1), (1, -1, 0)),  # through the edge at (10, 10)
        ((0, 5, 2), X),  # in the top face
        ((-1, 5, 1), Z),  # past it
        ((10 + 1e-7, 5, 0), Z),
        ((10 - 1e-7, 5, 0), Z),
    ],
)
def test_touching_is_a_miss(point: tuple[float, float, float], axis: tuple[float, float, float]) -> None:
    block = boxes(((0, 0, 0), (10, 10, 2)))
    spans = line_spans(np.array(point, dtype=np.float64), unit(np.array(axis, dtype=np.float64)), block)
    assert np.isnan(spans).all()


def test_just_inside_is_a_hit() -> None:
    block = boxes(((0, 0, 0), (10, 10, 2)))
    np.testing.assert_allclose(line_spans(np.array([10 - 2e-6, 5.0, 0.0]), Z, block), [[0.0, 2.0]])


# An L of 100 by 100, 40 wide, 1 thick: it is cut along the line from (0, 0) to (40, 40).
ELL = np.array([[0.0, 0.0], [100.0, 0.0], [100.0, 40.0], [40.0, 40.0], [40.0, 100.0], [0.0, 100.0]])


@pytest.mark.parametrize(
    ("x", "y", "expected"),
    [
        (20.0, 20.0, [[0.0, 1.0]]),  # in the seam
        (20.0, 5.0, [[0.0, 1.0]]),
        (0.0, 50.0, []),  # along the outer face
        (0.0, 0.0, []),  # along the outer edge, where the seam ends
        (40.0, 40.0, []),  # along the inner edge, where it ends too
        (50.0, 50.0, []),
    ],
)
def test_a_seam_between_two_pieces_is_solid(x: float, y: float, expected: list[list[float]]) -> None:
    pieces = [Prism(polygon=piece, height=1.0, frame=IDENTITY) for piece in convex_pieces(ELL)]
    spans = solid_spans(np.array([x, y, 0.0]), Z, solids_of(pieces))
    np.testing.assert_allclose(spans, np.reshape(expected, (-1, 2)), atol=1e-12)


def test_a_seam_in_any_direction_is_solid() -> None:
    # A square cut in two, at any angle; the line in the middle of the cut, or at its end.
    middle, rim = np.zeros(3), np.array([0.0, 50.0, 0.0])
    for degrees in np.arange(0.0, 180.0, 0.25):
        halves = boxes(((-50, -50, -1), (0, 50, 1)), ((0, -50, -1), (50, 50, 1)))
        pose = Pose(rotation=frozen(turn_about(Z, degrees)), translation=np.zeros(3))
        halves = halves.moved(pose)
        np.testing.assert_allclose(solid_spans(middle, Z, halves), [[-1.0, 1.0]], atol=1e-12)
        assert solid_spans(pose.points(rim), Z, halves).shape == (0, 2)


def test_pieces_one_behind_the_other_are_one_span_and_a_clear_space_parts_them() -> None:
    column = boxes(
        ((0, 0, 0), (5, 9, 1)),
        ((5, 0, 0), (9, 9, 1)),
        ((0, 0, 1), (9, 9, 2.5)),
        ((0, 0, 4), (9, 9, 5)),
    )
    spans = solid_spans(np.array([5.0, 4.0, 0.0]), Z, column)
    np.testing.assert_allclose(spans, [[0.0, 2.5], [4.0, 5.0]], atol=1e-12)


@pytest.mark.parametrize("make", [random_prism, random_prismoid])
def test_spans_agree_with_linear_programs(make: Callable[..., Piece]) -> None:
    # Farthest and nearest point of the line among the mixtures of the corners.
    rng = np.random.default_rng(34)
    hits = 0
    for k, pose in enumerate(random_poses(rng, 300, 40.0)):
        piece = solids_of([make(rng, pose, smallest=10.0)])
        axis = random_axis(rng)
        corners = np.unique(piece.vertices[0], axis=0)
        point = (
            corners[0] * 0.5
            + corners[-1] * 0.3
            + corners.mean(axis=0) * 0.2
            + rng.normal(size=3) * (0.0 if k % 2 else 30.0)
        )
        spans = line_spans(point, axis, piece)[0]
        count = len(corners)
        mixture = np.zeros((4, count + 1))
        mixture[:3, :count], mixture[:3, count], mixture[3, :count] = corners.T, -axis, 1.0
        for sign, end in ((1.0, 0), (-1.0, 1)):
            program = linprog(
                np.append(np.zeros(count), sign),
                A_eq=mixture,
                b_eq=np.append(point, 1.0),
                bounds=[(0.0, None)] * count + [(None, None)],
            )
            assert program.success == (not np.isnan(spans[end]))
            if program.x is not None:
                assert program.x[-1] == pytest.approx(spans[end], abs=1e-5)
        hits += not np.isnan(spans[0])
    assert 100 < hits < 300
