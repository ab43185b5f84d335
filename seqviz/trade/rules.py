"""Rules of one number each: so many diameters, so many threads; every source has a row of its own."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from seqviz.trade.tables import INCH, rows

__all__ = ["Rule", "rule_lengths", "rules"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """``value`` in ``unit`` (``D``: shank diameters, ``in``, ``threads``, ..), and its citation."""

    name: str
    value: float
    unit: str
    citation: str


@cache
def rules(table: str, name: str) -> tuple[Rule, ...]:
    """Return what the sources say about ``name`` in a table of rules, in the order of the file.

    Names in ``solid_rivet_rules``: allowance; round up to; half sizes; dash counts diameters in; dash counts
    lengths in; smallest in structure. In ``bolt_rules``: dash counts diameters in; dash counts lengths in;
    grip tolerance; length tolerance over; length tolerance under; threads beyond the nut, at least; threads
    in the hole, at most; washers, at most; smallest steel bolt in primary structure; smallest aluminium bolt
    in primary structure. Where sources disagree there is more than one rule.
    """
    return tuple(
        Rule(name=name, value=row.number("value"), unit=row.text("unit"), citation=row.citation)
        for row in rows(table)
        if row.text("rule") == name
    )


@cache
def rule_lengths(table: str, name: str) -> tuple[float, ...]:
    """Return the values of `rules` that are in inches, in mm."""
    return tuple(rule.value * INCH for rule in rules(table, name) if rule.unit == "in")
