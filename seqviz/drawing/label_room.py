"""Finding room for words on a drawing: beside what they belong to, and on top of nothing else."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from seqviz.geometry.pose import Array

__all__ = ["LabelRoom", "Spot"]

_STEP = 2.0  # mm: sloping lines are kept clear of by boxes this long
_AWAY = (0.8, 2.5, 5.0, 8.0, 12.0, 17.0, 24.0)  # mm between a thing and its words, nearest first
# Where the words stand, seen from the thing: y down.
_SIDES = {
    "above": ((0, -1), (1, -1), (-1, -1), (0, 1), (1, 1), (-1, 1), (1, 0), (-1, 0)),
    "right": ((1, 0), (1, -1), (1, 1), (0, -1), (0, 1), (-1, 0), (-1, -1), (-1, 1)),
    "left": ((-1, 0), (-1, -1), (-1, 1), (0, -1), (0, 1), (1, 0), (1, -1), (1, 1)),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where words go: left, top, right, bottom of the box; ``far``: it wants a line to its thing."""

    box: tuple[float, float, float, float]
    far: bool


@dataclass(slots=True)
class LabelRoom:
    """The boxes that are taken, mm on the page."""

    _taken: list[tuple[float, float, float, float]] = field(default_factory=list)

    def take(self, box: Sequence[float]) -> None:
        """Keep words out of a box: left, top, right, bottom."""
        left, top, right, bottom = box
        self._taken.append((left, top, right, bottom))

    def take_line(self, start: Array, end: Array, margin: float = 0.4) -> None:
        """Keep words off a line."""
        level = bool(np.any(np.abs(end - start) < 1e-6))
        count = 1 if level else max(1, math.ceil(float(np.linalg.norm(end - start)) / _STEP))
        points = start + np.linspace(0.0, 1.0, count + 1)[:, None] * (end - start)
        for one, other in pairwise(points):
            low, high = np.minimum(one, other) - margin, np.maximum(one, other) + margin
            self.take((*low.tolist(), *high.tolist()))

    def place(self, thing: tuple[Array, float], size: tuple[float, float], side: str = "above") -> Spot:
        """Take and return the nearest free spot for words of ``size`` (wide, high) beside a round thing.

        ``thing`` is its middle (2,) and radius. Where nothing is free the spot that covers least is taken.
        """
        taken = np.array(self._taken).reshape(-1, 4)
        middle, radius = thing
        best: tuple[float, Spot] | None = None
        for away in _AWAY:
            for way in _SIDES[side]:
                box = _beside(middle, radius + away, way, size)
                covered = _covered(box, taken)
                if best is None or covered < best[0] - 1e-9:
                    best = (covered, Spot(box=box, far=away > 3.0))
                if covered == 0.0:
                    break
            if best is not None and best[0] == 0.0:
                break
        assert best is not None
        self.take(best[1].box)
        return best[1]


def _beside(
    middle: Array, away: float, way: tuple[int, int], size: tuple[float, float]
) -> tuple[float, float, float, float]:
    """Return a box whose nearest side is ``away`` from the middle."""
    wide, high = size
    slant = math.sqrt(0.5) if way[0] and way[1] else 1.0
    left = float(middle[0]) + way[0] * away * slant + (way[0] - 1) * wide / 2
    top = float(middle[1]) + way[1] * away * slant + (way[1] - 1) * high / 2
    return (left, top, left + wide, top + high)


def _covered(box: tuple[float, float, float, float], taken: Array) -> float:
    """Return the area of ``box`` that is taken already, mm2."""
    if not len(taken):
        return 0.0
    wide = np.minimum(taken[:, 2], box[2]) - np.maximum(taken[:, 0], box[0])
    high = np.minimum(taken[:, 3], box[3]) - np.maximum(taken[:, 1], box[1])
    return float((np.maximum(wide, 0.0) * np.maximum(high, 0.0)).sum())
