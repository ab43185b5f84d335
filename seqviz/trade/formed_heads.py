"""The head that forms when a solid rivet is driven: what to aim for, and the least that will do."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from seqviz.trade.tables import Row, rows, same_size

__all__ = ["FormedHead", "formed_head_figures", "formed_head_minimum", "formed_head_target"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FormedHead:
    """A formed head, mm: ``width`` across and ``height`` above the sheet; where the figures come from."""

    width: float
    height: float
    citation: str


@cache
def formed_head_target(diameter: float) -> FormedHead:
    """Return the head to aim for on a shank of ``diameter`` mm: 1.5 D wide, 0.5 D high."""
    return _scaled("target", diameter)


@cache
def formed_head_minimum(diameter: float) -> FormedHead:
    """Return the least head that will do on a shank of ``diameter`` mm: 1.3 D wide, 0.3 D high.

    A head between minimum and target is not a bad one.
    """
    return _scaled("minimum", diameter)


@cache
def formed_head_figures(diameter: float) -> tuple[FormedHead, ...]:
    """Return figures printed for this very size, beside the rules; () where there are none."""
    return tuple(
        FormedHead(width=row.mm("width"), height=row.mm("height"), citation=row.citation)
        for row in rows("formed_heads")
        if row.has("shank in") and same_size(row.mm("shank"), diameter)
    )


def _scaled(figure: str, diameter: float) -> FormedHead:
    row: Row = next(
        row for row in rows("formed_heads") if row.text("figure") == figure and row.text("unit") == "D"
    )
    width, height = row.number("width") * diameter, row.number("height") * diameter
    return FormedHead(width=width, height=height, citation=row.citation)
