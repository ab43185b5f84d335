"""The question of tool access on bit sets: given what each alternative meets, when can a fastener be set?

An access is an OR over head sides of an AND over the ends of the stack of an OR over alternatives.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from seqviz.geometry.prism import Piece
from seqviz.sequence.bench import Direction
from seqviz.sequence.replay_types import Cause
from seqviz.sequence.timeline import View, highest_bit

__all__ = [
    "Alternative",
    "Batch",
    "End",
    "Reached",
    "Side",
    "Stopped",
    "by_step",
    "fewest",
    "free_bits",
    "reaching_side",
    "stopped",
    "undominated",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternative:
    """One way to bring a tool to one end of a stack.

    Attributes
    ----------
    blockers
        Placed parts that tool, hand or arm meet.
    directions
        Where the tool's and the arm's ends point, out of the work; the bench closes those below level.
    tool
        The tool's name; None where it is room that must be free.
    """

    blockers: frozenset[str]
    directions: tuple[Direction, ...] = ()
    tool: str | None = None


@dataclass(slots=True, kw_only=True, eq=False)
class Batch:
    """Alternatives that are computed together, once somebody asks what one of them meets.

    Attributes
    ----------
    directions
        For each alternative where its ends point; known beforehand.
    ask
        Computes what each alternative meets.
    ask_common
        Computes what all of them meet, whatever else each meets: quick, and often enough to know.
    tools
        The tool of each, where they are tools.
    solid
        Makes the solids of one of them, by its number; base frame.
    known
        The alternatives, once they were asked for.
    """

    directions: Sequence[tuple[Direction, ...]]
    ask: Callable[[], Sequence[frozenset[str]]]
    ask_common: Callable[[], frozenset[str]] = frozenset
    tools: Sequence[str | None] = ()
    solid: Callable[[int], tuple[Piece, ...]] | None = None
    known: tuple[Alternative, ...] = ()
    _common: frozenset[str] | None = None

    def alternatives(self) -> tuple[Alternative, ...]:
        """Return the alternatives, in the order in which they are tried."""
        if not self.known and self.directions:
            tools = self.tools or (None,) * len(self.directions)
            told = zip(self.ask(), self.directions, tools, strict=True)
            self.known = tuple(Alternative(blockers=b, directions=outs, tool=tool) for b, outs, tool in told)
        return self.known

    def open_bits(self, view: View) -> int:
        """Return the steps after which one of them may be free: never fewer than those after which one is."""
        bits = 0
        for outs in set(self.directions):
            bits |= view.always & ~view.closed(outs)
        return bits & ~view.any_there(self.common()) if bits else bits

    def common(self) -> frozenset[str]:
        """Return parts that all of them meet; not all such parts need be among them."""
        if self._common is None:
            self._common = self.ask_common()
        return self._common


class End:
    """The alternatives at one end of a stack, in batches; a batch is computed only when it can matter."""

    def __init__(self, batches: Sequence[Batch]) -> None:
        self._batches = batches

    @staticmethod
    def of(alternatives: Iterable[Alternative]) -> End:
        """Return the end with alternatives that are known already."""
        known = tuple(alternatives)
        return End([Batch(directions=[a.directions for a in known], ask=tuple, known=known)])

    def __iter__(self) -> Iterator[Alternative]:
        for batch in self._batches:
            yield from batch.alternatives()

    def pieces(self, alternative: Alternative) -> tuple[Piece, ...]:
        """Return the solids of one of them, base frame, mm; nothing where they are not known."""
        for batch in self._batches:
            for number, one in enumerate(batch.alternatives()):
                if one is alternative:
                    return batch.solid(number) if batch.solid else ()
        return ()

    def is_free(self, view: View, step: int) -> bool:
        """Say whether one of them is free at ``step``."""
        return self.free_at(view, step) is not None

    def free_at(self, view: View, step: int) -> Alternative | None:
        """Return the first one that is free at ``step``."""
        for batch in self._batches:
            if batch.open_bits(view) >> step & 1:
                for alternative in batch.alternatives():
                    if free_bits(alternative, view) >> step & 1:
                        return alternative
        return None

    def free_bits(self, view: View) -> int:
        """Return the steps after which one of them is free."""
        bits = 0
        for batch in self._batches:
            if batch.open_bits(view) & ~bits:
                for alternative in batch.alternatives():
                    bits |= free_bits(alternative, view)
        return bits


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Side:
    """The manufactured head on one side: +1 on layer 1's, -1 on the other. All ``ends`` must be free.

    ``by_hand``: those among them that it takes to put a bolt in and to run its nut on; once it is in, these
    do not matter any more.
    """

    head: int
    ends: tuple[End, ...]
    by_hand: tuple[End, ...] = ()

    def put_in(self) -> Side:
        """Return what it takes to put it in, without a tool."""
        return Side(head=self.head, ends=self.by_hand)

    def tightened(self) -> Side:
        """Return what it takes to tighten it once it is in."""
        return Side(head=self.head, ends=tuple(end for end in self.ends if end not in self.by_hand))


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """How a fastener is set: the side of its head, and the tools that reach it, the head's one first."""

    head: int
    tools: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stopped:
    """No alternative is free: why, what is in the way of the best one, and the last step at which one was.

    ``above``, where the bench is the cause: what is in the way of the best one that the bench leaves open.
    """

    cause: Cause
    blockers: tuple[str, ...]
    last: int | None
    above: tuple[str, ...] = ()


