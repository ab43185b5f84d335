"""All solids of the placed structure in one list, each with the part that owns it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.structure import Assembly
from seqviz.geometry.access import Cylinder, cylinders_meet
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

    def owners(self, hit: NDArray[np.bool_], among: NDArray[np.intp]) -> frozenset[str]:
        """Return the parts that own the pieces ``among`` that are ``hit``."""
        return frozenset(self.names[k] for k in set(self.owner[among[hit]].tolist()))

    def met_by_cylinders(self, cylinders: Sequence[Cylinder]) -> list[frozenset[str]]:
        """Return for each cylinder the parts that it penetrates by more than the tolerance."""
        pairs = self._near(cylinders)
        which, among = np.unique(pairs[:, 0]), np.unique(pairs[:, 1])
        hits = cylinders_meet([cylinders[k] for k in which], self.solids.take(among))
        found = [frozenset[str]()] * len(cylinders)
        for k, hit in zip(which, hits, strict=True):
            found[k] = self.owners(hit, among)
        return found

    def met_by_solids(self, solids: Solids) -> list[frozenset[str]]:
        """Return for each of ``solids`` the parts that it penetrates by more than the tolerance."""
        pairs = close_pairs(solids, self.solids, -TOLERANCE)
        pairs = pairs[depths(solids, self.solids, pairs) > TOLERANCE + GUARD] if len(pairs) else pairs
        found: list[set[str]] = [set() for _ in range(len(solids))]
        for one, piece in pairs:
            found[one].add(self.names[self.owner[piece]])
        return [frozenset(names) for names in found]

    def _near(self, cylinders: Sequence[Cylinder]) -> NDArray[np.intp]:
        """Return ``(p, 2)`` cylinder and piece that may meet.

        Their boxes overlap, and the piece does not only touch an end: first of all the stack below a tool.
        """
        starts = np.array([one.start for one in cylinders])
        axes = np.array([one.axis for one in cylinders])
        lengths = np.array([one.length for one in cylinders])
        around = np.array([one.radius for one in cylinders])[:, None] * np.sqrt(
            np.maximum(0.0, 1.0 - axes**2)
        )
        ends = starts + axes * lengths[:, None]
        low, high = np.minimum(starts, ends) - around, np.maximum(starts, ends) + around
        about = np.flatnonzero(
            np.all((self.solids.low < high.max(axis=0)) & (self.solids.high > low.min(axis=0)), axis=1)
        )
        overlap = np.minimum(high[:, None] - self.solids.low[about], self.solids.high[about] - low[:, None])
        i, k = np.nonzero(overlap.min(axis=2) > TOLERANCE)
        j = about[k]
        levels = np.einsum("pvk,pk->pv", self.solids.vertices[j] - starts[i, None], axes[i])
        inside = (levels.max(axis=1) > TOLERANCE) & (levels.min(axis=1) < lengths[i] - TOLERANCE)
        return np.asarray(np.column_stack([i, j])[inside])
