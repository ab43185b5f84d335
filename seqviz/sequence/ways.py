"""Table W: what a part meets on a straight way out of its final place."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.geometry.pose import Array
from seqviz.geometry.separation import TOLERANCE, interfere
from seqviz.geometry.sweep import swept_pieces
from seqviz.sequence.bench import Direction, direction_of
from seqviz.sequence.pieces import Pieces

__all__ = ["WayTable", "box_is_met"]

_SAME = float(np.sin(np.radians(0.01)))
"""Directions within 0.01 degree are one."""


class WayTable:
    """Candidate ways of each part, and what it meets on them; asked pair by pair and kept."""

    def __init__(self, assembly: Assembly, pieces: Pieces) -> None:
        self._assembly = assembly
        self._pieces = pieces
        self._ways: dict[str, tuple[Direction, ...]] = {}
        self._near: dict[tuple[str, int], dict[str, NDArray[np.intp]]] = {}
        self._met: dict[tuple[str, int, str], bool] = {}
        self._touch: dict[str, set[str]] = {}
        self._overlaps: dict[frozenset[str], bool] = {}

    def ways(self, part: str) -> tuple[Direction, ...]:
        """Return unit vectors OUT, both senses of its own axes, hole axes, and normals of what it touches."""
        if part not in self._ways:
            here = self._assembly.placed[part]
            lines = [*here.pose.rotation.T, *_hole_axes(here), *_normals(here)]
            for other in self._touching(part):
                lines.extend(_normals(other))
            both = (direction_of(sense * line) for line in _different(lines) for sense in (1.0, -1.0))
            self._ways[part] = tuple(both)
        return self._ways[part]

    def met(self, part: str, way: int, among: frozenset[str]) -> frozenset[str]:
        """Return the parts ``among`` that ``part`` meets on its way number ``way``.

        Parts whose final places overlap are left out: that is one finding of the geometry, not of the order.
        """
        near = self._near_on(part, way)
        asked = [other for other in near if other in among]
        self._ask(part, way, [other for other in asked if (part, way, other) not in self._met])
        return frozenset(
            other for other in asked if self._met[part, way, other] and not self._overlap(part, other)
        )

    def _ask(self, part: str, way: int, others: list[str]) -> None:
        """Find out at once which of ``others`` the part meets on its way."""
        if not others:
            return
        near = self._near_on(part, way)
        fixed = self._pieces.solids.take(np.concatenate([near[other] for other in others]))
        met = swept_pieces(self._assembly.placed[part].solids, fixed, np.array(self.ways(part)[way]))
        last = np.cumsum([len(near[other]) for other in others])[:-1]
        for other, pieces in zip(others, np.split(met, last), strict=True):
            self._met[part, way, other] = bool(pieces.any())

    def _near_on(self, part: str, way: int) -> dict[str, NDArray[np.intp]]:
        """Return, for each other part, its pieces whose boxes the moving part's box meets."""
        key = (part, way)
        if key not in self._near:
            solids, pieces = self._assembly.placed[part].solids, self._pieces
            low, high = solids.low.min(axis=0), solids.high.max(axis=0)
            hit = box_is_met(low, high, pieces.solids.low, pieces.solids.high, np.array(self.ways(part)[way]))
            found = np.flatnonzero(hit)
            owners = pieces.owner[found]
            self._near[key] = {
                pieces.names[k]: found[owners == k] for k in np.unique(owners) if pieces.names[k] != part
            }
        return self._near[key]

    def _overlap(self, one: str, other: str) -> bool:
        key = frozenset({one, other})
        if key not in self._overlaps:
            placed = self._assembly.placed
            self._overlaps[key] = interfere(placed[one].solids, placed[other].solids)
        return self._overlaps[key]

    def _touching(self, part: str) -> list[PlacedPart]:
        if not self._touch:
            for contact in self._assembly.contacts:
                self._touch.setdefault(contact.upper, set()).add(contact.lower)
                self._touch.setdefault(contact.lower, set()).add(contact.upper)
        names = sorted(self._touch.get(part, set()) - {part})
        return [self._assembly.placed[name] for name in names if name in self._assembly.placed]


def box_is_met(low: Array, high: Array, lows: Array, highs: Array, direction: Array) -> NDArray[np.bool_]:
    """Tell which of ``(m, 3)`` boxes a box meets when it moves along ``direction`` without end.

    Never says no where the solids inside meet by more than the tolerance; may say yes too often.
    """
    start, end = np.zeros(len(lows)), np.full(len(lows), np.inf)
    # Coordinate by coordinate: three long columns are much quicker than many rows of three.
    for k in range(3):
        enter, leave = lows[:, k] - (high[k] - TOLERANCE), highs[:, k] - (low[k] + TOLERANCE)
        if abs(direction[k]) < 1e-12:
            start[(enter >= 0) | (leave <= 0)] = np.inf
        else:
            first, second = enter / direction[k], leave / direction[k]
            np.maximum(start, np.minimum(first, second), out=start)
            np.minimum(end, np.maximum(first, second), out=end)
    return np.asarray(start < end)


def _hole_axes(part: PlacedPart) -> list[Array]:
    axes = {direction_of(hole.axis) for hole in part.part.holes}
    return [part.pose.vectors(np.array(axis)) for axis in sorted(axes)]


def _normals(part: PlacedPart) -> list[Array]:
    return [part.pose.vectors(flat.frame.rotation[:, 2]) for flat in part.part.flats.values()]


def _different(lines: list[Array]) -> list[Array]:
    """Return the first of each lot of lines that are one; the sense of a line does not matter."""
    vectors = np.array(lines)
    same = np.linalg.norm(np.cross(vectors[:, None], vectors[None]), axis=2) <= _SAME
    kept: list[int] = []
    for number, alike in enumerate(same):
        if not alike[kept].any():
            kept.append(number)
    return [lines[number] for number in kept]
