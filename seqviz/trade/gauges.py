"""Sheet thicknesses: by gauge number, and the sizes that sheet is sold in."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from seqviz.trade.tables import INCH, rows

__all__ = ["Sheet", "by_gauge", "gauge_by_formula", "next_thicker", "stock_sheets"]

_EQUAL = 1e-6  # mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet: ``name`` (``16 gauge``, ``.032 in``), ``thickness`` in mm, where it comes from."""

    name: str
    thickness: float
    citation: str


def by_gauge(number: int) -> Sheet | None:
    """Return the aluminium sheet of a gauge (Brown and Sharpe), or None: not listed.

    Steel sheet has another gauge, with other thicknesses under the same numbers.
    """
    for row in rows("sheet_gauges"):
        if row.number("gauge") == number:
            return Sheet(name=f"{number} gauge", thickness=row.mm("thickness"), citation=row.citation)
    return None


def gauge_by_formula(number: int) -> float:
    """Return the thickness of a Brown and Sharpe gauge, mm: .005 x 92^((36 - n) / 39) in."""
    return float(0.005 * 92 ** ((36 - number) / 39)) * INCH


@cache
def stock_sheets(series: str) -> tuple[Sheet, ...]:
    """Return the thicknesses ``of the tables`` or ``of today``, thin to thick."""
    return tuple(
        Sheet(name=f"{row.text('thickness in')} in", thickness=row.mm("thickness"), citation=row.citation)
        for row in rows("sheet_stock")
        if row.text("series") == series
    )


def next_thicker(thickness: float, series: str = "of the tables") -> Sheet | None:
    """Return the listed sheet as thick as ``thickness`` mm, else the next thicker one; None past the end.

    Sheet ordered as .063 has the row .064, .050 has .051, .125 has .128.
    """
    return next((sheet for sheet in stock_sheets(series) if thickness <= sheet.thickness + _EQUAL), None)
