"""The four tables as the replay asks them; tests answer with plain dictionaries instead of geometry."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, Protocol

from seqviz.sequence.access import Side
from seqviz.sequence.bench import Direction

__all__ = ["Fixing", "Tables"]


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
        """Return the candidate ways OUT of a part, unit vectors, base frame."""

    def met_parts(self, part: str, way: int, among: frozenset[str]) -> frozenset[str]:
        """Table W: the parts ``among`` that ``part`` meets on its way of that number."""

    def met_fixings(self, part: str, way: int, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Table K: the fixings ``among`` that ``part`` meets in its place or on its way of that number."""

    def heads_under(self, part: str, among: frozenset[Fixing]) -> frozenset[Fixing]:
        """Table K: the set fasteners ``among`` that stand where ``part`` lies and has no hole for them."""
