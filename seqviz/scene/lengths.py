"""Lengths, areas and weights as people write them: mm, or inches where the model is written in inches."""

from __future__ import annotations

from collections.abc import Sequence

from seqviz.units import UNITS
from seqviz.units import length_text as with_unit

__all__ = ["area_text", "length_text", "sizes_text", "weight_text"]

_INCH = UNITS["in"]
_OUNCE = 28.349523125  # g


def length_text(millimetres: float, units: str) -> str:
    """Return a length: mm with up to two decimals and no unit, or inches with up to four and `` in``.

    Examples
    --------
    >>> length_text(2.4, "mm"), length_text(1.5875, "in")
    ('2.4', '0.0625 in')
    """
    return with_unit(millimetres, units).removesuffix(" mm")


def area_text(square_millimetres: float, units: str) -> str:
    """Return an area with its unit: whole mm2, or in2 with up to two decimals."""
    if units == "in":
        return f"{_trimmed(square_millimetres / _INCH**2, 2)} in2"
    return f"{square_millimetres:.0f} mm2"


def sizes_text(sizes: Sequence[float] | None, units: str) -> str:
    """Return ``600 x 22 x 25``; inches name their unit once, at the end."""
    if sizes is None:
        return ""
    told = [length_text(size, units) for size in sizes]
    return " x ".join([*(one.removesuffix(" in") for one in told[:-1]), told[-1]])


def weight_text(grams: float, units: str) -> str:
    """Return a weight with its unit: g and kg, or oz and lb where the model is written in inches."""
    if units == "in":
        ounces = grams / _OUNCE
        return f"{ounces / 16:.2f} lb" if ounces >= 16 else f"{ounces:.2f} oz"
    if grams >= 1000:
        return f"{grams / 1000:.2f} kg"
    return f"{grams:.0f} g" if grams >= 10 else f"{grams:.1f} g"


def _trimmed(number: float, decimals: int) -> str:
    text = f"{number:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
