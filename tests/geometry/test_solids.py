from __future__ import annotations

import numpy as np

from seqviz.geometry.pose import IDENTITY, Array, Pose, frozen, turn_about
from seqviz.geometry.prism import Prism, Prismoid
from seqviz.geometry.solids import joined, solids_of
from tests.geometry.prisms import box, boxes, random_prism, random_prisms

Z = np.array([0.0, 0.0, 1.0])


def _triangle() -> Prism:
    frame = Pose(rotation=frozen(turn_about(Z, 90.0)), translation=np.array([100.0, 0.0, 5.0]))
    return Prism(polygon=np.array([[0.0, 0.0], [30.0, 0.0], [0.0, 40.0]]), height=2.0, frame=frame)


def test_a_box_has_three_normals_three_edges_and_eight_corners() -> None:
    solids = solids_of([box((1, 2, 3), (11, 22, 33))])
    assert len(solids) == 1
    assert solids.vertices.shape == (1, 8, 3)
    np.testing.assert_array_equal(np.abs(solids.normals[0]), [[0, 0, 1], [0, 1, 0], [1, 0, 0]])
    np.testing.assert_array_equal(np.abs(solids.edges[0]), [[0, 0, 1], [1, 0, 0], [0, 1, 0]])
    np.testing.assert_array_equal(solids.low, [[1, 2, 3]])
    np.testing.assert_array_equal(solids.high, [[11, 22, 33]])


def test_vertices_go_corner_by_corner_up_and_down() -> None:
    # The frame turns x to y and y to -x: (30, 0) -> (100, 30), (0, 40) -> (60, 0).
    expected = [[100, 0, 5], [100, 0, 7], [100, 30, 5], [100, 30, 7], [60, 0, 5], [60, 0, 7]]
    np.testing.assert_allclose(solids_of([_triangle()]).vertices[0], expected, atol=1e-12)


def test_a_right_triangle_keeps_its_slanting_edge() -> None:
    solids = solids_of([_triangle()])
    # From (30, 0) to (0, 40): direction (-3, 4)/5, turned by 90 degrees (-4, -3)/5; its normal is (3, -4)/-5.
    np.testing.assert_allclose(solids.edges[0, 2], [-0.8, -0.6, 0.0], atol=1e-12)
    np.testing.assert_allclose(np.abs(solids.normals[0, 2]), [0.6, 0.8, 0.0], atol=1e-12)


def test_shorter_pieces_are_padded_with_what_they_have() -> None:
    solids = solids_of([_triangle(), box((0, 0, 0), (1, 1, 1))])
    assert solids.vertices.shape == (2, 8, 3)
    np.testing.assert_array_equal(solids.vertices[0, 6:], solids.vertices[0, 4:6])
    assert solids.normals.shape == (2, 4, 3)
    np.testing.assert_allclose(solids.normals[1, 3], solids.normals[1, 1], atol=1e-15)


def _different(rows: Array) -> Array:
    return np.asarray(np.unique(np.round(rows, 9) + 0.0, axis=0))


def test_joining_equals_building_at_once() -> None:
    prisms = [_triangle(), box((0, 0, 0), (1, 1, 1)), box((5, 5, 5), (7, 8, 9))]
    whole, sewn = solids_of(prisms), joined([solids_of(prisms[:1]), solids_of(prisms[1:])])
    assert len(sewn) == 3
    for k in range(3):
        for name in ("vertices", "normals", "edges"):
            ours, theirs = getattr(sewn, name)[k], getattr(whole, name)[k]
            np.testing.assert_allclose(_different(ours), _different(theirs), atol=1e-12)
    np.testing.assert_array_equal(sewn.low, whole.low)
    np.testing.assert_array_equal(sewn.high, whole.high)


def test_nothing_joins_nothing() -> None:
    empty = solids_of([])
    assert len(empty) == 0
    assert len(joined([])) == 0
    assert len(empty.moved(IDENTITY)) == 0
    np.testing.assert_array_equal(joined([empty, boxes(((0, 0, 0), (1, 2, 3)))]).high, [[1, 2, 3]])


