"""Pins and set fasteners that are in holes now, found by what they hold."""

from __future__ import annotations

from collections.abc import Set
from dataclasses import dataclass

from seqviz.sequence.tables import Fixing
from seqviz.sequence.whereabouts import WorkName

__all__ = ["Held", "HeldIn"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A pin or a set fastener, the parts that it holds, and the work in which it was put in."""

    fixing: Fixing
    parts: frozenset[str]
    work: WorkName
    step: int


class HeldIn(dict[int, Held]):
    """Stack -> what is in it; changed by `put` and `take` alone, which keep the lots right.

    A lot is what holds the same parts: whether it is in a work is asked once for all of it.
    """

    def __init__(self) -> None:
        super().__init__()
        self._lots: dict[tuple[frozenset[str], WorkName], set[Fixing]] = {}

    def put(self, held: Held) -> None:
        """Let ``held`` be in its stack, instead of what was in it."""
        self.take(held.fixing.stack)
        self[held.fixing.stack] = held
        self._lots.setdefault((held.parts, held.work), set()).add(held.fixing)

    def take(self, stack: int) -> Held | None:
        """Take out what is in ``stack`` and return it; None where nothing is."""
        held = self.pop(stack, None)
        if held is not None:
            self._lots[held.parts, held.work].remove(held.fixing)
        return held

    def in_work(self, work: WorkName, there: Set[str]) -> frozenset[Fixing]:
        """Return what is in ``work``, in which the parts ``there`` are.

        It is where what it holds is; what holds nothing is where it was put in.
        """
        lots = (
            lot
            for (parts, put_in), lot in self._lots.items()
            if (not parts.isdisjoint(there) if parts else put_in == work)
        )
        return frozenset().union(*lots)
