"""Table D: which side faces up, and which tool ends and moves the bench closes."""

from __future__ import annotations

import numpy as np

from seqviz.assembly.structure import Assembly
from seqviz.geometry.pose import Array, cross, frozen
from seqviz.records.steps import TurnOver

__all__ = ["BELOW_LEVEL", "Direction", "closed_by_bench", "direction_of", "side_vector", "turned"]

Direction = tuple[float, float, float]
"""A unit vector, base frame, that can be a key."""

BELOW_LEVEL = 15.0
"""Degrees below level that tools and moves may come from (project choice)."""

_LOWEST = -float(np.sin(np.radians(BELOW_LEVEL))) - 1e-9


def closed_by_bench(direction: Direction, up: Array) -> bool:
    """Say whether ``direction``, out of the work, points more than 15 degrees below level."""
    return bool(np.dot(direction, up) < _LOWEST)


def direction_of(vector: Array) -> Direction:
    """Return a unit vector as a key; rounding to 1e-9 makes equal directions one."""
    x, y, z = (round(float(value), 9) + 0.0 for value in vector)
    return (x, y, z)


def side_vector(assembly: Assembly, side: str) -> Array:
    """Return the ``(3,)`` direction, base frame, of ``upper``, ``left side``, ``aft end``, ...

    Left is up x forward: what is on the left of somebody who stands on the base and looks forward.
    A word that is none of them means upper; reading has told it.
    """
    left = cross(assembly.up, assembly.forward)
    known = {
        "upper": assembly.up,
        "lower": -assembly.up,
        "left": left,
        "right": -left,
        "forward": assembly.forward,
        "aft": -assembly.forward,
    }
    return frozen(known.get(side.split(maxsplit=1)[0] if side else "", assembly.up))


def turned(assembly: Assembly, up: Array, turn: TurnOver) -> Array:
    """Return what faces up after ``turn``: the opposite side, or the side that it names."""
    return side_vector(assembly, turn.side) if turn.side else frozen(-up)
