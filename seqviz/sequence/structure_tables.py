"""The four tables of a placed structure, filled as they are asked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property

from seqviz.assembly.structure import Assembly
from seqviz.geometry.access import Cylinders
from seqviz.records.model import Model
from seqviz.records.steps import Sequence
from seqviz.sequence.access import Side
from seqviz.sequence.access_table import AccessTable
from seqviz.sequence.bench import Direction, direction_of
from seqviz.sequence.built_in_tools import BUILT_IN_TOOLS
from seqviz.sequence.fixings import FixingTable
from seqviz.sequence.hardware import SetFastener, fastener_in
from seqviz.sequence.pieces import Pieces
from seqviz.sequence.strikes import Strikes
from seqviz.sequence.tables import Fixing, Way
from seqviz.sequence.ways import WayTable

__all__ = ["StructureTables"]


class StructureTables:
    """Answers `seqviz.sequence.tables.Tables` from solids and from the builder's tools.

    Of parts and stacks without a place nothing is known: no tool is asked for, nothing is in the way, and a
    part comes straight from above or from below.
    """

    def __init__(self, model: Model, assembly: Assembly, sequence: Sequence) -> None:
        self._model = model
        self._assembly = assembly
        self._tools = BUILT_IN_TOOLS if sequence.tools is None else sequence.tools
        self._fasteners: dict[tuple[str | None, float, float], SetFastener] = {}

    @cached_property
    def _pieces(self) -> Pieces:
        return Pieces(self._assembly)

    @cached_property
    def _access(self) -> AccessTable:
        return AccessTable(self._assembly, self._pieces, self._tools)

    @cached_property
    def _without_place(self) -> frozenset[int]:
        return frozenset(stack.index for stack in self._assembly.stacks if not stack.located)

    @cached_property
    def _ways(self) -> WayTable:
        return WayTable(self._assembly, self._pieces)

    @cached_property
    def _strikes(self) -> Strikes:
        return Strikes(self._assembly, self._pieces)

    @cached_property
    def _fixings(self) -> FixingTable:
        return FixingTable(self._assembly, self._fastener)

    def _fastener(self, stack: int, name: str | None) -> SetFastener:
        there = self._assembly.stacks[stack]
        key = (name, there.diameter, there.grip)
        if key not in self._fasteners:
            self._fasteners[key] = fastener_in(self._model, there, name)
        return self._fasteners[key]

    def sides(self, stack: int, fastener: str | None) -> tuple[Side, ...]:
        """Table T."""
        there = self._assembly.stacks[stack]
        return self._access.sides(there, self._fastener(stack, fastener)) if there.located else ()

    def ways(self, part: str) -> tuple[Direction, ...]:
        """Return the candidate ways OUT."""
        here = self._assembly.placed[part]
        return self._ways.ways(part) if here.located else (direction_of(here.side), direction_of(-here.side))

    def two_moves(self, parts: tuple[str, ...], among: frozenset[str]) -> Iterable[Way]:
        """Return candidate ways OUT in two moves."""
        located = tuple(part for part in parts if self._located(part))
        return self._ways.two_moves(located, among) if located else ()

    def met_parts(self, part: str, way: Way, among: frozenset[str]) -> frozenset[str]:
        """Table W."""
        return self._ways.met(part, way, among) if self._located(part) else frozenset()

    def met_fixings(self, part: str, way: Way, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Table K, on a way."""
        known = self._with_place(part, among)
        return self._fixings.in_way(part, way, known) if known else known

    def heads_under(self, part: str, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Table K, in the final place."""
        known = self._with_place(part, among)
        return self._fixings.under(part, known) if known else known

    def behind(self, stack: int, end: int, level: float, among: frozenset[str]) -> Mapping[str, float]:
        """Return what a drill hits that comes out there."""
        return self._strikes.behind(self._assembly.stacks[stack], end, level, among)

    def pins_meet(self, pins: Iterable[Fixing], among: frozenset[str]) -> list[frozenset[str]]:
        """Return what stands where the body of each pin must be."""
        bodies = Cylinders.of([self._fixings.pin_body(pin) for pin in pins])
        return [met & among for met in self._pieces.met_by_cylinders(bodies)]

    def _located(self, part: str) -> bool:
        return self._assembly.placed[part].located

    def _with_place(self, part: str, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Return the fixings that can be compared with ``part``: both stand somewhere."""
        if not self._located(part):
            return frozenset()
        astray = self._without_place
        return frozenset(fixing for fixing in among if fixing.stack not in astray) if astray else among
