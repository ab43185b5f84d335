"""All solids of the placed structure in one list, each with the part that owns it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.structure import Assembly
from seqviz.geometry.access import Cylinders, met_pairs
from seqviz.geometry.separation import GUARD, TOLERANCE, close_pairs, depths
from seqviz.geometry.solids import Solids, joined

__all__ = ["Pieces"]


class Pieces:
    """The pieces of every placed part that is not muted.

    Attributes
    ----------
    names
        The parts that own pieces, in the order of the structure.
    solids
        All their pieces.
    owner
        ``(m,)`` for each piece the place of its part in ``names``.
    """

    def __init__(self, assembly: Assembly) -> None:
        parts = [part for name, part in assembly.placed.items() if name not in assembly.muted]
        self.names = tuple(part.name for part in parts)
        self.solids = joined([part.solids for part in parts])
        counts = [len(part.solids) for part in parts]
        self.owner: NDArray[np.intp] = np.repeat(np.arange(len(parts)), counts)

    def met_by_cylinders(self, cylinders: Cylinders) -> list[frozenset[str]]:
        """Return for each cylinder the parts that it penetrates by more than the tolerance."""
        return self._owners(met_pairs(cylinders, self.solids), len(cylinders))

    def met_by_solids(self, solids: Solids) -> list[frozenset[str]]:
        """Return for each of ``solids`` the parts that it penetrates by more than the tolerance."""
        pairs = close_pairs(solids, self.solids, -TOLERANCE)
        pairs = pairs[depths(solids, self.solids, pairs) > TOLERANCE + GUARD] if len(pairs) else pairs
        return self._owners(pairs, len(solids))

    def _owners(self, pairs: NDArray[np.intp], count: int) -> list[frozenset[str]]:
        """Return for each of ``count`` things the parts whose pieces it meets by the ``(p, 2)`` ``pairs``."""
        found: list[frozenset[str]] = [frozenset()] * count
        if not len(pairs):
            return found
        things, parts = np.divmod(
            np.unique(pairs[:, 0] * len(self.names) + self.owner[pairs[:, 1]]), len(self.names)
        )
        first = np.flatnonzero(np.diff(things, prepend=-1))
        names = [self.names[part] for part in parts.tolist()]
        for thing, start, end in zip(things[first].tolist(), first, (*first[1:], len(parts)), strict=True):
            found[thing] = frozenset(names[start:end])
        return found
