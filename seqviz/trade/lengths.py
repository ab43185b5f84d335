"""Which lengths of a fastener there are, and for which grips: the maker's, else published ones."""

from __future__ import annotations

from seqviz.trade.fasteners import BLIND_RIVET, Fastener

__all__ = ["Lengths", "known_lengths"]

Lengths = tuple[tuple[float, float, float], ...]
"""(length, grip from, grip to), mm."""

# ISO 15981:2002, open end blind rivets, AlA/AlA: length, grip from, grip to, mm. The heading of the columns
# was not in the copy that was read; they are taken as 2.4, 3 and 3.2, 4, 4.8 and 5, 6 and 6.4 mm.
_ISO_15981: dict[tuple[float, ...], Lengths] = {
    (2.4,): ((6, 0.5, 3.0), (12, 6, 9)),
    (3.0, 3.2): (
        (5, 0.5, 1.5),
        (6, 1.5, 3.5),
        (8, 3.5, 5.0),
        (10, 5, 7),
        (12, 7, 9),
        (16, 9, 13),
        (20, 13, 17),
    ),
    (4.0,): ((6, 1, 3), (8, 3, 5), (10, 5.0, 6.5), (12, 6.5, 8.5), (16, 8.5, 12.5), (20, 12.5, 16.5)),
    (4.8, 5.0): ((6, 1.5, 2.5), (8, 2.5, 4.0), (10, 4, 6), (12, 6, 8), (16, 8, 12), (20, 12, 15)),
    (6.0, 6.4): ((12, 3, 6), (16, 6, 10), (20, 10, 14)),
}
_SAME_SIZE = 0.01  # mm


def known_lengths(fastener: Fastener, makers: Lengths) -> Lengths:
    """Return (length, grip from, grip to), mm: the maker's where there are some, else published ones."""
    if makers or fastener.kind != BLIND_RIVET:
        return makers
    for diameters, lengths in _ISO_15981.items():
        if any(abs(fastener.diameter - one) <= _SAME_SIZE for one in diameters):
            return lengths
    return ()
