"""How holes of one diameter are told from others without colour: a frame round the hole."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from seqviz.drawing.svg import circle, line, polygon
from seqviz.geometry.pose import Array

__all__ = ["MARKS", "mark", "mark_reach"]

MARKS = ("no frame", "square", "diamond", "triangle", "second ring", "six corners", "thick ring")
"""The frames, the most frequent diameter first; beyond the last they begin again."""

_AIR = 0.9  # mm between the hole's edge and its frame
_THIN = 0.2


def mark(group: int, centre: Sequence[float], diameter: float) -> list[str]:
    """Return a hole at ``centre`` on the page: its true circle, a cross to punch at, its group's frame."""
    x, y = centre
    arm = min(diameter / 2, 2.0) * 0.6
    drawn = [
        circle((x, y), diameter, part="hole"),
        line((x - arm, y), (x + arm, y), 0.12),
        line((x, y - arm), (x, y + arm), 0.12),
    ]
    return [*drawn, *_frame(group % len(MARKS), np.array([x, y]), diameter)]


def mark_reach(group: int, diameter: float) -> float:
    """Return how far a hole and its frame reach from the middle, mm."""
    clear = diameter / 2 + _AIR
    return (diameter / 2, clear * 1.414, clear * 1.414, clear * 2, clear, clear * 1.16, diameter / 2 + 0.4)[
        group % len(MARKS)
    ]


def _frame(group: int, centre: Array, diameter: float) -> list[str]:
    clear = diameter / 2 + _AIR
    name = MARKS[group]
    if name == "no frame":
        return []
    if name == "second ring":
        return [circle(centre.tolist(), 2 * clear, _THIN, part="frame")]
    if name == "thick ring":
        return [circle(centre.tolist(), diameter + 0.5, 0.5, part="frame")]
    corners, first = {"square": (4, 45.0), "diamond": (4, 0.0), "triangle": (3, -90.0)}.get(name, (6, 0.0))
    # The frame touches the ring that stands clear of the hole.
    reach = clear / math.cos(math.pi / corners)
    turns = np.radians(first + np.arange(corners) * 360 / corners)
    return [polygon(centre + reach * np.column_stack([np.cos(turns), np.sin(turns)]), _THIN, part="frame")]
