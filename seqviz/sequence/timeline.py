"""Where each part is when, and how each work lies, as bit sets over the steps.

Bit ``k`` tells the state after step ``k``; bit 0 the state before the first step. All of it is known before
any hole is looked at.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from seqviz.geometry.pose import Array
from seqviz.sequence.bench import Direction, closed_by_bench
from seqviz.sequence.whereabouts import WorkName, span

__all__ = ["Lie", "Timeline", "View", "highest_bit", "lowest_bit"]


def highest_bit(bits: int) -> int | None:
    """Return the number of the highest bit that is set, None where none is."""
    return bits.bit_length() - 1 if bits else None


def lowest_bit(bits: int) -> int | None:
    """Return the number of the lowest bit that is set, None where none is."""
    return (bits & -bits).bit_length() - 1 if bits else None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lie:
    """How a work lies on its bench from the step ``first`` to the step ``last``.

    Attributes
    ----------
    up
        ``(3,)`` base frame: what faces up.
    bench
        ``flat``, ``trestles`` or ``blocks``.
    over_the_edge
        Placed parts that stand out over the bench's edge.
    """

    first: int
    last: int
    up: Array
    bench: str
    over_the_edge: frozenset[str] = frozenset()

    def closes(self, direction: Direction, parts: frozenset[str] = frozenset()) -> bool:
        """Say whether the bench closes ``direction``, out of the work, at a place where ``parts`` are."""
        return (
            self.bench == "flat"
            and closed_by_bench(direction, self.up)
            and self.over_the_edge.isdisjoint(parts)
        )


@dataclass(frozen=True, kw_only=True, eq=False)
class View:
    """The steps as they are seen from where some parts are: what is there is what is in the same work.

    Attributes
    ----------
    together
        Work -> bit set of the steps after which the parts are in it, all of them.
    parts
        Those among the parts that stand out over the bench's edge at some step.
    bench
        False where no bench closes anything.
    """

    timeline: Timeline
    together: Mapping[WorkName, int]
    parts: frozenset[str] = frozenset()
    bench: bool = True
    _presence: dict[str, int] = field(default_factory=dict)
    _closed: dict[Direction, int] = field(default_factory=dict)
    _bare: list[View] = field(default_factory=list)

    def without_bench(self) -> View:
        """Return the same view of works that no bench closes."""
        if not self._bare:
            bare = View(
                timeline=self.timeline,
                together=self.together,
                parts=self.parts,
                bench=False,
                _presence=self._presence,
            )
            self._bare.append(bare)
        return self._bare[0]

    @property
    def always(self) -> int:
        """The bit set of all steps."""
        return self.timeline.always

    @property
    def placed_at(self) -> Mapping[str, int]:
        """Placed part -> the step that places it first."""
        return self.timeline.placed_at

    def presence(self, part: str) -> int:
        """Return when ``part`` is there."""
        if part not in self._presence:
            where = self.timeline.where.get(part, {})
            bits = 0
            for work, together in self.together.items():
                bits |= together & where.get(work, 0)
            self._presence[part] = bits
        return self._presence[part]

    def there(self, step: int) -> set[str]:
        """Return the parts that are there after ``step``."""
        return {part for part in self.timeline.where if self.presence(part) >> step & 1}

    def any_there(self, parts: Iterable[str]) -> int:
        """Return when at least one of ``parts`` is there."""
        bits = 0
        for part in parts:
            bits |= self.presence(part)
        return bits

    def all_there(self, parts: Iterable[str]) -> int:
        """Return when all of ``parts`` are there."""
        bits = self.always
        for part in parts:
            bits &= self.presence(part)
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
        bits = 0
        for work, together in self.together.items() if self.bench else ():
            for lie in self.timeline.lies.get(work, ()):
                if lie.closes(direction, self.parts):
                    bits |= together & span(lie.first, lie.last)
        return bits


@dataclass(frozen=True, kw_only=True, eq=False)
class Timeline:
    """A sequence of ``steps`` steps.

    Attributes
    ----------
    where
        Placed part -> work -> bit set of the steps after which it is there.
    placed_at
        Placed part, or sub-assembly -> the step that places it first; 0 for a base that no step places.
    comes
        Placed part, sub-assembly, or a name that could not be read -> work -> the step that first brings it
        into that work.
    lies
        Work -> how it lies, from step 0 on without gaps.
    inside
        Sub-assembly -> the work within which it is joined.
    """

    steps: int
    where: Mapping[str, Mapping[WorkName, int]]
    placed_at: Mapping[str, int]
    comes: Mapping[str, Mapping[WorkName, int]]
    lies: Mapping[WorkName, tuple[Lie, ...]]
    inside: Mapping[str, WorkName] = field(default_factory=dict)
    _views: dict[object, View] = field(default_factory=dict)

    @property
    def always(self) -> int:
        """The bit set of all steps."""
        return (1 << (self.steps + 1)) - 1

    def view(self, parts: Iterable[str]) -> View:
        """Return the steps as seen from where ``parts`` are together."""
        names = frozenset(parts)
        if names not in self._views:
            together = self._together(names)
            out = names & self._over_the_edge()
            key = (frozenset(together.items()), out)
            # Most stacks see the same: one view serves them all.
            view = self._views.get(key) or View(timeline=self, together=together, parts=out)
            self._views[key] = self._views[names] = view
        return self._views[names]

    def lie(self, work: WorkName, step: int) -> Lie:
        """Return how ``work`` lies after ``step``."""
        return next(lie for lie in reversed(self.lies[work]) if lie.first <= step)

    def around(self, work: WorkName) -> tuple[WorkName, ...]:
        """Return ``work`` and the works that it becomes part of, the main work last."""
        chain = [work]
        while chain[-1] is not None and chain[-1] in self.inside and len(chain) <= len(self.inside):
            chain.append(self.inside[chain[-1]])
        return tuple(chain)

    def is_in(self, part: str, work: WorkName, step: int) -> bool:
        """Say whether ``part`` is in ``work`` after ``step``."""
        return bool(self.where.get(part, {}).get(work, 0) >> step & 1)

    def first_there(self, name: str, work: WorkName) -> int | None:
        """Return the step that first brings ``name`` into ``work``, or into one that it becomes part of."""
        comes = self.comes.get(name, {})
        return min((comes[one] for one in self.around(work) if one in comes), default=None)

    def next_there(self, part: str, work: WorkName, step: int) -> int | None:
        """Return the first step after ``step`` with ``part`` in ``work``, or in what that becomes part of."""
        bits = 0
        for one in self.around(work):
            bits |= self.where.get(part, {}).get(one, 0)
        return lowest_bit(bits >> (step + 1) << (step + 1))

    def _together(self, parts: frozenset[str]) -> dict[WorkName, int]:
        if len(self.lies) == 1:
            # One work: what is there is what is in it, wherever the parts themselves are.
            return dict.fromkeys(self.lies, self.always)
        found = {}
        for work in self.lies:
            bits = self.always
            for part in parts:
                bits &= self.where.get(part, {}).get(work, 0)
            if bits:
                found[work] = bits
        return found

    def _over_the_edge(self) -> frozenset[str]:
        return frozenset().union(*(lie.over_the_edge for lies in self.lies.values() for lie in lies))
