"""The four tables as the replay asks them; tests answer with plain dictionaries instead of geometry."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, Protocol

from seqviz.sequence.access import Side
from seqviz.sequence.bench import Direction
from seqviz.sequence.way import Way

__all__ = ["Fixing", "Tables", "Way"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """A pin or a set fastener in a stack.

    Attributes
    ----------
    stack
        Index of the stack.
    kind
        ``pin`` or ``fastener``.
    end
        +1 where the pin's body or the manufactured head stands on layer 1's side, else -1.
    fastener
        Its name, None for a pin or where nobody said.
    """

    stack: int
    kind: Literal["pin", "fastener"]
    end: int
    fastener: str | None = None


class Tables(Protocol):
    """Tables W, T and K. Nothing in them depends on the order of the steps."""

    def sides(self, stack: int, fastener: str | None) -> tuple[Side, ...]:
        """Table T: head sides of a fastener with their alternatives; empty where access is not checked."""

    def ways(self, part: str) -> tuple[Direction, ...]:
        """Return the candidate ways OUT of a part in one move, unit vectors, base frame."""

    def two_moves(self, parts: tuple[str, ...], among: frozenset[str]) -> Iterable[Way]:
        """Return candidate ways OUT of parts that move as one, in two moves past the parts ``among``."""

    def met_parts(self, part: str, way: Way, among: frozenset[str]) -> frozenset[str]:
        """Table W: the parts ``among`` that ``part`` meets on its way."""

    def met_fixings(self, part: str, way: Way, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Table K: the fixings ``among`` that ``part`` meets in its place or on its way."""

    def heads_under(self, part: str, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Table K: the set fasteners ``among`` that stand where ``part`` lies and has no hole for them."""

    def behind(self, stack: int, end: int, level: float, among: frozenset[str]) -> Mapping[str, float]:
        """Return the parts ``among`` close behind a drill, with their distance in mm.

        It comes out at the ``end`` of the stack, ``level`` mm along its axis.
        """

    def pins_meet(self, pins: Sequence[Fixing], among: frozenset[str]) -> Sequence[frozenset[str]]:
        """Return for each pin the parts ``among`` that stand where its body must be."""
