"""The four tables of a placed structure, filled as they are asked."""

from __future__ import annotations

from functools import cached_property

from seqviz.assembly.structure import Assembly
from seqviz.records.model import Model
from seqviz.records.steps import Sequence
from seqviz.sequence.access import Side
from seqviz.sequence.access_table import AccessTable
from seqviz.sequence.bench import Direction
from seqviz.sequence.built_in_tools import BUILT_IN_TOOLS
from seqviz.sequence.fixings import FixingTable
from seqviz.sequence.hardware import SetFastener, fastener_in
from seqviz.sequence.pieces import Pieces
from seqviz.sequence.tables import Fixing
from seqviz.sequence.ways import WayTable

__all__ = ["StructureTables"]


class StructureTables:
    """Answers `seqviz.sequence.tables.Tables` from solids and from the builder's tools."""

    def __init__(self, model: Model, assembly: Assembly, sequence: Sequence) -> None:
        self._model = model
        self._assembly = assembly
        self._tools = BUILT_IN_TOOLS if sequence.tools is None else sequence.tools

    @cached_property
    def _pieces(self) -> Pieces:
        return Pieces(self._assembly)

    @cached_property
    def _access(self) -> AccessTable:
        return AccessTable(self._assembly, self._pieces, self._tools)

    @cached_property
    def _ways(self) -> WayTable:
        return WayTable(self._assembly, self._pieces)

    @cached_property
    def _fixings(self) -> FixingTable:
        return FixingTable(self._assembly, self._fastener)

    def _fastener(self, stack: int, name: str | None) -> SetFastener:
        return fastener_in(self._model, self._assembly.stacks[stack], name)

    def sides(self, stack: int, fastener: str | None) -> tuple[Side, ...]:
        """Table T."""
        return self._access.sides(self._assembly.stacks[stack], self._fastener(stack, fastener))

    def ways(self, part: str) -> tuple[Direction, ...]:
        """Return the candidate ways OUT."""
        return self._ways.ways(part)

    def met_parts(self, part: str, way: int, among: frozenset[str]) -> frozenset[str]:
        """Table W."""
        return self._ways.met(part, way, among)

    def met_fixings(self, part: str, way: int, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Table K, on a way."""
        return self._fixings.in_way(part, self.ways(part)[way], among)

    def heads_under(self, part: str, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Table K, in the final place."""
        return self._fixings.under(part, among)
