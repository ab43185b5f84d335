"""Bends: how small a radius may be, and how wide the blank is before it is bent; each formula by its name.

No formula depends on the unit: lengths come in and go out in the same one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

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

_SHEET = (0.016, 0.032, 0.064, 0.128, 0.182, 0.258)
# FAA AC 43.13-1B, table 4-6, page 4-14: radii of 90 degree bends by thickness, the least and the most.
_RADII: dict[str, tuple[tuple[float, float], ...]] = {
    "2024-O": ((0, 0), (0, 1), (0, 1), (0, 1), (0, 1), (0, 1)),
    "2024-T3": ((1.5, 3), (2, 4), (3, 5), (4, 6), (4, 6), (5, 7)),
    "2024-T6": ((2, 4), (3, 5), (3, 5), (4, 6), (5, 7), (6, 10)),
    "5052-H32": ((0, 0), (0, 0), (0.5, 1), (0.5, 1.5), (0.5, 1.5), (0.5, 1.5)),
    "5052-H34": ((0, 0), (0, 0), (0.5, 1.5), (1.5, 2.5), (1.5, 2.5), (2, 3)),
    "6061-O": ((0, 0), (0, 1), (0, 1), (0, 1), (0, 1), (0, 1)),
    "6061-T4": ((0, 1), (0, 1), (0.5, 1), (1, 2), (1.5, 3), (2.5, 4)),
    "6061-T6": ((0, 1), (0.5, 1.5), (1, 2), (1.5, 3), (2, 4), (3, 4)),
    "7075-T6": ((2, 4), (3, 5), (4, 6), (5, 7), (5, 7), (6, 10)),
}
_SAME = 0.001  # in: a sheet this much over a column is still that column


@dataclass(frozen=True, slots=True, kw_only=True)
class RadiusAdvice:
    """The least and the largest inside radius that a table recommends, in the unit of the thickness."""

    least: float
    most: float
    source: str


def bend_radius_advice(alloy: str, thickness: float) -> RadiusAdvice | None:
    """Return the radius recommended for a 90 degree bend in a sheet of ``thickness`` in; None if not listed.

    The table has no rule between its columns: the column of the next thicker sheet counts (project choice).
    """
    column = next((k for k, sheet in enumerate(_SHEET) if thickness <= sheet + _SAME), None)
    if alloy not in _RADII or column is None:
        return None
    least, most = _RADII[alloy][column]
    source = f"FAA AC 43.13-1B, table 4-6, column {_SHEET[column]:.3f}"
    return RadiusAdvice(least=least * thickness, most=most * thickness, source=source)


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
