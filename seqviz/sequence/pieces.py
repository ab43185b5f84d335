"""All solids of the placed structure in one list, each with the part that owns it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.structure import Assembly
from seqviz.geometry.access import Cylinder, cylinders_meet
from seqviz.geometry.pose import Array
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
        boxes = np.array([_box_of(cylinder) for cylinder in cylinders])
        near = np.all(
            (boxes[:, None, 1] - self.solids.low > TOLERANCE)
            & (self.solids.high - boxes[:, None, 0] > TOLERANCE),
            axis=2,
        )
        found = []
        for cylinder, row in zip(cylinders, near, strict=True):
            among = self._within_length(cylinder, np.flatnonzero(row))
            hit = cylinders_meet([cylinder], self.solids.take(among))[0] if len(among) else row[:0]
            found.append(self.owners(hit, among))
        return found

    def met_by_solids(self, solids: Solids) -> list[frozenset[str]]:
        """Return for each of ``solids`` the parts that it penetrates by more than the tolerance."""
        pairs = close_pairs(solids, self.solids, -TOLERANCE)
        pairs = pairs[depths(solids, self.solids, pairs) > TOLERANCE + GUARD] if len(pairs) else pairs
        found: list[set[str]] = [set() for _ in range(len(solids))]
        for one, piece in pairs:
            found[one].add(self.names[self.owner[piece]])
        return [frozenset(names) for names in found]

    def _within_length(self, cylinder: Cylinder, among: NDArray[np.intp]) -> NDArray[np.intp]:
        """Leave out what only touches an end of the cylinder: first of all the stack that it stands on."""
        levels = (self.solids.vertices[among] - cylinder.start) @ cylinder.axis
        inside = (levels.max(axis=1) > TOLERANCE) & (levels.min(axis=1) < cylinder.length - TOLERANCE)
        return np.asarray(among[inside])


def _box_of(cylinder: Cylinder) -> Array:
    """Return ``(2, 3)``: the lowest and highest corner of the box around a cylinder."""
    ends = np.array([cylinder.start, cylinder.start + cylinder.axis * cylinder.length])
    around = cylinder.radius * np.sqrt(np.maximum(0.0, 1.0 - cylinder.axis**2))
    return np.array([ends.min(axis=0) - around, ends.max(axis=0) + around])
