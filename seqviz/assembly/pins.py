"""The largest round pin that goes through several holes at once."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

__all__ = ["largest_pin"]

ROUNDS = 60
"""Golden-section rounds: the interval shrinks by 0.618 each, from some mm to below 1e-9 mm."""

SAME_SPOT = 1e-9
"""mm: middles of circles that are nearer are one."""

GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0


def largest_pin(circles: Sequence[tuple[float, float, float]]) -> float:
    """Return the diameter, mm, of the largest circle inside all circles; below 0 where they share no place.

    Parameters
    ----------
    circles
        (x, y, diameter), mm, in a plane across the axis. A few plain numbers, asked thousands of times: they
        are quicker than arrays.

    Notes
    -----
    The room at a point is the least of radius less distance over the circles. It is a concave function of
    the point, so two nested golden-section searches find its top.
    """
    across, along, diameters = zip(*circles, strict=True)
    low, high = (min(across), min(along)), (max(across), max(along))
    if max(high[0] - low[0], high[1] - low[1]) < SAME_SPOT:
        return float(min(diameters))
    if len(circles) == 2:
        apart = math.hypot(high[0] - low[0], high[1] - low[1])
        return float(min(*diameters, sum(diameters) / 2 - apart))

    def room(x: float, y: float) -> float:
        return min(diameter / 2 - math.hypot(a - x, b - y) for a, b, diameter in circles)

    def best_y(x: float) -> float:
        return _top(lambda y: room(x, y), low[1], high[1])

    return 2.0 * _top(best_y, low[0], high[0])


def _top(value: Callable[[float], float], low: float, high: float) -> float:
    """Return the greatest value of a concave function between ``low`` and ``high``."""
    left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    at_left, at_right = value(left), value(right)
    for _ in range(ROUNDS):
        if at_left < at_right:
            low, left, at_left = left, right, at_right
            right = low + GOLDEN * (high - low)
            at_right = value(right)
        else:
            high, right, at_right = right, left, at_left
            left = high - GOLDEN * (high - low)
            at_left = value(left)
    return max(at_left, at_right)
