"""How big a piece is, and how much metal it has."""

from __future__ import annotations

import math

import numpy as np

from seqviz.geometry.volume import corners_of, volume_of
from seqviz.parts.part import Hole, Part

__all__ = ["box_of", "metal_of", "single_holes"]


def box_of(part: Part) -> tuple[float, float, float] | None:
    """Return length (x), width (y) and height (z) of the finished piece, mm; None: no shape yet."""
    if not part.pieces:
        return None
    corners = np.concatenate([ring for piece in part.pieces for ring in corners_of(piece)])
    long, wide, high = (corners.max(axis=0) - corners.min(axis=0)).tolist()
    return long, wide, high


def metal_of(part: Part) -> float | None:
    """Return the volume of a piece without its holes, mm3; None: no shape yet.

    Two holes at one place are one. Where holes cross each other inside a block, what they share goes off
    twice; that is left out.
    """
    if not part.pieces:
        return None
    drilled = sum(
        math.pi / 4 * hole.diameter**2 * part.flats[hole.flat].thickness for hole in single_holes(part)
    )
    return sum(map(volume_of, part.pieces)) - drilled


def single_holes(part: Part) -> tuple[Hole, ...]:
    """Return the holes of a part, each once: two holes at one place are one with two names."""
    found: dict[tuple[float, ...], Hole] = {}
    for hole in part.holes:
        place, axis = np.round(hole.centre, 3) + 0.0, np.round(np.abs(hole.axis), 3)
        found.setdefault((*place.tolist(), *axis.tolist()), hole)
    return tuple(found.values())
