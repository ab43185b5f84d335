"""Bends: how small a radius may be, and how wide the blank is before it is bent; each formula by its name.

No formula depends on the unit: lengths come in and go out in the same one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from seqviz.trade.bend_radii import RadiusAdvice, bend_radius_advice

__all__ = [
    "FORMULAS",
    "Formula",
    "RadiusAdvice",
    "bend_allowance",
    "bend_radius_advice",
    "developed_width",
    "setback",
]

Formula = Literal["neutral axis", "handbook"]

FORMULAS: dict[Formula, str] = {
    "neutral axis": "2 pi (R + T/2) N / 360: the arc in the middle of the sheet",
    "handbook": "(0.01743 R + 0.0078 T) N, FAA-H-8083-31 chapter 4, from memory",
}
"""Name -> formula of the bend allowance, and its source."""


def setback(thickness: float, radius: float, degrees: float) -> float:
    """Return the distance from the mould line to the bend tangent: K (R + T), K = tan(angle / 2).

    FAA AC 43.13-1B, chapter 4, section 4, page 4-14. ``radius`` is the inside radius in the unit of
    ``thickness``, ``degrees`` the bend's angle.
    """
    return math.tan(math.radians(degrees) / 2) * (radius + thickness)


def bend_allowance(
    thickness: float, radius: float, degrees: float, formula: Formula = "neutral axis"
) -> float:
    """Return how much of the blank a bend takes up, between its tangents; ``formula`` as in `FORMULAS`."""
    if formula == "handbook":
        return (0.01743 * radius + 0.0078 * thickness) * degrees
    return math.radians(degrees) * (radius + thickness / 2)


def developed_width(
    widths: Sequence[float],
    angles: Sequence[float],
    thickness: float,
    radius: float,
    formula: Formula = "neutral axis",
) -> float:
    """Return the width of the blank of a bent section.

    Parameters
    ----------
    widths
        Of the flats in their order, outside dimensions to the mould lines.
    angles
        Of the bends between them, degrees, one less than ``widths``.
    thickness, radius
        Of the sheet, and of the inside of every bend.
    formula
        As in `FORMULAS`.
    """
    taken = sum(2 * setback(thickness, radius, angle) for angle in angles)
    given = sum(bend_allowance(thickness, radius, angle, formula) for angle in angles)
    return sum(widths) - taken + given
