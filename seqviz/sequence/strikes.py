"""What stands close behind a hole where the drill comes through."""

from __future__ import annotations

import numpy as np

from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import Assembly, PlacedPart, Stack
from seqviz.geometry.access import Cylinder, Cylinders, cylinder_meets
from seqviz.geometry.pose import Array
from seqviz.geometry.separation import TOLERANCE
from seqviz.sequence.pieces import Pieces

__all__ = ["BREAKTHROUGH", "Strikes"]

BREAKTHROUGH = 15.0
"""mm: how far a drill runs on when it is through (project choice)."""


class Strikes:
    """Answers what a drill hits; asked hole by hole."""

    def __init__(self, assembly: Assembly, pieces: Pieces) -> None:
        self._assembly = assembly
        self._pieces = pieces

    def behind(self, stack: Stack, end: int, level: float, among: frozenset[str]) -> dict[str, float]:
        """Return the parts ``among`` behind, and how far, mm; a hole of their own lets the drill through.

        Parameters
        ----------
        end, level
            The end of the stack where the drill comes out, +1 at layer 1; mm along the axis where it does.
        """
        out = stack.axis * end
        start = stack.point + stack.axis * level
        radius = stack.diameter / 2
        room = Cylinder(start=start, axis=out, length=BREAKTHROUGH, radius=radius)
        met = self._pieces.met_by_cylinders(Cylinders.of([room]))[0] & among
        parts = (self._assembly.placed[name] for name in sorted(met))
        return {
            part.name: _distance(part, start, out, radius)
            for part in parts
            if not _lets_through(part, start, out, radius)
        }


def _distance(part: PlacedPart, start: Array, out: Array, radius: float) -> float:
    """Return how far the drill runs before it meets the part: by halving, to 0.01 mm."""
    low, high = 0.0, BREAKTHROUGH
    while high - low > 0.01:
        middle = (low + high) / 2
        tip = Cylinder(start=start, axis=out, length=middle, radius=radius)
        met = bool(cylinder_meets(tip, part.solids).any())
        low, high = (low, middle) if met else (middle, high)
    # A tip is met only once it is in by the tolerance.
    return round(max(0.0, high - TOLERANCE), 1)


def _lets_through(part: PlacedPart, start: Array, out: Array, radius: float) -> bool:
    for hole in part.part.holes:
        away = part.pose.points(hole.centre) - start
        along = float(away @ out)
        aside = float(np.linalg.norm(away - along * out))
        if (
            abs(part.pose.vectors(hole.axis) @ out) >= PARALLEL
            and 0.0 < along < BREAKTHROUGH + 20.0
            and aside + radius <= hole.diameter / 2 + 0.05
        ):
            return True
    return False
