"""Between which diameters a hole suits a fastener, as far as anything published says: the widest reading."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from seqviz.trade.fasteners import BLIND_RIVET, BOLT, Fastener
from seqviz.trade.tables import Row, citations, rows, same_size

__all__ = ["SPREAD", "HoleLimits", "hole_limits"]

SPREAD = 0.05
"""mm: a drill may wander by this much (project choice)."""

_MAKERS_SPREAD = 0.1  # mm: a maker names one size, and means some room about it (project choice)
_NEARLY = 0.05  # mm: a metric rivet as thick as one in inches has its holes too: 4.0 mm and 5/32 in


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleLimits:
    """A hole that suits, mm, from ``least`` to ``most`` (None: nothing published), and who says so."""

    least: float
    most: float | None
    citation: str


@lru_cache(maxsize=256)
def hole_limits(fastener: Fastener, makers: float | None = None) -> HoleLimits:
    """Return the widest limits that a source allows, the spread of a drill added.

    Parameters
    ----------
    makers
        mm, the hole that the maker asks for; it goes before all tables.

    Notes
    -----
    Where sources disagree, a hole that suits one of them suits: the rows of a size, and the rule of its kind.
    Metric blind rivets have the rows of the size in inches within 0.05 mm too. Of metric solid rivets nothing
    is published here. The hole of a bolt may be as tight as its shank. No hole is narrower than the shank.
    """
    if makers is not None:
        return HoleLimits(
            least=max(fastener.diameter, makers - _MAKERS_SPREAD),
            most=makers + _MAKERS_SPREAD,
            citation="The maker's hole in `hardware`",
        )
    found = _bolt_rows(fastener) if fastener.kind == BOLT else _rivet_rows(fastener)
    spans = [_span(row, fastener.diameter) for row in found]
    if not spans:
        return HoleLimits(least=fastener.diameter, most=None, citation="A fastener does not enter less")
    least = fastener.diameter if fastener.kind == BOLT else min(low for low, _ in spans) - SPREAD
    return HoleLimits(
        least=max(fastener.diameter, least),
        most=max(high for _, high in spans) + SPREAD,
        citation=citations(tuple(found)),
    )


def _bolt_rows(fastener: Fastener) -> list[Row]:
    return [row for row in rows("bolt_holes") if same_size(row.mm("diameter"), fastener.diameter)]


def _rivet_rows(fastener: Fastener) -> list[Row]:
    own = [row for row in rows("rivet_holes") if row.text("kind") == fastener.kind]
    blind = fastener.kind == BLIND_RIVET
    listed = [row for row in own if row.has("diameter") and _is_size(row, fastener.diameter, nearly=blind)]
    by_rule = [row for row in own if row.cells.get("over from")]
    return [*listed, *by_rule] if listed or blind else []


def _is_size(row: Row, diameter: float, *, nearly: bool) -> bool:
    listed = row.mm("diameter")
    return same_size(listed, diameter) or (nearly and abs(listed - diameter) <= _NEARLY)


def _span(row: Row, diameter: float) -> tuple[float, float]:
    if row.cells.get("over from"):
        return diameter + row.mm("over from"), diameter + row.mm("over to")
    return row.mm("hole from"), row.mm("hole to")
