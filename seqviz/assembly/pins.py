"""The largest round pin that goes through several holes at once."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from seqviz.geometry.pose import Array

__all__ = ["largest_pin"]

ROUNDS = 60
"""Golden-section rounds: the interval shrinks by 0.618 each, from some mm to below 1e-9 mm."""

GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0


def largest_pin(centres: Array, diameters: Array) -> float:
    """Return the diameter, mm, of the largest circle inside all circles; below 0 where they share no place.

    Parameters
    ----------
    centres
        ``(n, 2)``, mm, in a plane across the axis.
    diameters
        ``(n,)``, mm.

    Notes
    -----
    The room at a point is the least of radius less distance over the circles. It is a concave function of
    the point, so two nested golden-section searches find its top.
    """
    spread = np.ptp(centres, axis=0)
    if spread.max() < 1e-9:
        return float(diameters.min())
    if len(centres) == 2:
        apart = float(np.linalg.norm(centres[0] - centres[1]))
        return float(min(diameters.min(), diameters.sum() / 2 - apart))
    low, high = centres.min(axis=0).tolist(), centres.max(axis=0).tolist()
    # A few circles, asked thousands of times: plain numbers are quicker than arrays.
    circles = [(x, y, d / 2) for (x, y), d in zip(centres.tolist(), diameters.tolist(), strict=True)]

    def room(x: float, y: float) -> float:
        return float(min(radius - math.hypot(a - x, b - y) for a, b, radius in circles))

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
