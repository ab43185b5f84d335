from __future__ import annotations

import numpy as np

from seqviz.parts.welding import bodies_of, open_edges, surface_of
from tests.parts.surfaces import ball, box


def test_common_corners_are_joined() -> None:
    surface = surface_of(box((10, 20, 30)))
    assert (len(surface.vertices), len(surface.faces)) == (8, 12)
    assert len(open_edges(surface)) == 0


def test_a_ball_has_as_many_triangles_as_said() -> None:
    assert len(ball(10, 10)) == 180
    assert len(open_edges(surface_of(ball(10, 10)))) == 0


def test_a_surface_inside_out_is_turned() -> None:
    right, wrong = surface_of(box((10, 20, 30))), surface_of(box((10, 20, 30))[:, ::-1])
    assert np.array_equal(np.sort(right.faces[:, [0, 1, 2]], axis=1), np.sort(wrong.faces, axis=1))
    a, b, c = (wrong.vertices[wrong.faces[:, k]] for k in range(3))
    assert np.einsum("ij,ij->", a, np.cross(b, c)) / 6 == 6000.0


def test_triangles_without_area_do_not_open_a_surface() -> None:
    triangles = box((10, 20, 30))
    flat = np.array([[[0, 0, 0], [0, 0, 0], [10, 0, 0]], [[0, 0, 0], [0, 0, 0], [0, 0, 0]]], dtype=float)
    surface = surface_of(np.concatenate([triangles, flat]))
    assert len(surface.faces) == 12
    assert len(open_edges(surface)) == 0


def test_open_edges_are_those_of_the_missing_triangle() -> None:
    surface = surface_of(box((10, 20, 30))[:-1])
    assert len(open_edges(surface)) == 3


def test_bodies_share_no_corner() -> None:
    surface = surface_of(np.concatenate([box((10, 10, 10), (30 * k, 0, 0)) for k in range(3)]))
    bodies = bodies_of(surface)
    assert sorted(np.bincount(bodies).tolist()) == [12, 12, 12]
    assert len({tuple(np.unique(bodies[start : start + 12])) for start in (0, 12, 24)}) == 3
