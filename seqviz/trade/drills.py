"""Drills by number and letter, and by fractions of an inch."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from seqviz.trade.tables import INCH, rows

__all__ = ["DRILL_PATTERN", "Drill", "drill", "drill_near", "drills", "drills_between", "looks_like_a_drill"]

_NUMBER = r"(?:[Nn][Oo]\.?|[Nn]umber|#) *[0-9]{1,3}"
_LETTER = r"(?:[Ll]etter +)?[A-Za-z]"
DRILL_PATTERN = rf"^ *(?:{_NUMBER}|{_LETTER}) *$"
"""Regular expression of a drill by number or letter, for the JSON Schema."""

_WRITTEN = re.compile(r"(?:(?:no\.?|number|#) *(?P<number>[0-9]{1,3})|(?:letter +)?(?P<letter>[a-z]))")
_FRACTIONS = "fraction of an inch, computed"
_FINEST, _BIGGEST = Fraction(1, 64), Fraction(1, 2)
_EQUAL = 1e-6  # mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """A drill: ``name`` (``No. 30``, ``letter F``, ``3/32 in``), ``diameter`` in mm, where it comes from."""

    name: str
    diameter: float
    citation: str


def looks_like_a_drill(text: str) -> bool:
    """Say whether ``text`` is written as a drill by number or letter, listed or not (``No. 300``)."""
    return _name(text) is not None


def drill(text: str) -> Drill | None:
    """Return the drill that is written ``No. 30``, ``no 30``, ``#30``, ``letter F``, ``F``; None: not listed.

    Fractions are lengths and are read as such (`seqviz.units.length`).
    """
    name = _name(text)
    return _by_name().get(name) if name else None


@cache
def drills() -> tuple[Drill, ...]:
    """Return numbers, letters, and fractions in 1/64 up to 1/2 in, the thinnest first."""
    steps = range(1, int(_BIGGEST / _FINEST) + 1)
    fractions = [
        Drill(name=f"{n * _FINEST} in", diameter=float(n * _FINEST) * INCH, citation=_FRACTIONS)
        for n in steps
    ]
    return tuple(sorted((*_by_name().values(), *fractions), key=lambda one: (one.diameter, one.name)))


def drills_between(least: float, most: float) -> tuple[Drill, ...]:
    """Return the drills from ``least`` to ``most`` mm, both ends included, the thinnest first."""
    return tuple(one for one in drills() if least - _EQUAL <= one.diameter <= most + _EQUAL)


def drill_near(diameter: float, within: float = 0.01) -> Drill | None:
    """Return the drill nearest to ``diameter`` mm, or None where none is ``within`` mm of it."""
    nearest = min(drills(), key=lambda one: abs(one.diameter - diameter))
    return nearest if abs(nearest.diameter - diameter) <= within + _EQUAL else None


@cache
def _by_name() -> dict[str, Drill]:
    return {
        row.text("drill"): Drill(name=row.text("drill"), diameter=row.mm("diameter"), citation=row.citation)
        for row in rows("drills")
    }


def _name(text: str) -> str | None:
    found = _WRITTEN.fullmatch(" ".join(text.casefold().split()))
    if found is None:
        return None
    return f"No. {int(found['number'])}" if found["number"] else f"letter {found['letter'].upper()}"
