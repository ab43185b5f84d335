"""Hatching by lines: patterns would be lost in PDF, and lines print in one ink."""

from __future__ import annotations

import math
from collections.abc import Iterator

__all__ = ["HATCHINGS", "Box", "hatching"]

Box = tuple[float, float, float, float]
"""Left, top, right, bottom, mm on the page."""

HATCHINGS = ((1, 2.2), (-1, 2.2), (1, 1.3), (-1, 1.3), (1, 3.2), (-1, 3.2))
"""(+1 rising to the right, -1 falling; mm between two lines): neighbours differ in direction."""

_THIN = 3.0  # mm: lower boxes get their lines closer together


def hatching(box: Box, number: int) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Yield the lines, at 45 degrees, that fill ``box`` with the hatching of the layer ``number``.

    The lines are the same ones for all boxes of a layer, so that they run on behind what lies between.
    """
    left, top, right, bottom = box
    rising, apart = HATCHINGS[number % len(HATCHINGS)]
    if bottom - top < _THIN:
        apart = max(0.6 * apart, 1.1)
    # On a line x + rising * y stays the same: y runs down.
    ends = sorted((rising * top, rising * bottom))
    first = math.ceil((left + ends[0]) / apart)
    last = math.floor((right + ends[1]) / apart)
    for k in range(first, last + 1):
        level = k * apart
        x = sorted((level - ends[0], level - ends[1]))
        low, high = max(left, x[0]), min(right, x[1])
        if high - low > 0.05:
            yield (low, rising * (level - low)), (high, rising * (level - high))
