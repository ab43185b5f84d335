from __future__ import annotations

import numpy as np
import shapely

from seqviz.parts.extrude import closed, triangulated


def test_a_square_becomes_a_box() -> None:
    points, triangles = triangulated(shapely.box(0, 0, 2, 3))
    assert (len(points), len(triangles)) == (4, 2)
    faces = closed(triangles, 4)
    assert len(faces) == 12  # two on each of six sides
    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]).tolist()
    assert len({tuple(edge) for edge in edges}) == 36  # each way along each edge once
    assert all([b, a] in edges for a, b in edges)


def test_openings_and_several_regions() -> None:
    ring = shapely.box(0, 0, 4, 4).difference(shapely.box(1, 1, 2, 2))
    points, triangles = triangulated(shapely.union(ring, shapely.box(10, 0, 11, 1)))
    a, b, c = (points[triangles[:, k]] for k in range(3))
    areas = ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2
    assert areas.min() > 0
    assert areas.sum() == 16  # 4 x 4 - 1 + 1


def test_nothing_left() -> None:
    points, triangles = triangulated(shapely.Polygon())
    assert (len(points), len(triangles)) == (0, 0)
