"""How deep two sets of convex pieces penetrate each other: the one definition of touching.

Two pieces interfere when they penetrate by more than ``TOLERANCE``, compared with ``TOLERANCE + GUARD`` so
that sheets drawn exactly that deep are never flagged by rounding.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.axes import edge_axes, face_axes, runs, shadows
from seqviz.geometry.pose import Array
from seqviz.geometry.solids import Solids

__all__ = ["GUARD", "TOLERANCE", "close_pairs", "deepest", "depths", "interfere"]

TOLERANCE = 0.05
GUARD = 1e-6

_BOX_TESTS_AT_ONCE = 1_000_000


def close_pairs(a: Solids, b: Solids, margin: float = 0.0) -> NDArray[np.intp]:
    """Return the ``(k, 2)`` pairs of pieces whose boxes come within ``margin`` mm of each other.

    A negative margin asks for boxes that overlap by as much.
    """
    rows = max(1, _BOX_TESTS_AT_ONCE // max(1, len(b)))
    found = [_close(a, b, start, start + rows, margin) for start in range(0, len(a), rows)]
    return np.concatenate(found) if found else np.zeros((0, 2), dtype=np.intp)


def depths(a: Solids, b: Solids, pairs: NDArray[np.intp]) -> Array:
    """Return how deep the pieces of each pair penetrate each other.

    Parameters
    ----------
    a, b
        Pieces in one frame.
    pairs
        ``(k, 2)`` indices into ``a`` and ``b``.

    Returns
    -------
    depths
        ``(k,)`` mm: the shortest move that frees them; negative where they are apart (then the widest clear
        space that one of the axes shows, not the distance).
    """
    return np.minimum(_face_depths(a, b, pairs), _edge_depths(a, b, pairs))


def deepest(a: Solids, b: Solids) -> float:
    """Return the greatest depth over all pairs of pieces, mm; ``-inf`` where not even boxes touch."""
    pairs = close_pairs(a, b)
    if not len(pairs):
        return -np.inf
    upper = _face_depths(a, b, pairs)
    best = -np.inf
    # Edges can only lessen a depth: start with the deepest by faces and stop where no later one can win.
    order = np.argsort(-upper, kind="stable")
    size = 64
    for start in range(0, len(order), size):
        run = order[start : start + size]
        if upper[run[0]] <= best:
            break
        best = max(best, float(np.minimum(upper[run], _edge_depths(a, b, pairs[run])).max()))
    return best


def interfere(a: Solids, b: Solids) -> bool:
    """Tell whether any piece of ``a`` penetrates any piece of ``b`` by more than the tolerance."""
    limit = TOLERANCE + GUARD
    pairs = close_pairs(a, b, -limit)
    pairs = pairs[_face_depths(a, b, pairs) > limit]
    found = (_edge_depths(a, b, pairs[run]) for run in runs(len(pairs), _edge_count(a, b)))
    return any(bool((each > limit).any()) for each in found)


def _close(a: Solids, b: Solids, start: int, stop: int, margin: float) -> NDArray[np.intp]:
    near = np.ones((min(stop, len(a)) - start, len(b)), dtype=bool)
    for axis in range(3):
        near &= a.low[start:stop, axis, None] <= b.high[None, :, axis] + margin
        near &= b.low[None, :, axis] <= a.high[start:stop, axis, None] + margin
    pairs = np.argwhere(near)
    pairs[:, 0] += start
    return pairs


def _edge_count(a: Solids, b: Solids) -> int:
    return int(a.edges.shape[1] * b.edges.shape[1])


def _face_depths(a: Solids, b: Solids, pairs: NDArray[np.intp]) -> Array:
    count = a.normals.shape[1] + b.normals.shape[1]
    cut = [pairs[run] for run in runs(len(pairs), count)]
    found = [_depths_on(a, b, some, face_axes(a, b, some)) for some in cut]
    return np.concatenate(found) if found else np.zeros(0)


def _edge_depths(a: Solids, b: Solids, pairs: NDArray[np.intp]) -> Array:
    cut = [pairs[run] for run in runs(len(pairs), _edge_count(a, b))]
    found = [_depths_on(a, b, some, edge_axes(a, b, some)) for some in cut]
    return np.concatenate(found) if found else np.zeros(0)


def _depths_on(a: Solids, b: Solids, pairs: NDArray[np.intp], axes: Array) -> Array:
    low_a, high_a = shadows(a.vertices[pairs[:, 0]], axes)
    low_b, high_b = shadows(b.vertices[pairs[:, 1]], axes)
    return np.asarray(np.minimum(high_a - low_b, high_b - low_a).min(axis=0))
