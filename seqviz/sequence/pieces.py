"""All solids of the placed structure in one list, each with the part that owns it."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.structure import Assembly
from seqviz.geometry.access import Cylinders, Grouped, groups_met
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
        self._grouped = Grouped.of(self.solids, self.owner)

    def met_by_cylinders(self, cylinders: Cylinders) -> list[frozenset[str]]:
        """Return for each cylinder the parts that it penetrates by more than the tolerance."""
        return self._named(groups_met(cylinders, self._grouped))

    def met_by_solids(self, solids: Solids) -> list[frozenset[str]]:
        """Return for each of ``solids`` the parts that it penetrates by more than the tolerance."""
        pairs = close_pairs(solids, self.solids, -TOLERANCE)
        pairs = pairs[depths(solids, self.solids, pairs) > TOLERANCE + GUARD] if len(pairs) else pairs
        met = np.zeros((len(solids), len(self.names)), dtype=bool)
        met[pairs[:, 0], self.owner[pairs[:, 1]]] = True
        return self._named(met)

    def _named(self, met: NDArray[np.bool_]) -> list[frozenset[str]]:
        """Return for each thing the names of the parts that it meets, by the ``(things, parts)`` table."""
        found: list[frozenset[str]] = [frozenset()] * len(met)
        things, parts = np.nonzero(met)
        first = np.flatnonzero(np.diff(things, prepend=-1)).tolist()
        names = [self.names[part] for part in parts.tolist()]
        for start, end in pairwise([*first, len(names)]):
            found[things[start]] = frozenset(names[start:end])
        return found
