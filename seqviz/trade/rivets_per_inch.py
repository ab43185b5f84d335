"""How many rivets a splice needs for every inch of its width, by repair tables."""

from __future__ import annotations

import math
from dataclasses import dataclass

from seqviz.trade.tables import Row, rows, same_size

__all__ = ["Factor", "RivetsPerInch", "factor_for", "rivets_in", "rivets_per_inch"]

_EQUAL = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class RivetsPerInch:
    """``value`` rivets for every inch of width, for a ``sheet`` and rivets of ``diameter`` mm."""

    table: str
    sheet_of: str
    sheet: float
    diameter: float
    value: float
    citation: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """What the number of rivets is multiplied by ``where``."""

    where: str
    value: float
    citation: str


def rivets_per_inch(table: str, thickness: float, diameter: float) -> RivetsPerInch | None:
    """Return the row of ``4-9``, ``4-10`` or ``4-11`` for a sheet and a rivet, mm; None: not listed.

    The table goes by its heading (bare or clad), not by the alloy alone: 2024-T3 stands in two of them.
    Between two sheets the thicker one counts: it asks for more rivets.
    """
    for row in rows("rivets_per_inch"):
        if (
            row.text("table") == table
            and same_size(row.mm("rivet"), diameter)
            and thickness <= row.mm("sheet") + _EQUAL
        ):
            return _found(row)
    return None


def factor_for(where: str) -> Factor:
    """Return the factor for ``single lap sheet`` and the other words of its table.

    Raises
    ------
    KeyError
        The tables have no such factor.
    """
    for row in rows("rivets_per_inch_factors"):
        if row.text("where") == where:
            return Factor(where=where, value=row.number("factor"), citation=row.citation)
    raise KeyError(where)


def rivets_in(width: float, per_inch: float, factor: float = 1.0) -> int:
    """Return how many rivets ``width`` inches take: rounded up once."""
    return math.ceil(width * per_inch * factor - _EQUAL)


def _found(row: Row) -> RivetsPerInch:
    return RivetsPerInch(
        table=row.text("table"),
        sheet_of=row.text("sheet of"),
        sheet=row.mm("sheet"),
        diameter=row.mm("rivet"),
        value=row.number("rivets per inch"),
        citation=row.citation,
    )
