"""Solid rivets: how long before driving, the dash number, the alloy's letters, shear by the formula."""

from __future__ import annotations

import math
from dataclasses import dataclass

from seqviz.trade.rules import Rule, rule_lengths, rules
from seqviz.trade.tables import rows, same_size

__all__ = [
    "RivetMaterial",
    "ShearValue",
    "allowances",
    "dash_number",
    "length_steps",
    "rivet_material",
    "shear_by_formula",
    "shear_values",
]

_TABLE = "solid_rivet_rules"
_EQUAL = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class RivetMaterial:
    """The letters of a solid rivet's alloy (``AD``), the alloy (``2117``), the mark on its head or ''."""

    letters: str
    alloy: str
    mark: str
    citation: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShearValue:
    """Shear of one rivet: shank and hole ``diameter`` and ``hole`` in mm, ``load`` in pounds force."""

    alloy: str
    diameter: float
    hole: float
    load: float
    citation: str


def allowances() -> tuple[Rule, ...]:
    """Return how much a solid rivet stands out before driving, in D; the rule to follow first (1.5 D).

    The others are what further sources print; two of them print 1/2 D, which makes a rivet far too short.
    """
    return rules(_TABLE, "allowance")


def length_steps(half_sizes: bool) -> Rule:
    """Return what a computed length is rounded up to: 1/16 in, or 1/32 in where half sizes are bought."""
    return rules(_TABLE, "half sizes" if half_sizes else "round up to")[0]


def dash_number(diameter: float, length: float) -> str | None:
    """Return the dash number of a rivet, mm: ``4-5`` is 1/8 in by 5/16 in, ``4-4.5`` a half size.

    None where the diameter is no whole number of 1/32 in, or the length no whole number of halves of 1/16 in.
    """
    (across,) = rule_lengths(_TABLE, "dash counts diameters in")
    (along,) = rule_lengths(_TABLE, "dash counts lengths in")
    wide, halves = round(diameter / across), round(2 * length / along)
    if wide < 1 or not same_size(wide * across, diameter) or abs(halves * along / 2 - length) > 0.001:
        return None
    return f"{wide}-{halves // 2}" + (".5" if halves % 2 else "")


def rivet_material(letters: str) -> RivetMaterial | None:
    """Return the alloy that the letters of a rivet name (``AD``), or None."""
    for row in rows("rivet_materials"):
        if row.text("letters") == letters.upper():
            return RivetMaterial(
                letters=row.text("letters"),
                alloy=row.text("alloy"),
                mark=row.text("mark on the head"),
                citation=row.citation,
            )
    return None


def shear_values(diameter: float) -> tuple[ShearValue, ...]:
    """Return the published shear of rivets of ``diameter`` mm."""
    return tuple(
        ShearValue(
            alloy=row.text("alloy"),
            diameter=row.mm("diameter"),
            hole=row.mm("hole"),
            load=row.number("shear lbf"),
            citation=row.citation,
        )
        for row in rows("rivet_shear")
        if same_size(row.mm("diameter"), diameter)
    )


def shear_by_formula(hole: float, strength: float) -> float:
    """Return pi/4 d2 times ``strength``: ``hole`` in inches and pounds per square inch give pounds force.

    MIL-HDBK-5H, section 8.1.2: the shear area is that of the nominal hole.
    """
    return math.pi / 4 * hole**2 * strength
