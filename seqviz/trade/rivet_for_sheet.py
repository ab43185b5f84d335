"""Which rivet diameter suits which sheet: published rules that disagree, for advice only."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from seqviz.trade.tables import Row, rows

__all__ = ["SheetRule", "leg_width_rules", "rivet_for_sheet", "tube_rules"]

_THICKNESS, _WIDTH, _TUBE = "thickness of", "width of", "outside diameter of"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRule:
    """The rivet's diameter is ``least`` to ``most`` times ``of``; None: no limit at that end.

    ``where``: the joint that the source speaks of (``splice``, ``stringer leg``, ``any joint``, ``tube
    splice``). ``of``: ``thickness of the sheet``, ``thickness of the leg``, ``thickness of the thickest
    sheet``, ``thickness of the thicker sheet``, ``width of the leg``, ``outside diameter of the outer tube``.
    """

    where: str
    of: str
    least: float | None
    most: float | None
    citation: str


def rivet_for_sheet() -> tuple[SheetRule, ...]:
    """Return the four rules by thickness, in the order of the table. None of them is a limit by itself."""
    return _beginning(_THICKNESS)


def leg_width_rules() -> tuple[SheetRule, ...]:
    """Return how wide a rivet may be against the width of a leg."""
    return _beginning(_WIDTH)


def tube_rules() -> tuple[SheetRule, ...]:
    """Return how wide a rivet through tubes is against the outer tube."""
    return _beginning(_TUBE)


@cache
def _beginning(words: str) -> tuple[SheetRule, ...]:
    return tuple(_rule(row) for row in rows("rivet_for_sheet") if row.text("of").startswith(words))


def _rule(row: Row) -> SheetRule:
    return SheetRule(
        where=row.text("where"),
        of=row.text("of"),
        least=row.number("least") if row.has("least") else None,
        most=row.number("most") if row.has("most") else None,
        citation=row.citation,
    )
