"""The axes on which two convex prisms can be told apart, and the shadows of pieces on them.

Two convex solids are apart exactly if their shadows are apart on a face normal of one of them or on a cross
product of two of their edges. Any further unit axis does no harm: on it the shadows overlap at least as much.

Arrays keep the pair in the last place, so that numpy works along long rows.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.geometry.solids import Solids

__all__ = ["edge_axes", "face_axes", "runs", "shadows"]

# Below this sine two edges are parallel and their cross product is noise. Skipping an axis that counts is
# wrong by sine x length: 5e-5 mm on 5 m. (1e-4 would make it 0.5 mm: long strips that cross at a flat angle.)
_PARALLEL = 1e-8
_NUMBERS_AT_ONCE = 400_000


def runs(pairs: int, axes: int) -> Iterator[slice]:
    """Cut a number of pairs into runs for which arrays of ``axes`` numbers a pair stay small."""
    size = max(1, _NUMBERS_AT_ONCE // max(1, axes))
    for start in range(0, pairs, size):
        yield slice(start, start + size)


def face_axes(a: Solids, b: Solids, pairs: NDArray[np.intp]) -> Array:
    """Return the ``(3, A, k)`` face normals of both pieces of each pair."""
    both = np.concatenate([a.normals[pairs[:, 0]], b.normals[pairs[:, 1]]], axis=1)
    return np.ascontiguousarray(both.transpose(2, 1, 0))


def edge_axes(a: Solids, b: Solids, pairs: NDArray[np.intp]) -> Array:
    """Return ``(3, A, k)`` unit cross products of the edges of both; parallel edges give a face normal."""
    ax, ay, az = np.ascontiguousarray(a.edges[pairs[:, 0]].transpose(2, 1, 0))[:, :, None]
    bx, by, bz = np.ascontiguousarray(b.edges[pairs[:, 1]].transpose(2, 1, 0))[:, None]
    cross = np.stack([ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx])
    cross = cross.reshape(3, -1, len(pairs))
    length = np.sqrt((cross * cross).sum(axis=0))
    good = length > _PARALLEL
    spare = a.normals[pairs[:, 0], 0].T[:, None]
    return np.where(good, cross / np.where(good, length, 1.0), spare)


def shadows(vertices: Array, axes: Array) -> tuple[Array, Array]:
    """Return the ``(A, k)`` lowest and highest value of ``(k, V, 3)`` vertices on ``(3, A, k)`` axes, mm."""
    x, y, z = axes
    corners = np.ascontiguousarray(vertices.transpose(1, 2, 0))
    low = np.full(x.shape, np.inf)
    high = np.full(x.shape, -np.inf)
    for px, py, pz in corners:
        value = x * px
        value += y * py
        value += z * pz
        np.minimum(low, value, out=low)
        np.maximum(high, value, out=high)
    return low, high
