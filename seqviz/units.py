"""Lengths and angles as people write them: ``2.5 mm``, ``3/32"``, ``1 1/2 in``, ``7 deg``."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

__all__ = ["LENGTH_PATTERN", "UNITS", "Slip", "degrees", "length", "length_text", "number"]

UNITS: dict[str, float] = {
    "mm": 1.0,
    "cm": 10.0,
    "in": 25.4,
    "inch": 25.4,
    "inches": 25.4,
    '"': 25.4,
    "″": 25.4,
}
"""Unit as written -> millimetres."""

_DECIMAL = r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_FRACTION = r"[+-]?(?:[0-9]+(?: +| *- *))?[0-9]+ */ *[0-9]+"
_UNIT = r"(?:mm|cm|inches|inch|in|\"|″)"
LENGTH_PATTERN = rf"^ *(?:{_DECIMAL}|{_FRACTION}) *{_UNIT}? *$"
"""Regular expression of a length, for the JSON Schema."""

_PLAIN = re.compile(_DECIMAL)
_LENGTH = re.compile(
    rf"(?:(?P<decimal>{_DECIMAL})|(?P<fraction>{_FRACTION})) *(?P<unit>{_UNIT})?", re.IGNORECASE
)
_DEGREES = re.compile(rf"({_DECIMAL}) *(?:degrees|degree|deg|°)?", re.IGNORECASE)
_THOUSANDS = re.compile(r"[0-9]{1,3}(?:[ ',][0-9]{3})+(?:\.[0-9]*)?\D*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """What is wrong with a value as written, why, and what to write instead."""

    message: str
    why: str
    fix: str


def number(text: str) -> float | Slip:
    """Return the plain number that ``text`` says: decimal point, no unit; ``010`` is 10."""
    text = text.strip()
    if not _PLAIN.fullmatch(text):
        return _what_is_wrong(text, "a number", "such as 0.8 or 1e-3")
    return _finite(text, float(text))


def length(text: str, unit: str) -> float | Slip:
    """Return the length that ``text`` says, in mm.

    Parameters
    ----------
    text
        As written: ``12``, ``1/8 in``, ``1-1/2"``, ``2.5 mm``.
    unit
        The file's unit, ``mm`` or ``in``, for a text that names none.
    """
    text = text.strip()
    if _PLAIN.fullmatch(text):
        return _finite(text, float(text) * UNITS[unit])
    found = _LENGTH.fullmatch(text)
    if found is None:
        return _what_is_wrong(text, "a length", 'such as 12, 2.5 mm, 3/32" or 1 1/2 in')
    written = found["unit"]
    if found["fraction"] is None:
        value = float(found["decimal"])
    elif written is None and unit == "mm":
        return Slip(
            message=f"`{text}` is a fraction without a unit, in a file that counts in mm.",
            why="Fractions are inches; a plain number here is millimetres.",
            fix=f"Write `{text} in`, or the millimetres.",
        )
    else:
        fraction = _fraction(found["fraction"])
        if fraction is None:
            return Slip(
                message=f"`{text}` divides by zero.", why="No length does.", fix="Correct the fraction."
            )
        value = fraction
    return _finite(text, value * UNITS[(written or unit).lower()])


def degrees(text: str) -> float | Slip:
    """Return the angle that ``text`` says, in degrees: ``7``, ``7 deg``, ``7°``."""
    text = text.strip()
    found = _DEGREES.fullmatch(text)
    if found is None:
        return _what_is_wrong(text, "an angle", "such as 7, 7 deg or 7°")
    return _finite(text, float(found[1]))


def _fraction(text: str) -> float | None:
    sign = -1.0 if text.startswith("-") else 1.0
    *whole, above, below = (int(digits) for digits in re.findall(r"[0-9]+", text))
    return sign * (sum(whole) + above / below) if below else None


def _finite(text: str, value: float) -> float | Slip:
    if math.isfinite(value):
        return value
    return Slip(message=f"`{text}` is too big.", why="No part is.", fix="Correct the number.")


def _what_is_wrong(text: str, wanted: str, examples: str) -> Slip:
    why = f"Here stands {wanted}, {examples}."
    if _THOUSANDS.fullmatch(text) and not re.fullmatch(r"[0-9]+,[0-9]{3}", text):
        return Slip(
            message=f"`{text}` groups its digits.",
            why=why,
            fix=f"Write `{re.sub(r'[ ,]|' + chr(39), '', text)}`.",
        )
    if re.fullmatch(r"[+-]?[0-9]*,[0-9]+\D*", text):
        return Slip(
            message=f"`{text}` has a decimal comma.",
            why=why + " A comma would be read in two ways.",
            fix=f"Write a point: `{text.replace(',', '.')}`.",
        )
    if re.fullmatch(r"[0-9]+(_[0-9]+)+", text):
        return Slip(message=f"`{text}` has an underscore in it.", why=why, fix="Write the digits without it.")
    if re.fullmatch(r"[0-9]+(:[0-9]+)+", text):
        return Slip(message=f"`{text}` looks like a time or a slope.", why=why, fix="Write the value itself.")
    if re.fullmatch(r"[+-]?\.?(nan|inf|infinity)", text, re.IGNORECASE):
        return Slip(message=f"`{text}` is no finite number.", why=why, fix="Write the value itself.")
    return Slip(message=f"`{text}` is not {wanted}.", why=why, fix=f"Write {wanted}, {examples}.")


def length_text(millimetres: float, units: str) -> str:
    """Return a length with its unit, as people write it: mm with up to two decimals, inches with up to four.

    Examples
    --------
    >>> length_text(2.4, "mm"), length_text(1.5875, "in")
    ('2.4 mm', '0.0625 in')
    """
    text = f"{millimetres / UNITS['in']:.4f}" if units == "in" else f"{millimetres:.2f}"
    text = text.rstrip("0").rstrip(".")
    return f"{'0' if text == '-0' else text} {'in' if units == 'in' else 'mm'}"