def test_moving_carries_corners_directions_and_boxes() -> None:
    pose = Pose(rotation=frozen(turn_about(Z, 90.0)), translation=np.array([10.0, 0.0, 0.0]))
    moved = solids_of([box((0, 0, 0), (4, 2, 1))]).moved(pose)
    # x goes to y, y goes to -x: the box spans x 10-2 .. 10, y 0 .. 4.
    np.testing.assert_allclose(moved.low, [[8, 0, 0]], atol=1e-12)
    np.testing.assert_allclose(moved.high, [[10, 4, 1]], atol=1e-12)
    np.testing.assert_allclose(np.abs(moved.edges[0, 1]), [0, 1, 0], atol=1e-12)


def test_taking_keeps_the_order_asked_for() -> None:
    solids = boxes(((0, 0, 0), (1, 1, 1)), ((2, 0, 0), (3, 1, 1)), ((4, 0, 0), (5, 1, 1)))
    np.testing.assert_array_equal(solids.take([2, 0]).low[:, 0], [4, 0])
    np.testing.assert_array_equal(solids.take(slice(1, 3)).low[:, 0], [2, 4])
    assert len(solids.take([])) == 0


def test_normals_are_outward_or_inward_unit_vectors_of_true_faces() -> None:
    solids = random_prisms(np.random.default_rng(7), 60, 100.0)
    np.testing.assert_allclose(np.linalg.norm(solids.normals, axis=2), 1.0, atol=1e-12)
    heights = solids.vertices @ solids.normals.transpose(0, 2, 1)
    # A face holds four corners (a polygon's side) or at least three (an end face) at its extreme height.
    at_top = (heights.max(axis=1, keepdims=True) - heights < 1e-9).sum(axis=1)
    at_bottom = (heights - heights.min(axis=1, keepdims=True) < 1e-9).sum(axis=1)
    assert (np.maximum(at_top, at_bottom) >= 3).all()


def test_a_regular_octagon_has_four_side_normals() -> None:
    turn = np.arange(8) * np.pi / 4.0
    octagon = Prism(polygon=np.column_stack([np.cos(turn), np.sin(turn)]) * 20.0, height=3.0, frame=IDENTITY)
    assert solids_of([octagon]).normals.shape == (1, 5, 3)


def test_a_prism_written_as_a_prismoid_is_the_same_solid() -> None:
    prism = solids_of([_triangle()])
    ring = prism.vertices[0]
    prismoid = solids_of([Prismoid(bottom=ring[0::2], top=ring[1::2])])
    np.testing.assert_array_equal(prismoid.vertices, prism.vertices)
    for name in ("normals", "edges"):
        ours, theirs = np.abs(getattr(prismoid, name)[0]), np.abs(getattr(prism, name)[0])
        np.testing.assert_allclose(_different(ours), _different(theirs), atol=1e-12)


def test_a_pyramid_has_its_own_faces_and_edges_only() -> None:
    square = np.array([[0.0, 0, 0], [2, 0, 0], [2, 2, 0], [0, 2, 0]])
    solids = solids_of([Prismoid(bottom=square, top=np.tile([1.0, 1.0, 1.0], (4, 1)))])
    # Its sides rise 1 over 1: normals (0, -1, 1), (1, 0, 1), (0, 1, 1), (-1, 0, 1), and the bottom's.
    half = np.sqrt(0.5)
    assert solids.normals.shape == (1, 5, 3)
    faces = solids.normals[0] * np.where(solids.normals[0][:, 2:] < 0, -1.0, 1.0)
    expected = [[0, 0, 1], [0, -half, half], [half, 0, half], [0, half, half], [-half, 0, half]]
    np.testing.assert_allclose(_different(faces), _different(np.array(expected)), atol=1e-9)
    # Two directions around the bottom, four that rise.
    assert solids.edges.shape == (1, 6, 3)


def test_prisms_and_prismoids_keep_their_order() -> None:
    square = np.array([[0.0, 0, 0], [2, 0, 0], [2, 2, 0], [0, 2, 0]])
    first, last = (Prismoid(bottom=square + up, top=square + up + [0.0, 0.0, 1.0]) for up in (10.0, 30.0))
    solids = solids_of([first, box((0, 0, 20), (1, 1, 21)), last, _triangle()])
    np.testing.assert_allclose(solids.low[:, 2], [10, 20, 30, 5])


def test_arrays_are_read_only() -> None:
    solids = solids_of([random_prism(np.random.default_rng(1), IDENTITY)])
    assert not solids.vertices.flags.writeable
    assert not solids.normals.flags.writeable
