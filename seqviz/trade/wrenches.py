"""Wrench openings: how wide the jaws are for a nut or a head of which size."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.trade.tables import INCH, rows, same_size

__all__ = ["WrenchOpening", "opening_by_formula", "wrench_opening"]

_FORMULA = "ASME B18.2.2-2015, appendix: least 1.005 W + .001 in, most .005 W + .004 in more"


@dataclass(frozen=True, slots=True, kw_only=True)
class WrenchOpening:
    """An opening from ``least`` to ``most`` mm, for what measures ``flats`` mm across its flats."""

    flats: float
    least: float
    most: float
    citation: str


def wrench_opening(flats: float) -> WrenchOpening | None:
    """Return the listed opening for a width across flats of ``flats`` mm, or None."""
    for row in rows("wrench_openings"):
        if same_size(row.mm("across flats"), flats):
            return WrenchOpening(
                flats=row.mm("across flats"),
                least=row.mm("least"),
                most=row.mm("most"),
                citation=row.citation,
            )
    return None


def opening_by_formula(flats: float) -> WrenchOpening:
    """Return the opening for ``flats`` mm by the formula behind the table, which cuts off its last digit."""
    width = flats / INCH
    least = 1.005 * width + 0.001
    most = least + 0.005 * width + 0.004
    return WrenchOpening(flats=flats, least=least * INCH, most=most * INCH, citation=_FORMULA)
