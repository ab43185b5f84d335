"""Which lengths of a fastener there are, and for which grips: the maker's, else published ones."""

from __future__ import annotations

from seqviz.trade.blind_rivets import metric_blind_rivets
from seqviz.trade.fasteners import BLIND_RIVET, Fastener

__all__ = ["Lengths", "known_lengths"]

Lengths = tuple[tuple[float, float, float], ...]
"""(length, grip from, grip to), mm."""


def known_lengths(fastener: Fastener, makers: Lengths) -> Lengths:
    """Return (length, grip from, grip to), mm: the maker's where there are some, else published ones."""
    if makers or fastener.kind != BLIND_RIVET:
        return makers
    listed = metric_blind_rivets(fastener.diameter)
    return tuple((one.length, one.grip_from, one.grip_to) for one in listed if one.length is not None)
