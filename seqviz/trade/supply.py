"""In which lengths a fastener is to be had, and for which grips: the maker's data, else published tables."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from seqviz.trade.blind_rivets import BlindRivet, blind_rivets
from seqviz.trade.fasteners import BLIND_RIVET, Fastener
from seqviz.trade.tables import INCH

__all__ = ["MAKER", "GripRange", "Lengths", "Supply", "supply_of"]

Lengths = tuple[tuple[float, float, float], ...]
"""(length, grip from, grip to), mm."""

MAKER = "the maker's data in the model"

_PRINTED = 0.001 * INCH  # the last digit of the table in inches


@dataclass(frozen=True, slots=True, kw_only=True)
class GripRange:
    """A fastener that is made for grips from ``low`` to ``high``, mm, both ends included.

    Attributes
    ----------
    length
        mm; None where the table lists none.
    number
        What the table calls it (``42``), or nothing.
    source
        Where the range comes from.
    """

    low: float
    high: float
    length: float | None
    number: str = ""
    source: str = MAKER


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """What there is of a fastener.

    Attributes
    ----------
    fastener
        Its kind and shank.
    ranges
        Lengths with the grips that they are made for, the shortest grip first; empty where nobody says.
    lengths
        mm, rising: lengths of a solid rivet that its maker lists without grips.
    half_sizes
        Whether solid rivets are bought in halves of 1/16 in.
    printed
        mm: ranges of a table that lie no farther apart leave no grip out, they are printed to so many digits.
    """

    fastener: Fastener
    ranges: tuple[GripRange, ...] = ()
    lengths: tuple[float, ...] = ()
    half_sizes: bool = False
    printed: float = 0.0


@lru_cache(maxsize=256)
def supply_of(
    fastener: Fastener, makers: Lengths = (), lengths: tuple[float, ...] = (), half_sizes: bool = False
) -> Supply:
    """Return what there is of a fastener: what its maker says goes before the tables.

    Parameters
    ----------
    makers
        (length, grip from, grip to), mm, in any order.
    lengths
        mm: a solid rivet's lengths without grips, in any order.
    """
    own = _rising(GripRange(length=long, low=low, high=high) for long, low, high in makers)
    if own or lengths or fastener.kind != BLIND_RIVET:
        sold = tuple(sorted(set(lengths)))
        return Supply(fastener=fastener, ranges=own, lengths=sold, half_sizes=half_sizes)
    listed = blind_rivets(fastener.diameter)
    inches = any(one.number for one in listed)
    return Supply(
        fastener=fastener, ranges=_rising(map(_listed, listed)), printed=_PRINTED if inches else 0.0
    )


def _listed(one: BlindRivet) -> GripRange:
    return GripRange(
        low=one.grip_from,
        high=one.grip_to,
        length=one.length,
        number=one.number or "",
        source=one.citation,
    )


def _rising(found: Iterable[GripRange]) -> tuple[GripRange, ...]:
    return tuple(sorted(found, key=lambda one: (one.low, one.high, one.length or 0.0)))
