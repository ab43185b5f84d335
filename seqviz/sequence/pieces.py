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
        found: list[set[str]] = [set() for _ in range(len(cylinders))]
        pairs = met_pairs(cylinders, self.solids)
        for one, part in zip(pairs[:, 0].tolist(), self.owner[pairs[:, 1]].tolist(), strict=True):
            found[one].add(self.names[part])
        return [frozenset(names) for names in found]

    def met_by_solids(self, solids: Solids) -> list[frozenset[str]]:
        """Return for each of ``solids`` the parts that it penetrates by more than the tolerance."""
        pairs = close_pairs(solids, self.solids, -TOLERANCE)
        pairs = pairs[depths(solids, self.solids, pairs) > TOLERANCE + GUARD] if len(pairs) else pairs
        found: list[set[str]] = [set() for _ in range(len(solids))]
        for one, piece in pairs:
            found[one].add(self.names[self.owner[piece]])
        return [frozenset(names) for names in found]
