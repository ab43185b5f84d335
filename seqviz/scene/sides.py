"""Which side of the base faces up, in words."""

from __future__ import annotations

from seqviz.assembly.structure import Assembly
from seqviz.geometry.pose import Array
from seqviz.sequence.bench import side_vector

__all__ = ["SIDES", "side_up"]

SIDES = ("upper side", "lower side", "left side", "right side", "forward end", "aft end")


def side_up(assembly: Assembly, up: Array) -> str:
    """Return the name of the base's side that faces ``up`` (unit vector, base frame)."""
    return max(SIDES, key=lambda name: float(side_vector(assembly, name) @ up))
