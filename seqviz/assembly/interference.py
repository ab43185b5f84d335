"""Which placed parts penetrate each other by more than 0.05 mm."""

from __future__ import annotations

from seqviz.assembly.structure import Assembly
from seqviz.geometry.boxes import near_pairs
from seqviz.geometry.separation import GUARD, TOLERANCE, deepest

__all__ = ["interfering"]


def interfering(assembly: Assembly) -> tuple[tuple[str, str, float], ...]:
    """Return pairs of placed parts that interfere, with the depth in mm; muted parts are left out."""
    names = sorted(name for name in assembly.placed if name not in assembly.muted)
    solids = [assembly.placed[name].solids for name in names]
    found: list[tuple[str, str, float]] = []
    for i, j in near_pairs(solids):
        depth = deepest(solids[i], solids[j])
        if depth > TOLERANCE + GUARD:
            found.append((names[i], names[j], depth))
    return tuple(found)
