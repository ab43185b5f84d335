from __future__ import annotations

import numpy as np
import pytest

from seqviz.geometry.pose import IDENTITY, Array, Pose, frozen, turn_about
from seqviz.geometry.prism import Prism
from seqviz.geometry.separation import (
    GUARD,
    TOLERANCE,
    close_pairs,
    deepest,
    depths,
    interfere,
)
from seqviz.geometry.solids import Solids, joined, solids_of
from tests.geometry.minkowski import depth_by_hull, random_cases
from tests.geometry.prisms import box, boxes, posed, random_poses, random_prisms

X, Y, Z = np.eye(3)


def _depth(a: Solids, b: Solids) -> float:
    return float(depths(a, b, np.array([[0, 0]]))[0])


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        ((0, 0, 1), (10, 10, 2), 0.0),  # lies flush on top
        ((10, 0, 0), (20, 10, 1), 0.0),  # butts against the side
        ((0, 0, 0.9), (10, 10, 2), 0.1),  # 0.1 into the top
        ((2, 2, -5), (3, 3, 5), 3.0),  # a square post through it: out by x, 3 to the nearer side
        ((9.5, 9.8, 0), (20, 20, 1), 0.2),  # corner over corner: 0.5 and 0.2
        ((4, 4, 0.4), (5, 5, 0.5), 0.5),  # wholly inside: 0.5 to the bottom
        ((0, 0, 3), (10, 10, 4), -2.0),  # 2 clear
        ((13, 14, 0), (20, 20, 1), -4.0),  # clear by 3 and 4: the wider one shows
    ],
)
def test_depths_of_boxes(low: tuple[float, ...], high: tuple[float, ...], expected: float) -> None:
    plate = boxes(((0, 0, 0), (10, 10, 1)))
    other = solids_of([box((low[0], low[1], low[2]), (high[0], high[1], high[2]))])
    assert _depth(plate, other) == pytest.approx(expected, abs=1e-12)
    assert _depth(other, plate) == pytest.approx(expected, abs=1e-12)


def test_an_edge_on_an_edge_needs_their_cross_product() -> None:
    # Two square bars stand on their edges and cross at right angles, one above the other, edges 0.2 deep.
    # Faces slope by 45 degrees and show at least 10 mm of overlap; only z = x cross y tells.
    along_x = _bar_on_edge(20.0, Pose(rotation=frozen(np.column_stack([Y, Z, X])), translation=np.zeros(3)))
    diagonal = 20.0 * np.sqrt(2.0)
    lifted = Pose(rotation=frozen(np.column_stack([Z, X, Y])), translation=np.array([0, 0, diagonal - 0.2]))
    assert _depth(along_x, _bar_on_edge(20.0, lifted)) == pytest.approx(0.2, abs=1e-12)


def _bar_on_edge(side: float, pose: Pose, length: float = 1000.0) -> Solids:
    half = side / np.sqrt(2.0)
    polygon = np.array([[half, 0.0], [0.0, half], [-half, 0.0], [0.0, -half]])
    down = Pose(rotation=IDENTITY.rotation, translation=np.array([0.0, 0.0, -length / 2.0]))
    return solids_of([Prism(polygon=polygon, height=length, frame=pose.after(down))])


def test_long_strips_that_cross_at_a_flat_angle_are_not_flagged() -> None:
    # Edge on edge over 5 m at 5e-5 rad (sine below 1e-4): they touch in one point. Without the cross product
    # of the edges the faces would show 2500 * 5e-5 / sqrt(2) = 0.088 mm.
    lower = Pose(rotation=frozen(np.column_stack([Y, Z, X])), translation=np.zeros(3))
    turned = Pose(
        rotation=frozen(turn_about(Z, np.degrees(5e-5)) @ lower.rotation),
        translation=np.array([0.0, 0.0, 20.0 * np.sqrt(2.0)]),
    )
    one, other = _bar_on_edge(20.0, lower, 5000.0), _bar_on_edge(20.0, turned, 5000.0)
    assert _depth(one, other) == pytest.approx(0.0, abs=1e-7)
    assert not interfere(one, other)


@pytest.mark.parametrize("tapered", [False, True])
def test_depths_agree_with_the_hull_of_differences_in_5000_random_cases(tapered: bool) -> None:
    cases = random_cases(20, 5000, tapered)
    found = depths(cases.a, cases.b, np.stack([np.arange(5000)] * 2, axis=1))
    expected = np.array([depth_by_hull(faces) for faces in cases.faces])
    meeting = expected > 0.0
    assert 2000 < meeting.sum() < 4500
    np.testing.assert_array_equal(found > 0.0, meeting)
    np.testing.assert_allclose(found[meeting], expected[meeting], atol=1e-9)
    # Apart, the faces of the hull are fewer axes than ours: they cannot show more clear space.
    assert (found[~meeting] <= expected[~meeting] + 1e-9).all()


@pytest.mark.parametrize("by", ["face", "edge"])
def test_sheets_in_10000_random_poses(by: str) -> None:
    rng = np.random.default_rng(3)
    poses = random_poses(rng, 10_000, 5000.0)
    sizes = np.column_stack([rng.uniform(20.0, 5000.0, (10_000, 4)), rng.uniform(0.4, 3.2, (10_000, 2))])
    lower = solids_of([_lower(size, pose) for size, pose in zip(sizes, poses, strict=True)])
    pairs = np.stack([np.arange(10_000)] * 2, axis=1)
    flagged = {}
    for deep in (0.0, TOLERANCE, 0.06):
        upper = solids_of([_upper(size, deep, by, pose) for size, pose in zip(sizes, poses, strict=True)])
        found = depths(lower, upper, pairs)
        np.testing.assert_allclose(found, deep, atol=1e-7)
        flagged[deep] = int((found > TOLERANCE + GUARD).sum())
    assert flagged == {0.0: 0, TOLERANCE: 0, 0.06: 10_000}


