"""Which rivet diameter suits which sheet: four published rules that disagree, for advice only."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.trade.tables import rows, value_of

__all__ = ["SheetRule", "WidthRule", "leg_width_rules", "rivet_for_sheet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRule:
    """The rivet's diameter as multiples of a thickness: ``least`` to ``most`` times that of ``of``.

    ``where``: the joint that the source speaks of (``splice``, ``stringer leg``, ``any joint``); ``of``:
    ``sheet``, ``leg``, ``thickest sheet``, ``thicker sheet``.
    """

    where: str
    of: str
    least: float
    most: float
    citation: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WidthRule:
    """The rivet's diameter is at most ``most`` times the width of the leg it goes through."""

    where: str
    most: float
    citation: str


def rivet_for_sheet() -> tuple[SheetRule, ...]:
    """Return all rules, in the order of the table. No one of them is a limit by itself."""
    return tuple(
        SheetRule(
            where=row.text("where"),
            of=row.text("of"),
            least=row.number("least t"),
            most=row.number("most t"),
            citation=row.citation,
        )
        for row in rows("rivet_for_sheet")
    )


def leg_width_rules() -> tuple[WidthRule, ...]:
    """Return how wide a rivet may be against the width of a leg."""
    return tuple(
        WidthRule(where=row.text("where"), most=value_of(row.text("most")), citation=row.citation)
        for row in rows("rivet_for_width")
    )
