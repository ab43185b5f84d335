"""Sheets triangulated in strips and welded together, and holes as polygons."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.parts.extrude import triangulated
from seqviz.parts.part import Flat, Hole

__all__ = ["in_strips", "rings_of", "together", "welded"]


def rings_of(flat: Flat, holes: Sequence[Hole], segments: int) -> Array:
    """Return the holes as regular polygons, ``(k, segments, 2)`` mm, in the flat's coordinates."""
    centres = np.array([hole.centre for hole in holes]).reshape(-1, 3)
    middles = ((centres - flat.frame.translation) @ flat.frame.rotation)[:, None, :2]
    turns = np.arange(segments) * (2 * math.pi / segments)
    spokes = np.column_stack([np.cos(turns), np.sin(turns)])
    radii = np.array([hole.diameter / 2 for hole in holes])
    return np.asarray(middles + radii[:, None, None] * spokes)


def together(rings: Array) -> shapely.Geometry:
    """Return ``(k, n, 2)`` rings as one region; holes that overlap, or lie on each other, are one."""
    # Hardly any hole overlaps another: this union is then 40 times as fast as the plain one.
    return shapely.disjoint_subset_union_all(shapely.polygons(rings))


def in_strips(strips: Iterable[shapely.Geometry], holes: shapely.Geometry) -> tuple[Array, NDArray[np.int64]]:
    """Return corners ``(n, 2)`` and triangles of strips side by side without ``holes``."""
    pieces = [triangulated(shapely.difference(strip, holes)) for strip in strips]
    offsets = np.cumsum([0] + [len(points) for points, _ in pieces])
    points = np.concatenate([points for points, _ in pieces])
    triangles = np.concatenate([t + start for (_, t), start in zip(pieces, offsets, strict=False)])
    return welded(points, triangles)


def welded(points: Array, triangles: NDArray[np.int64]) -> tuple[Array, NDArray[np.int64]]:
    """Join points at one place, which neighbouring strips share, and drop what that flattens."""
    _, first, index = np.unique(np.round(points, 6) + 0.0, axis=0, return_index=True, return_inverse=True)
    joined = index.reshape(-1)[triangles]
    a, b, c = joined.T
    return points[first], joined[(a != b) & (b != c) & (c != a)]
