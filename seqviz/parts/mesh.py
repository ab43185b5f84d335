"""Watertight meshes of parts, holes and openings cut, for pictures and export."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.parts.extrude import closed, triangulated
from seqviz.parts.fold import fold_of, folded
from seqviz.parts.part import Flat, Hole, Part

__all__ = ["Mesh", "mesh_of"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """Triangles of a closed surface.

    Attributes
    ----------
    vertices
        ``(n, 3)`` float64, mm, part frame.
    faces
        ``(m, 3)`` int64, vertices of each triangle, anticlockwise seen from outside.
    """

    vertices: Array
    faces: NDArray[np.int64]


def mesh_of(part: Part, segments: int = 16) -> Mesh:
    """Return the surface of ``part``; each hole is a regular polygon of ``segments`` corners on its circle.

    A skin or plate is triangulated flat and pulled up to its thickness. An angle is triangulated as a flat
    pattern in strips cut at the bend lines, welded, pulled up and folded. Of a bar or block only the holes
    that go one way are cut, those of the flats with most holes: crossing holes are left to the marks drawn on
    top.
    """
    if part.shape == "angle":
        vertices, faces = _angle(part, segments)
    else:
        vertices, faces = _straight(part, segments)
    return Mesh(vertices=vertices, faces=_outside_out(vertices, faces))


def _straight(part: Part, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return a part that is one outline pulled along its normal."""
    flat = _busiest(part)
    level = np.abs(np.array([h.axis @ flat.frame.rotation[:, 2] for h in part.holes])) > 0.5
    holes = [_round(flat, hole, segments) for hole, cut in zip(part.holes, level, strict=True) if cut]
    sheet = shapely.Polygon(flat.outline, flat.openings)
    points, triangles = triangulated(shapely.difference(sheet, shapely.union_all(holes)))
    low = np.column_stack([points, np.zeros(len(points))])
    high = np.column_stack([points, np.full(len(points), flat.thickness)])
    return flat.frame.points(np.concatenate([low, high])), closed(triangles, len(points))


def _busiest(part: Part) -> Flat:
    """Return the flat across which most holes go; opposite flats count together."""
    flats = list(part.flats.values())
    axes = np.array([hole.axis for hole in part.holes]).reshape(-1, 3)
    counts = [int((np.abs(axes @ flat.frame.rotation[:, 2]) > 0.5).sum()) for flat in flats]
    return flats[int(np.argmax(counts))]


def _angle(part: Part, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return a part that is a flat pattern folded at one bend."""
    fold = fold_of(part)
    holes = shapely.union_all(
        [
            shapely.transform(_round(part.flats[h.flat], h, segments), fold.unrolled(h.flat))
            for h in part.holes
        ]
    )
    pieces = [triangulated(shapely.difference(strip, holes)) for strip in fold.strips(part)]
    offsets = np.cumsum([0] + [len(points) for points, _ in pieces])
    points = np.concatenate([points for points, _ in pieces])
    triangles = np.concatenate([t + start for (_, t), start in zip(pieces, offsets, strict=False)])
    points, triangles = _welded(points, triangles)
    vertices = np.concatenate([folded(fold, points, 0.0), folded(fold, points, 1.0)])
    # Of a bend that is sharp inside all inner lines come to lie on one.
    return _welded(vertices, closed(triangles, len(points)))


def _round(flat: Flat, hole: Hole, segments: int) -> shapely.Polygon:
    """Return the hole as a regular polygon in the flat's coordinates, mm."""
    centre = ((hole.centre - flat.frame.translation) @ flat.frame.rotation)[:2]
    turns = np.arange(segments) * (2 * math.pi / segments)
    return shapely.Polygon(centre + hole.diameter / 2 * np.column_stack([np.cos(turns), np.sin(turns)]))


def _welded(points: Array, triangles: NDArray[np.int64]) -> tuple[Array, NDArray[np.int64]]:
    """Join points at one place, which neighbouring strips share, and drop what that flattens."""
    _, first, index = np.unique(np.round(points, 6) + 0.0, axis=0, return_index=True, return_inverse=True)
    joined = index.reshape(-1)[triangles]
    a, b, c = joined.T
    return points[first], joined[(a != b) & (b != c) & (c != a)]


def _outside_out(vertices: Array, faces: NDArray[np.int64]) -> NDArray[np.int64]:
    """Turn all triangles round where they enclose a negative volume."""
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    volume = np.einsum("ij,ij->", a, np.cross(b, c))
    return faces if volume >= 0 else faces[:, ::-1]