def _lower(size: Array, pose: Pose) -> Prism:
    return posed(box((0, 0, 0), (size[0], size[1], size[4])), pose)


def _upper(size: Array, deep: float, by: str, pose: Pose) -> Prism:
    """Return a sheet with its corner on the lower one's, or its edge against that one's, ``deep`` in it."""
    x, y, z = (
        (size[0] - 10.0, size[1] - 10.0, size[4] - deep) if by == "face" else (size[0] - deep, -5.0, -0.1)
    )
    return posed(box((x, y, z), (x + size[2], y + size[3], z + size[5])), pose)


@pytest.mark.parametrize(("deep", "flagged"), [(0.0, False), (TOLERANCE, False), (0.06, True)])
def test_parts_of_several_pieces_carried_by_a_pose(deep: float, flagged: bool) -> None:
    rng = np.random.default_rng(8)
    lower = boxes(((0, 0, 0), (200, 600, 0.8)), ((200, 0, 0), (620, 600, 0.8)))
    upper = boxes(((600, 20, 0.8 - deep), (700, 80, 2)), ((600, 80, 0.8 - deep), (700, 120, 2)))
    poses = random_poses(rng, 300, 5000.0)
    assert [interfere(lower.moved(pose), upper.moved(pose)) for pose in poses] == [flagged] * 300


def test_interfere_and_deepest_ask_all_pieces() -> None:
    rng = np.random.default_rng(11)
    for _ in range(60):
        a, b = random_prisms(rng, 6, 250.0), random_prisms(rng, 7, 250.0)
        every = np.stack(np.meshgrid(np.arange(6), np.arange(7)), axis=-1).reshape(-1, 2)
        most = depths(a, b, every).max()
        assert interfere(a, b) == (most > TOLERANCE + GUARD)
        if most > 0.0:
            assert deepest(a, b) == pytest.approx(most, abs=1e-9)
        else:
            assert deepest(a, b) <= most + 1e-9


def test_the_deepest_of_many_pairs_need_not_look_deepest_by_its_faces() -> None:
    # Two bars that cross edge on edge, 0.2 deep, show 0.2 by their edges only; a plate lies 0.5 in a plate.
    # 100 such crossings come first by their faces.
    bar = _bar_on_edge(20.0, Pose(rotation=frozen(np.column_stack([Y, Z, X])), translation=np.zeros(3)), 60.0)
    over = Pose(rotation=frozen(np.column_stack([Z, X, Y])), translation=np.array([0, 0, 800.0**0.5 - 0.2]))
    crossing = _bar_on_edge(20.0, over, 60.0)
    places = [Pose(rotation=np.eye(3), translation=np.array([100.0 * k, 0, 0])) for k in range(100)]
    lower = joined([*(bar.moved(place) for place in places), boxes(((0, 500, 0), (50, 550, 1)))])
    upper = joined([*(crossing.moved(place) for place in places), boxes(((0, 500, 0.5), (50, 550, 2)))])
    assert deepest(lower, upper) == pytest.approx(0.5, abs=1e-9)


def test_nothing_near_is_minus_infinity() -> None:
    plate = boxes(((0, 0, 0), (10, 10, 1)))
    assert deepest(plate, boxes(((0, 0, 2), (10, 10, 3)))) == -np.inf
    assert deepest(plate, solids_of([])) == -np.inf
    assert not interfere(plate, solids_of([]))
    assert not interfere(solids_of([]), plate)


def test_close_pairs_are_those_whose_boxes_touch() -> None:
    a = boxes(((0, 0, 0), (10, 10, 1)), ((100, 0, 0), (110, 10, 1)))
    b = boxes(((0, 0, 1), (10, 10, 2)), ((0, 0, 1.4), (10, 10, 2)), ((110, 10, 1), (120, 20, 2)))
    assert close_pairs(a, b).tolist() == [[0, 0], [1, 2]]
    assert close_pairs(a, b, 0.5).tolist() == [[0, 0], [0, 1], [1, 2]]
    assert close_pairs(a, b, -0.1).tolist() == []


def test_close_pairs_of_many_pieces_equal_all_against_all(monkeypatch: pytest.MonkeyPatch) -> None:
    rng = np.random.default_rng(2)
    a, b = random_prisms(rng, 300, 2000.0), random_prisms(rng, 200, 2000.0)
    near = ((a.low[:, None] <= b.high + 5.0) & (b.low <= a.high[:, None] + 5.0)).all(axis=2)
    monkeypatch.setattr("seqviz.geometry.separation._BOX_TESTS_AT_ONCE", 7 * 200)
    np.testing.assert_array_equal(close_pairs(a, b, 5.0), np.argwhere(near))


def test_depths_do_not_depend_on_how_pairs_are_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    rng = np.random.default_rng(4)
    a, b = random_prisms(rng, 40, 200.0), random_prisms(rng, 40, 200.0)
    pairs = close_pairs(a, b)
    whole = depths(a, b, pairs)
    monkeypatch.setattr("seqviz.geometry.axes._NUMBERS_AT_ONCE", 500)
    np.testing.assert_array_equal(depths(a, b, pairs), whole)
