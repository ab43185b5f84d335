"""Straight ways in and out: does a part, moved along a direction, run into what is there."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.axes import edge_axes, face_axes, runs, shadows
from seqviz.geometry.pose import Array
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.geometry.solids import Solids

__all__ = ["Stay", "stays", "sweep_meets"]

_LIMIT = TOLERANCE + GUARD

# Along an axis that is square to the way within this the part does not move: 1e-8 mm over 10 m.
_SQUARE = 1e-12
_SPANS_AT_ONCE = 500_000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Open:
    """Pairs that may still meet: ``(k, 2)`` indices, and ``(d, k)`` from when to when on each way, mm."""

    pairs: NDArray[np.intp]
    begin: Array
    end: Array

    @property
    def meeting(self) -> NDArray[np.bool_]:
        return np.asarray(self.begin < self.end)

    def take(self, chosen: NDArray[np.bool_] | slice) -> _Open:
        return _Open(pairs=self.pairs[chosen], begin=self.begin[:, chosen], end=self.end[:, chosen])

    def worth(self, met: NDArray[np.bool_]) -> _Open:
        """Keep the pairs that can still tell something about a way on which nothing is met so far."""
        return self.take(np.asarray(self.meeting[~met].any(axis=0)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Stay:
    """Two pieces, one of them moved: from ``begin`` to ``end``, mm, they meet by more than the tolerance.

    From ``clear`` on they only touch or are apart.
    """

    begin: float
    end: float
    clear: float


def sweep_meets(
    moving: Solids, fixed: Solids, directions: Array, length: float = np.inf
) -> NDArray[np.bool_]:
    """Tell along which directions ``moving`` runs into ``fixed``.

    Parameters
    ----------
    moving, fixed
        Pieces in one frame, mm, where they stand before the move.
    directions
        ``(d, 3)`` unit vectors.
    length
        mm, how far the move goes.

    Returns
    -------
    meets
        ``(d,)``: does any piece of ``moving``, somewhere on the way from its place on, penetrate any piece of
        ``fixed`` by more than the tolerance. Sliding along a flush face, leaving it or stopping at it is
        free.

    Notes
    -----
    Exact. On each axis the shadows overlap by more than the tolerance during one span of the move; two pieces
    meet while the spans of all axes last. Boxes come first, then faces, then edges, and only the pairs that
    are still open go on.
    """
    ways = np.asarray(directions, dtype=np.float64).reshape(-1, 3)
    met = np.zeros(len(ways), dtype=bool)
    faces = moving.normals.shape[1] + fixed.normals.shape[1]
    edges = moving.edges.shape[1] * fixed.edges.shape[1]
    rows = max(1, _SPANS_AT_ONCE // max(1, len(fixed) * len(ways)))
    for start in range(0, len(moving), rows):
        near = _by_boxes(moving, fixed, range(start, min(start + rows, len(moving))), ways, length).worth(met)
        for run in runs(len(near.pairs), faces):
            some = near.take(run)
            some = _by_axes(moving, fixed, some, face_axes(moving, fixed, some.pairs), ways).worth(met)
            for part in runs(len(some.pairs), edges):
                few = some.take(part).worth(met)
                few = _by_axes(moving, fixed, few, edge_axes(moving, fixed, few.pairs), ways)
                met |= few.meeting.any(axis=1)
            if met.all():
                return met
    return met


def stays(moving: Solids, fixed: Solids, direction: Array, least: float) -> list[Stay]:
    """Return while which moves along the unit vector ``direction`` pieces are in each other.

    Only what is not over at ``least`` mm is told; moves may be negative.
    """
    ways = direction.reshape(1, 3)
    near = _by_boxes(moving, fixed, range(len(moving)), ways, np.inf, -np.inf)
    near = near.take(near.meeting[0] & (near.end[0] > least))
    whole = _Open(
        pairs=near.pairs,
        begin=np.full((1, len(near.pairs)), -np.inf),
        end=np.full((1, len(near.pairs)), np.inf),
    )
    found: list[Stay] = []
    axes = moving.normals.shape[1] + fixed.normals.shape[1] + moving.edges.shape[1] * fixed.edges.shape[1]
    for run in runs(len(near.pairs), axes):
        some = whole.take(run)
        lines = np.concatenate([kind(moving, fixed, some.pairs) for kind in (face_axes, edge_axes)], axis=1)
        deep = _by_axes(moving, fixed, some, lines, ways)
        touching = _by_axes(moving, fixed, some, lines, ways, 0.0)
        met = deep.meeting[0] & (deep.end[0] > least)
        ends = zip(deep.begin[0][met], deep.end[0][met], touching.end[0][met], strict=True)
        found += [Stay(begin=float(a), end=float(b), clear=float(c)) for a, b, c in ends]
    return found


def _by_boxes(  # a move has two ends
    moving: Solids, fixed: Solids, rows: range, ways: Array, length: float, start: float = 0.0
) -> _Open:
    """Return all pairs of ``rows`` of ``moving`` with ``fixed``, and from when to when their boxes meet."""
    pairs = np.stack(np.meshgrid(rows, np.arange(len(fixed)), indexing="ij"), axis=-1).reshape(-1, 2)
    i, j = pairs.T
    low = (fixed.low[j] - moving.high[i]).T
    high = (fixed.high[j] - moving.low[i]).T
    begin = np.full((len(ways), len(pairs)), start)
    everything = _Open(pairs=pairs, begin=begin, end=np.full(begin.shape, length))
    return _narrowed(everything, low, high, np.broadcast_to(ways[:, :, None], (len(ways), 3, 1)))


def _by_axes(  # the tolerance is another one only where touching itself is asked for
    moving: Solids, fixed: Solids, still: _Open, axes: Array, ways: Array, limit: float = _LIMIT
) -> _Open:
    """Narrow down from when to when pairs meet by the ``(3, A, k)`` axes."""
    low_moving, high_moving = shadows(moving.vertices[still.pairs[:, 0]], axes)
    low_fixed, high_fixed = shadows(fixed.vertices[still.pairs[:, 1]], axes)
    slopes = np.einsum("dc,cak->dak", ways, axes)
    return _narrowed(still, low_fixed - high_moving, high_fixed - low_moving, slopes, limit)


def _narrowed(still: _Open, low: Array, high: Array, slopes: Array, limit: float = _LIMIT) -> _Open:
    """Narrow down by axes on which the moving shadow meets the fixed one from shift ``low`` to ``high``.

    ``low`` and ``high`` are ``(A, k)`` mm, ``slopes`` ``(d, A, k)`` mm of shift for each mm of the way.
    """
    low, high = low + limit, high - limit
    begin, end = still.begin.copy(), still.end.copy()
    for way, slope in enumerate(slopes):
        square = np.abs(slope) < _SQUARE
        apart = square & ((low >= 0.0) | (high <= 0.0))
        safe = np.where(square, 1.0, slope)
        one, other = low / safe, high / safe
        enter = np.where(square, np.where(apart, np.inf, -np.inf), np.minimum(one, other))
        leave = np.where(square, np.inf, np.maximum(one, other))
        # A shadow thinner than the tolerance never overlaps by more than it.
        enter = np.where(low >= high, np.inf, enter)
        np.maximum(begin[way], enter.max(axis=0), out=begin[way])
        np.minimum(end[way], leave.min(axis=0), out=end[way])
    return _Open(pairs=still.pairs, begin=begin, end=end)
