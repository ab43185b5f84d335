"""Blind rivets: which length sets which grip, by published tables."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from seqviz.trade.tables import Row, rows, same_size

__all__ = ["BlindRivet", "blind_rivets", "metric_blind_rivets"]

_METRIC_SAME = 0.01  # mm


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindRivet:
    """A blind rivet, mm: its number where it has one, its grip range, its length and hole where known."""

    number: str | None
    diameter: float
    grip_from: float
    grip_to: float
    length: float | None
    hole: tuple[float, float] | None
    citation: str


@cache
def blind_rivets(diameter: float) -> tuple[BlindRivet, ...]:
    """Return the blind rivets with a shank of ``diameter`` mm, the shortest grip first; () where not listed.

    Metric sizes by ISO 15981, inch sizes (3/32, 1/8, 5/32, 1/4) by Army TM 10-5410-221-14/1, table 4-3.
    3.2 mm is not 1/8 in, and 2.4 mm not 3/32 in.
    """
    return metric_blind_rivets(diameter) or tuple(
        _inch(row) for row in rows("blind_rivets") if same_size(row.mm("diameter"), diameter)
    )


@cache
def metric_blind_rivets(diameter: float) -> tuple[BlindRivet, ...]:
    """Return the rows of ISO 15981 for a shank of ``diameter`` mm, the shortest first."""
    return tuple(
        _metric(row)
        for row in rows("blind_rivets_metric")
        if abs(row.mm("diameter") - diameter) <= _METRIC_SAME
    )


def _inch(row: Row) -> BlindRivet:
    return BlindRivet(
        number=row.text("number"),
        diameter=row.mm("diameter"),
        grip_from=row.mm("grip from"),
        grip_to=row.mm("grip to"),
        length=row.mm("length") if row.has("length in") else None,
        hole=(row.mm("hole from"), row.mm("hole to")),
        citation=row.citation,
    )


def _metric(row: Row) -> BlindRivet:
    return BlindRivet(
        number=None,
        diameter=row.mm("diameter"),
        grip_from=row.mm("grip from"),
        grip_to=row.mm("grip to"),
        length=row.mm("length"),
        hole=None,
        citation=row.citation,
    )
