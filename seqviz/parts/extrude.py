"""From a flat region to the triangles of a closed solid."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.pose import Array

__all__ = ["closed", "triangulated"]


def triangulated(region: shapely.Geometry) -> tuple[Array, NDArray[np.int64]]:
    """Return the corners ``(n, 2)`` and anticlockwise triangles ``(m, 3)`` of a polygon with its openings.

    Each ring keeps its own corners, so that rings that touch at a point do not make one edge of four faces.
    """
    from mapbox_earcut import triangulate_float64

    points: list[Array] = [np.zeros((0, 2))]
    triangles: list[NDArray[np.int64]] = [np.zeros((0, 3), dtype=np.int64)]
    count = 0
    for polygon in shapely.get_parts(region):
        if polygon.geom_type != "Polygon" or polygon.is_empty:
            continue
        rings = [np.asarray(ring.coords)[:-1, :2] for ring in (polygon.exterior, *polygon.interiors)]
        corners = np.ascontiguousarray(np.concatenate(rings), dtype=np.float64)
        ends = np.cumsum([len(ring) for ring in rings]).astype(np.uint32)
        found = np.asarray(triangulate_float64(corners, ends), dtype=np.int64).reshape(-1, 3)
        points.append(corners)
        triangles.append(_anticlockwise(corners, found) + count)
        count += len(corners)
    return np.concatenate(points), np.concatenate(triangles)


def closed(triangles: NDArray[np.int64], count: int) -> NDArray[np.int64]:
    """Return the faces of the solid between two layers of the same ``count`` points.

    ``triangles`` are those of the first layer; point k of the second layer has the index k + ``count``. Every
    edge that borders one triangle only gets a wall.
    """
    edges = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    there, back = edges @ [count, 1], edges @ [1, count]
    start, end = edges[~np.isin(there, back)].T
    walls = [np.column_stack([start, end, end + count]), np.column_stack([start, end + count, start + count])]
    return np.concatenate([triangles[:, ::-1], triangles + count, *walls])


def _anticlockwise(points: Array, triangles: NDArray[np.int64]) -> NDArray[np.int64]:
    a, b, c = (points[triangles[:, k]] for k in range(3))
    (x1, y1), (x2, y2) = (b - a).T, (c - a).T
    clockwise = x1 * y2 - x2 * y1 < 0
    return np.where(clockwise[:, None], triangles[:, ::-1], triangles)
