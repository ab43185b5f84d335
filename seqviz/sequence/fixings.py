"""Table K: pins and set fasteners in the way of a part, and heads under it."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import Assembly, PlacedPart, Stack
from seqviz.geometry.access import Cylinder, cylinders_meet
from seqviz.geometry.pose import Array
from seqviz.geometry.rounds import prism_inside
from seqviz.geometry.solids import solids_of
from seqviz.sequence.access_table import end_face
from seqviz.sequence.hardware import SetFastener
from seqviz.sequence.tables import Fixing, Way
from seqviz.sequence.ways import boxes_on, way_meets

__all__ = ["PIN_BODY", "PIN_TIP", "FixingTable", "body_of_pin"]

PIN_BODY = (12.0, 30.0)
"""mm: diameter and length of a pin's body on the side that it comes from (common practice, no source)."""

PIN_TIP = 8.0
"""mm: how far a pin stands out on the far side, as thick as its hole (common practice, no source)."""


class FixingTable:
    """What pins and set fasteners do to the way of a part."""

    def __init__(self, assembly: Assembly, fastener_in: Callable[[int, str | None], SetFastener]) -> None:
        self._assembly = assembly
        self._fastener_in = fastener_in
        self._seen: set[Fixing] = set()
        self._asked: frozenset[Fixing] = frozenset()
        self._names: list[Fixing] = []
        # Of each stack its axis, and where that leaves it: at layer 1, then at the last.
        self._axes = np.array([stack.axis for stack in assembly.stacks]).reshape(-1, 3)
        faces = [[end_face(stack, 1), end_face(stack, -1)] for stack in assembly.stacks]
        self._faces = np.array(faces).reshape(-1, 2, 3)
        self._diameters = np.array([stack.diameter for stack in assembly.stacks])
        self._lows, self._highs = np.zeros((0, 3)), np.zeros((0, 3))
        self._known: dict[Fixing, tuple[Cylinder, Cylinder, Cylinder]] = {}
        self._in_way: dict[tuple[str, Way, Fixing], bool] = {}
        self._under: dict[tuple[str, Fixing], bool] = {}

    def under(self, part: str, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Return the set fasteners with a head or tail where ``part`` lies and has no hole for it."""
        lows, highs = self._boxes(among)
        low, high = _box_of(self._assembly.placed[part])
        touching = np.ones(len(lows), dtype=bool)
        for k in range(3):
            touching &= (lows[:, k] < high[k]) & (highs[:, k] > low[k])
        near = self._chosen(touching, among)
        asked = [fixing for fixing in near if fixing.kind == "fastener"]
        new = [fixing for fixing in asked if (part, fixing) not in self._under]
        if new:
            self._ask_under(part, new)
        return frozenset(fixing for fixing in asked if self._under[part, fixing])

    def in_way(self, part: str, way: Way, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Return the fixings that ``part`` meets in its place or on its way out."""
        lows, highs = self._boxes(among)
        near = boxes_on(*_box_of(self._assembly.placed[part]), lows, highs, way)
        asked = self._chosen(near, among)
        new = [fixing for fixing in asked if (part, way, fixing) not in self._in_way]
        if new:
            self._ask_in_way(part, way, new)
        return frozenset(fixing for fixing in asked if self._in_way[part, way, fixing])

    def pin_body(self, pin: Fixing) -> Cylinder:
        """Return the room of a pin's body on the complete stack."""
        return self._cylinders(pin)[0]

    def standing_out(self, fastener: Fixing) -> tuple[Cylinder, Cylinder]:
        """Return head and tail of a set fastener, on the complete stack."""
        return self._cylinders(fastener)[:2]

    def _boxes(self, among: frozenset[Fixing]) -> tuple[Array, Array]:
        """Return low and high corners, ``(n, 3)``, of a box round each known fixing, from head to tail.

        Those ``among`` are known from then on.
        """
        # Of the same fixings one part after the other is asked.
        new = frozenset[Fixing]() if among is self._asked else among - self._seen
        self._asked = among
        fresh = sorted(new, key=lambda f: (f.stack, f.kind, f.end, f.fastener or ""))
        if fresh:
            self._seen.update(fresh)
            self._names += fresh
            low, high = self._boxes_round(fresh)
            self._lows = np.concatenate([self._lows, low])
            self._highs = np.concatenate([self._highs, high])
        return self._lows, self._highs

    def _boxes_round(self, fixings: list[Fixing]) -> tuple[Array, Array]:
        """Return boxes round the axes from end to end, as far round them as the thickest is wide."""
        at = [fixing.stack for fixing in fixings]
        faces, axes = self._faces[at], self._axes[at]
        sizes = np.array([self._sizes(fixing) for fixing in fixings])
        ends = np.array([fixing.end for fixing in fixings])
        # Column 0 is layer 1's end.
        lengths = np.where(ends[:, None] > 0, sizes[:, :, 1], sizes[:, ::-1, 1])
        tips = faces + axes[:, None] * (lengths * [1.0, -1.0])[..., None]
        around = sizes[:, :, 0].max(axis=1)[:, None] / 2
        shank = self._diameters[at][:, None] / 2
        around = np.maximum(around, shank)
        return tips.min(axis=1) - around, tips.max(axis=1) + around

    def _chosen(self, near: NDArray[np.bool_], among: frozenset[Fixing]) -> list[Fixing]:
        """Return the fixings ``among`` that are ``near``."""
        known = self._names
        return [fixing for fixing in (known[k] for k in np.flatnonzero(near)) if fixing in among]

    def _ask_under(self, part: str, fixings: list[Fixing]) -> None:
        """Find out at once which of ``fixings`` have a head or tail where ``part`` lies."""
        here = self._assembly.placed[part]
        ends = [self._cylinders(fixing)[:2] for fixing in fixings]
        met = cylinders_meet([end for both in ends for end in both], here.solids).any(axis=1)
        for fixing, both, hit in zip(fixings, ends, met.reshape(-1, 2).tolist(), strict=True):
            lies = any(one and not _goes_through(here, end) for end, one in zip(both, hit, strict=True))
            self._under[part, fixing] = lies

    def _ask_in_way(self, part: str, way: Way, fixings: list[Fixing]) -> None:
        """Find out at once which of ``fixings`` are met by ``part`` on its way."""
        here = self._assembly.placed[part]
        rounds = [
            (f, one)
            for f in fixings
            for one in self._cylinders(f)
            if one.length > 0.0 and not _lets_out(here, way, one)  # a flush head is not in the way
        ]
        solids = solids_of([prism_inside(one) for _, one in rounds])
        near = np.flatnonzero(boxes_on(*_box_of(here), solids.low, solids.high, way))
        met = near[way_meets(here.solids, solids.take(near), way)] if len(near) else near
        closing = {rounds[k][0] for k in met}
        self._in_way.update({(part, way, fixing): fixing in closing for fixing in fixings})

    def _cylinders(self, fixing: Fixing) -> tuple[Cylinder, Cylinder, Cylinder]:
        """Return what stands out of the complete stack on its two ends, then the shank inside it."""
        if fixing not in self._known:
            stack = self._assembly.stacks[fixing.stack]
            near, far = self._sizes(fixing)
            self._known[fixing] = (
                _standing(stack, fixing.end, near),
                _standing(stack, -fixing.end, far),
                _shank(stack),
            )
        return self._known[fixing]

    def _sizes(self, fixing: Fixing) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return diameter and length, mm, of what stands out at the fixing's end, and at the other."""
        if fixing.kind == "pin":
            return PIN_BODY, (self._assembly.stacks[fixing.stack].diameter, PIN_TIP)
        fastener = self._fastener_in(fixing.stack, fixing.fastener)
        return fastener.head, fastener.tail


def body_of_pin(stack: Stack, end: int) -> Cylinder:
    """Return the room of a pin's body at an end of the complete stack; +1: layer 1's."""
    return _standing(stack, end, PIN_BODY)


def _standing(stack: Stack, end: int, size: tuple[float, float]) -> Cylinder:
    diameter, length = size
    return Cylinder(start=end_face(stack, end), axis=stack.axis * end, length=length, radius=diameter / 2)


def _shank(stack: Stack) -> Cylinder:
    """Return the shank, as thick as its hole, from layer 1 down to the last; it matters where layers gape."""
    length = stack.layers[0].top - stack.layers[-1].bottom
    return Cylinder(start=end_face(stack, -1), axis=stack.axis, length=length, radius=stack.diameter / 2)


def _box_of(part: PlacedPart) -> tuple[Array, Array]:
    return part.solids.low.min(axis=0), part.solids.high.max(axis=0)


def _lets_out(part: PlacedPart, way: Way, round_one: Cylinder) -> bool:
    """Say whether the part goes out along the cylinder, which one of its holes lets through."""
    along = all(abs(np.dot(one, round_one.axis)) >= PARALLEL for one in way.directions)
    return along and _goes_through(part, round_one)


def _goes_through(part: PlacedPart, round_one: Cylinder) -> bool:
    """Say whether a hole of ``part`` at that level lets the whole cylinder through."""
    middle = round_one.start + round_one.axis * round_one.length / 2
    for hole in part.part.holes:
        away = part.pose.points(hole.centre) - middle
        along = float(away @ round_one.axis)
        reach = (round_one.length + part.part.thickness_at(hole)) / 2
        aside = float(np.linalg.norm(away - along * round_one.axis))
        parallel = abs(part.pose.vectors(hole.axis) @ round_one.axis) >= PARALLEL
        if parallel and abs(along) <= reach and aside + round_one.radius <= hole.diameter / 2 + 1e-9:
            return True
    return False
