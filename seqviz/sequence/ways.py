"""Table W: what a part meets on a way of one or two straight moves out of its final place."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.geometry.separation import TOLERANCE, interfere
from seqviz.geometry.solids import Solids, joined
from seqviz.geometry.sweep import swept_pieces
from seqviz.sequence.bench import Direction, direction_of
from seqviz.sequence.pieces import Pieces
from seqviz.sequence.tables import Way

__all__ = ["WayTable", "box_is_met", "boxes_on", "way_meets"]

_SAME = float(np.sin(np.radians(0.01)))
"""Directions within 0.01 degree are one."""

_ALONG = 0.999
"""A second move more nearly along the first is no second move."""

_SHORT = 30.0
"""mm: a first move may be as long as the part, and this long in any case (project choice)."""

_MOST_LENGTHS = 8
"""First moves tried along one direction, the shortest first (project choice)."""


class WayTable:
    """Candidate ways of each part, and what it meets on them; asked pair by pair and kept."""

    def __init__(self, assembly: Assembly, pieces: Pieces) -> None:
        self._assembly = assembly
        self._pieces = pieces
        self._ways: dict[str, tuple[Direction, ...]] = {}
        self._near: dict[tuple[str, Way], dict[str, NDArray[np.intp]]] = {}
        self._met: dict[tuple[str, Way, str], bool] = {}
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

    def met(self, part: str, way: Way, among: frozenset[str]) -> frozenset[str]:
        """Return the parts ``among`` that ``part`` meets on its way.

        Parts whose final places overlap are left out: that is one finding of the geometry, not of the order.
        """
        near = self._near_on(part, way)
        asked = [other for other in near if other in among]
        self._ask(part, way, [other for other in asked if (part, way, other) not in self._met])
        return frozenset(
            other for other in asked if self._met[part, way, other] and not self._overlap(part, other)
        )

    def two_moves(self, parts: tuple[str, ...], among: frozenset[str]) -> Iterator[Way]:
        """Yield ways of two moves; the first is as short as it can be to pass a piece of what is in the way.

        It is no longer than the parts themselves along it: a longer one is no slip aside.
        """
        own = joined([self._assembly.placed[part].solids for part in parts])
        outs = tuple(dict.fromkeys(out for part in parts for out in self.ways(part)))
        for out in outs:
            met = self._pieces_on(own, out, among)
            for first in outs:
                if len(met) and abs(np.dot(first, out)) < _ALONG:
                    yield from (Way(out, first, length) for length in _lengths(own, met, np.array(first)))

    def _pieces_on(self, own: Solids, out: Direction, among: frozenset[str]) -> Solids:
        """Return the pieces of parts ``among`` whose boxes the parts' box meets on its way ``out``."""
        every, names = self._pieces.solids, self._pieces.names
        hit = box_is_met(own.low.min(axis=0), own.high.max(axis=0), every.low, every.high, np.array(out))
        found = np.flatnonzero(hit)
        return every.take([int(k) for k in found if names[self._pieces.owner[k]] in among])

    def _ask(self, part: str, way: Way, others: list[str]) -> None:
        """Find out at once which of ``others`` the part meets on its way."""
        if not others:
            return
        near = self._near_on(part, way)
        fixed = self._pieces.solids.take(np.concatenate([near[other] for other in others]))
        met = way_meets(self._assembly.placed[part].solids, fixed, way)
        last = np.cumsum([len(near[other]) for other in others])[:-1]
        for other, pieces in zip(others, np.split(met, last), strict=True):
            self._met[part, way, other] = bool(pieces.any())

    def _near_on(self, part: str, way: Way) -> dict[str, NDArray[np.intp]]:
        """Return, for each other part, its pieces whose boxes the moving part's box meets."""
        key = (part, way)
        if key not in self._near:
            solids, pieces = self._assembly.placed[part].solids, self._pieces
            low, high = solids.low.min(axis=0), solids.high.max(axis=0)
            hit = boxes_on(low, high, pieces.solids.low, pieces.solids.high, way)
            found = np.flatnonzero(hit)
            owners = pieces.owner[found]
            met = [k for k in np.flatnonzero(np.bincount(owners)) if pieces.names[k] != part]
            self._near[key] = {pieces.names[k]: found[owners == k] for k in met}
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


def way_meets(moving: Solids, fixed: Solids, way: Way) -> NDArray[np.bool_]:
    """Return ``(m,)``: which pieces of ``fixed`` does ``moving``, on its way out of its place, run into."""
    out = np.array(way.out)
    if way.first is None:
        return swept_pieces(moving, fixed, out)
    aside = swept_pieces(moving, fixed, np.array(way.first), way.length)
    return aside | swept_pieces(moving.moved(_shift(way)), fixed, out)


def boxes_on(low: Array, high: Array, lows: Array, highs: Array, way: Way) -> NDArray[np.bool_]:
    """Tell which of ``(m, 3)`` boxes a box meets on its way; as `box_is_met`."""
    aside = np.zeros(3) if way.first is None else np.array(way.first) * way.length
    hit = box_is_met(low + aside, high + aside, lows, highs, np.array(way.out))
    if way.first is None:
        return hit
    lowest, highest = np.minimum(low, low + aside), np.maximum(high, high + aside)
    return np.asarray(hit | ((lows < highest) & (highs > lowest)).all(axis=1))


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


def _shift(way: Way) -> Pose:
    aside = np.zeros(3) if way.first is None else np.array(way.first) * way.length
    return Pose(rotation=frozen(np.eye(3)), translation=frozen(aside))


def _lengths(own: Solids, met: Solids, first: Array) -> list[float]:
    """Return the lengths, mm, after which a piece of ``own`` has passed one of ``met`` along ``first``."""
    mine, theirs = own.vertices @ first, met.vertices @ first
    size = float(mine.max() - mine.min())
    clear = (theirs.max(axis=1)[None] - mine.min(axis=1)[:, None]).round(6)
    short = clear[(clear > 0.0) & (clear <= max(size, _SHORT))]
    return sorted(set(short.tolist()))[:_MOST_LENGTHS]


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
