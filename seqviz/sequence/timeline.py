"""What is there when, and which side is up, as bit sets over the steps; known before any hole is looked at.

Bit ``k`` tells the state after step ``k``; bit 0 the state before the first step.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from seqviz.assembly.structure import Assembly
from seqviz.geometry.pose import Array, frozen
from seqviz.records.steps import Place, Sequence, TurnOver
from seqviz.sequence.bench import Direction, closed_by_bench, side_vector, turned
from seqviz.sequence.choose import Chooser

__all__ = ["Timeline", "highest_bit", "timeline_of"]


def highest_bit(bits: int) -> int | None:
    """Return the number of the highest bit that is set, None where none is."""
    return bits.bit_length() - 1 if bits else None


@dataclass(frozen=True, kw_only=True, eq=False)
class Timeline:
    """Presence and sides up over a sequence of ``steps`` steps.

    Attributes
    ----------
    presence
        Placed part -> bit set.
    placed_at
        Placed part -> the step that places it first; 0 for a base that no step places.
    ups
        ``steps + 1`` unit vectors, base frame: what faces up after each step.
    flat_bench
        False on trestles: nothing is closed then.
    """

    steps: int
    presence: Mapping[str, int]
    placed_at: Mapping[str, int]
    ups: tuple[Array, ...]
    flat_bench: bool
    _closed: dict[Direction, int] = field(default_factory=dict)

    @property
    def always(self) -> int:
        """The bit set of all steps."""
        return (1 << (self.steps + 1)) - 1

    def any_there(self, parts: Iterable[str]) -> int:
        """Return when at least one of ``parts`` is there."""
        bits = 0
        for part in parts:
            bits |= self.presence.get(part, 0)
        return bits

    def all_there(self, parts: Iterable[str]) -> int:
        """Return when all of ``parts`` are there."""
        bits = self.always
        for part in parts:
            bits &= self.presence.get(part, 0)
        return bits

    def closed(self, directions: Iterable[Direction]) -> int:
        """Return when the bench closes at least one of ``directions``."""
        bits = 0
        for direction in directions:
            if direction not in self._closed:
                self._closed[direction] = self._closed_bits(direction)
            bits |= self._closed[direction]
        return bits

    def _closed_bits(self, direction: Direction) -> int:
        if not self.flat_bench:
            return 0
        return sum(1 << k for k, up in enumerate(self.ups) if closed_by_bench(direction, up))


def timeline_of(assembly: Assembly, sequence: Sequence, chooser: Chooser) -> Timeline:
    """Go through the steps once for what they place and how they turn the work.

    Steps that could not be read are not there, their numbers are: nothing changes with them.
    """
    placed_at: dict[str, int] = {}
    ups = [side_vector(assembly, sequence.up)]
    for step in sequence.steps:
        ups.extend(ups[-1:] * (step.number - len(ups) + 1))
        if isinstance(step.action, Place):
            for name in step.action.names:
                # A part that could not be read has no entry; holes may wait for it all the same.
                for part in chooser.parts_named(name.text) or (name.text,):
                    placed_at.setdefault(part, step.number)
        elif isinstance(step.action, TurnOver):
            ups[-1] = turned(assembly, ups[-1], step.action)
    placed_at.setdefault(assembly.base, 0)
    always = (1 << len(ups)) - 1
    presence = {
        part: always >> placed_at[part] << placed_at[part] if part in placed_at else 0
        for part in assembly.placed
    }
    return Timeline(
        steps=len(ups) - 1,
        presence=presence,
        placed_at=placed_at,
        ups=tuple(frozen(up) for up in ups),
        flat_bench=sequence.bench != "trestles",
    )
