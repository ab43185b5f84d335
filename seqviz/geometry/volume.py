"""How much room a convex piece takes up, and where its corners are."""

from __future__ import annotations

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.geometry.prism import Piece, Prismoid

__all__ = ["corners_of", "volume_of"]


def corners_of(piece: Piece) -> tuple[Array, Array]:
    """Return the rings of its two ends, ``(n, 3)`` each, mm, in the frame that the piece stands in."""
    if isinstance(piece, Prismoid):
        return piece.bottom, piece.top
    low = np.column_stack([piece.polygon, np.zeros(len(piece.polygon))])
    high = low + np.array([0.0, 0.0, piece.height])
    return piece.frame.points(low), piece.frame.points(high)


def volume_of(piece: Piece) -> float:
    """Return the volume of a convex piece, mm3: the cones from its middle to all its faces."""
    bottom, top = corners_of(piece)
    after, over = np.roll(bottom, -1, axis=0), np.roll(top, -1, axis=0)
    middle = np.concatenate([bottom, top]).mean(axis=0)
    fans = [
        np.stack([bottom, after, np.broadcast_to(bottom[0], bottom.shape)], axis=1),
        np.stack([top, over, np.broadcast_to(top[0], top.shape)], axis=1),
        np.stack([bottom, after, over], axis=1),
        np.stack([bottom, over, top], axis=1),
    ]
    # Of a convex piece every cone counts in full, whichever way its face runs.
    return float(np.abs(np.linalg.det(np.concatenate(fans) - middle)).sum()) / 6
