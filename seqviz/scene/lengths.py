"""Lengths and areas as people write them: mm, or inches where the model is written in inches."""

from __future__ import annotations

from seqviz.units import UNITS
from seqviz.units import length_text as with_unit

__all__ = ["area_text", "length_text"]

_INCH = UNITS["in"]


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


def _trimmed(number: float, decimals: int) -> str:
    text = f"{number:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
