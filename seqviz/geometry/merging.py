"""Triangles that share edges become few convex polygons."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from math import hypot

import numpy as np

from seqviz.geometry.pose import Array

__all__ = ["corners_of", "merged"]

_Point = tuple[float, float]
_Ring = tuple[_Point, ...]

# A corner that stands out (or in) by less than this, mm, is on the straight line between its neighbours.
_STRAIGHT = 1e-9


def corners_of(ring: Array | Sequence[_Point], *, convex: bool) -> list[int]:
    """Return the indices of the real corners of an anticlockwise ring, points on straight edges left out.

    With ``convex`` the answer is empty where any corner turns inward.
    """
    points = [(float(x), float(y)) for x, y in ring]
    offsets = [
        _stands_out(points[i - 1], points[i], points[(i + 1) % len(points)]) for i in range(len(points))
    ]
    if convex and min(offsets) < -_STRAIGHT:
        return []
    return [i for i, offset in enumerate(offsets) if abs(offset) > _STRAIGHT]


def merged(triangles: Sequence[Array], most: int) -> list[Array]:
    """Merge anticlockwise triangles over shared edges while the pieces stay convex with <= ``most`` corners.

    The pair with the thinnest piece goes first; among equals the one with the longest shared edge.
    """
    rings: dict[int, _Ring] = {i: tuple((float(x), float(y)) for x, y in t) for i, t in enumerate(triangles)}
    owner = {edge: i for i, ring in rings.items() for edge in _edges(ring)}
    queue = [entry for i in rings for entry in _offers(i, rings, owner)]
    heapq.heapify(queue)
    while queue:
        _, _, i, edge = heapq.heappop(queue)
        j = owner.get(edge[::-1])
        if owner.get(edge) != i or j is None or i == j:
            continue
        union = _union(rings[i], rings[j], edge)
        if union is None or not 3 <= len(corners_of(union, convex=True)) <= most:
            continue
        for gone in (i, j):
            for side in _edges(rings.pop(gone)):
                owner.pop(side, None)
        new = max(i, j) + len(triangles)
        rings[new] = union
        owner.update(dict.fromkeys(_edges(union), new))
        for entry in _offers(new, rings, owner):
            heapq.heappush(queue, entry)
    return [_tidy(ring) for ring in rings.values()]


_Entry = tuple[float, float, int, tuple[_Point, _Point]]


def _offers(i: int, rings: dict[int, _Ring], owner: dict[tuple[_Point, _Point], int]) -> Iterator[_Entry]:
    mine = _thickness(rings[i])
    for start, end in _edges(rings[i]):
        j = owner.get((end, start))
        if j is not None:
            length = hypot(end[0] - start[0], end[1] - start[1])
            yield min(mine, _thickness(rings[j])), -length, i, (start, end)


def _edges(ring: _Ring) -> list[tuple[_Point, _Point]]:
    return list(zip(ring, ring[1:] + ring[:1], strict=True))


def _stands_out(before: _Point, corner: _Point, after: _Point) -> float:
    """Return how far ``corner`` lies right of the line from ``before`` to ``after``, mm: > 0 is convex."""
    dx, dy = after[0] - before[0], after[1] - before[1]
    length = hypot(dx, dy)
    cross = (corner[0] - before[0]) * dy - (corner[1] - before[1]) * dx
    return cross / length if length > 0.0 else -np.inf


def _thickness(ring: _Ring) -> float:
    """Return the least width across any edge, mm, to a tenth so that near equals go by edge length."""
    widths = []
    for start, end in _edges(ring):
        dx, dy = end[0] - start[0], end[1] - start[1]
        far = max((y - start[1]) * dx - (x - start[0]) * dy for x, y in ring)
        widths.append(far / hypot(dx, dy))
    return round(min(widths), 1)


def _union(one: _Ring, other: _Ring, edge: tuple[_Point, _Point]) -> _Ring | None:
    """Return both rings sewn along ``edge`` of ``one`` into one, or None where nothing is left of it."""
    start, end = edge
    i, j = one.index(end), other.index(start)
    sewn = one[i:] + one[:i] + (other[j:] + other[:j])[1:-1]
    while len(sewn) > 2:
        folds = [k for k in range(len(sewn)) if sewn[k - 1] == sewn[(k + 1) % len(sewn)]]
        if not folds:
            return sewn
        gone = {folds[0], (folds[0] + 1) % len(sewn)}
        sewn = tuple(point for k, point in enumerate(sewn) if k not in gone)
    return None


def _tidy(ring: _Ring) -> Array:
    kept = corners_of(ring, convex=False)
    return np.array([ring[k] for k in kept])