def undominated(alternatives: Iterable[Alternative]) -> tuple[Alternative, ...]:
    """Drop what can never be free without another one being free too: equal ones and supersets."""
    kept: list[Alternative] = []
    for one in sorted(set(alternatives), key=lambda a: (len(a.blockers), len(a.directions), a.directions)):
        if not any(k.blockers <= one.blockers and set(k.directions) <= set(one.directions) for k in kept):
            kept.append(one)
    return tuple(kept)


def free_bits(alternative: Alternative, view: View) -> int:
    """Return the steps after which ``alternative`` meets nothing and the bench does not close it."""
    taken = view.any_there(alternative.blockers) | view.closed(alternative.directions)
    return view.always & ~taken


def reaching_side(sides: Iterable[Side], view: View, step: int) -> Reached | None:
    """Return the first side from which the fastener can be set at ``step``, None where there is none."""
    for side in sides:
        tools = []
        for end in side.ends:
            free = end.free_at(view, step)
            if free is None:
                break
            if free.tool is not None:
                tools.append(free.tool)
        else:
            return Reached(head=side.head, tools=tuple(tools))
    return None


def stopped(sides: tuple[Side, ...], view: View, step: int, layers: int) -> Stopped:
    """Say what stops a fastener that cannot be set at ``step``; ``layers``: when all its layers are there."""
    there = view.there(step)
    cause: Cause = "parts"
    blockers, above = frozenset[str](), frozenset[str]()
    if any(all(_clear(end, there) for end in side.ends) for side in sides):
        cause = "bench"
        above = fewest(
            (u for side in sides for u in _unions(_open_side(side, view, step), there)), view.placed_at
        )
    else:
        blockers = fewest((union for side in sides for union in _unions(side, there)), view.placed_at)
    reachable = 0
    for side in sides:
        bits = layers
        for end in side.ends:
            bits &= end.free_bits(view)
        reachable |= bits
    earlier = reachable & ((1 << step) - 1)
    return Stopped(
        cause=cause,
        blockers=by_step(blockers, view.placed_at),
        last=highest_bit(earlier),
        above=by_step(above, view.placed_at),
    )


def fewest(choices: Iterable[frozenset[str]], placed_at: Mapping[str, int]) -> frozenset[str]:
    """Return the smallest set; of equally small ones the one with the part that was placed last."""

    def rank(parts: frozenset[str]) -> tuple[int, list[int], list[str]]:
        return len(parts), sorted(-placed_at.get(part, 0) for part in parts), sorted(parts)

    return min(choices, key=rank, default=frozenset())


def by_step(parts: Iterable[str], placed_at: Mapping[str, int]) -> tuple[str, ...]:
    """Return ``parts`` in the order in which they were placed."""
    return tuple(sorted(parts, key=lambda part: (placed_at.get(part, 0), part)))


def _clear(end: End, there: set[str]) -> bool:
    """Say whether an alternative meets nothing that is there, whatever the bench closes."""
    return any(there.isdisjoint(alternative.blockers) for alternative in end)


def _open_side(side: Side, view: View, step: int) -> Side:
    """Return the side with the alternatives that the bench leaves open at ``step``."""
    ends = tuple(End.of(a for a in end if not view.closed(a.directions) >> step & 1) for end in side.ends)
    return Side(head=side.head, ends=ends)


def _unions(side: Side, there: set[str]) -> frozenset[frozenset[str]]:
    """Return what is met that is there, for each choice of one alternative at each end."""
    unions = frozenset({frozenset[str]()})
    for end in side.ends:
        met = {alternative.blockers & there for alternative in undominated(end)}
        unions = frozenset(a | b for a in unions for b in met)
    return unions
