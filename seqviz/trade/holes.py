"""How wide the hole is that a fastener wants: for rivets, for bolts, and clearance for machine screws."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from seqviz.trade.blind_rivets import metric_blind_rivets
from seqviz.trade.tables import Row, rows, same_size

__all__ = ["ClearanceHole", "HoleAdvice", "clearance_holes", "holes_for", "least_and_most"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleAdvice:
    """A hole for one fastener, mm: from ``least`` to ``most`` (equal where one drill is named).

    ``drill``: ``No. 30``, ``letter F``, or None where the source names no drill.
    """

    least: float
    most: float
    drill: str | None
    citation: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceHole:
    """A clearance hole for a machine screw: ``fit`` as the table calls it, ``diameter`` in mm."""

    screw: str
    fit: str
    diameter: float
    citation: str


@cache
def holes_for(kind: str, diameter: float) -> tuple[HoleAdvice, ...]:
    """Return the holes that published tables give for a fastener; () where none does.

    Parameters
    ----------
    kind
        ``blind rivet``, ``solid rivet`` or ``bolt``.
    diameter
        Nominal of the shank, mm.

    Notes
    -----
    Sources disagree for 3/32 and 5/32 in: each has its row, the present custom first. Sizes that are not
    listed have the rule of their kind (ISO 15977 for blind rivets, FAA-H-8083-31 for solid ones).
    """
    if kind == "blind rivet" and metric_blind_rivets(diameter):
        listed = []  # 2.4 mm is nearly 3/32 in
    elif kind == "bolt":
        listed = [row for row in rows("bolt_holes") if same_size(row.mm("diameter"), diameter)]
    else:
        listed = [
            row
            for row in rows("rivet_holes")
            if row.text("kind") == kind and row.has("diameter") and same_size(row.mm("diameter"), diameter)
        ]
    if listed:
        return tuple(_advice(row) for row in listed)
    return tuple(
        _by_rule(row, diameter)
        for row in rows("rivet_holes")
        if row.text("kind") == kind and row.has("over from")
    )


def least_and_most(advice: tuple[HoleAdvice, ...]) -> tuple[float, float] | None:
    """Return the narrowest and the widest hole that any of the sources gives, mm; None without any."""
    if not advice:
        return None
    return min(one.least for one in advice), max(one.most for one in advice)


@cache
def clearance_holes(screw: str) -> tuple[ClearanceHole, ...]:
    """Return the clearance holes of ``M4``, ``No. 10``, ``1/4``, the closest first.

    They are far wider than the holes of airframe bolts and never stand in for them.
    """
    return tuple(
        ClearanceHole(screw=screw, fit=row.text("fit"), diameter=row.mm("hole"), citation=row.citation)
        for row in rows("clearance_holes")
        if row.text("screw").casefold() == screw.casefold()
    )


def _advice(row: Row) -> HoleAdvice:
    drill = row.cells.get("drill") or None
    return HoleAdvice(least=row.mm("hole from"), most=row.mm("hole to"), drill=drill, citation=row.citation)


def _by_rule(row: Row, diameter: float) -> HoleAdvice:
    least, most = diameter + row.mm("over from"), diameter + row.mm("over to")
    return HoleAdvice(least=least, most=most, drill=None, citation=row.citation)
