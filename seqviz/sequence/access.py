"""The question of tool access on bit sets: given what each alternative meets, when can a fastener be set?

An access is an OR over head sides of an AND over the ends of the stack of an OR over alternatives.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from seqviz.sequence.bench import Direction
from seqviz.sequence.replay_types import Cause
from seqviz.sequence.timeline import Timeline, highest_bit

__all__ = [
    "Alternative",
    "End",
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
    """

    blockers: frozenset[str]
    directions: tuple[Direction, ...] = ()


class End:
    """The alternatives at one end of a stack, computed one after the other as somebody asks, and kept."""

    def __init__(self, source: Iterable[Alternative]) -> None:
        self._known: list[Alternative] = []
        self._source = iter(source)

    def __iter__(self) -> Iterator[Alternative]:
        place = 0
        while True:
            if place == len(self._known):
                following = next(self._source, None)
                if following is None:
                    return
                self._known.append(following)
            yield self._known[place]
            place += 1


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Side:
    """The manufactured head on one side: +1 on layer 1's, -1 on the other. All ``ends`` must be free."""

    head: int
    ends: tuple[End, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stopped:
    """No alternative is free: why, what is in the way of the best one, and the last step at which one was."""

    cause: Cause
    blockers: tuple[str, ...]
    last: int | None


def undominated(alternatives: Iterable[Alternative]) -> tuple[Alternative, ...]:
    """Drop what can never be free without another one being free too: equal ones and supersets."""
    kept: list[Alternative] = []
    for one in sorted(set(alternatives), key=lambda a: (len(a.blockers), len(a.directions), a.directions)):
        if not any(k.blockers <= one.blockers and set(k.directions) <= set(one.directions) for k in kept):
            kept.append(one)
    return tuple(kept)


def free_bits(alternative: Alternative, timeline: Timeline) -> int:
    """Return the steps after which ``alternative`` meets nothing and the bench does not close it."""
    taken = timeline.any_there(alternative.blockers) | timeline.closed(alternative.directions)
    return timeline.always & ~taken


def reaching_side(sides: Iterable[Side], timeline: Timeline, step: int) -> Side | None:
    """Return the first side from which the fastener can be set at ``step``, None where there is none."""
    for side in sides:
        if all(any(free_bits(a, timeline) >> step & 1 for a in end) for end in side.ends):
            return side
    return None


def stopped(sides: tuple[Side, ...], timeline: Timeline, step: int, layers: int) -> Stopped:
    """Say what stops a fastener that cannot be set at ``step``; ``layers``: when all its layers are there."""
    there = {part for part, bits in timeline.presence.items() if bits >> step & 1}
    met = [[frozenset(_met_at(end, there)) for end in side.ends] for side in sides]
    if any(all(frozenset() in end for end in ends) for ends in met):
        cause: Cause = "bench"
        blockers: frozenset[str] = frozenset()
    else:
        cause = "parts"
        blockers = fewest([union for ends in met for union in _unions(ends)], timeline)
    reachable = 0
    for side in sides:
        bits = layers
        for end in side.ends:
            bits &= _end_bits(end, timeline)
        reachable |= bits
    earlier = reachable & ((1 << step) - 1)
    return Stopped(cause=cause, blockers=by_step(blockers, timeline), last=highest_bit(earlier))


def fewest(choices: Iterable[frozenset[str]], timeline: Timeline) -> frozenset[str]:
    """Return the smallest set; of equally small ones the one with the part that was placed last."""

    def rank(parts: frozenset[str]) -> tuple[int, list[int], list[str]]:
        return len(parts), sorted(-timeline.placed_at.get(part, 0) for part in parts), sorted(parts)

    return min(choices, key=rank, default=frozenset())


def by_step(parts: Iterable[str], timeline: Timeline) -> tuple[str, ...]:
    """Return ``parts`` in the order in which they were placed."""
    return tuple(sorted(parts, key=lambda part: (timeline.placed_at.get(part, 0), part)))


def _met_at(end: End, there: set[str]) -> Iterator[frozenset[str]]:
    for alternative in undominated(end):
        yield alternative.blockers & there


def _unions(ends: list[frozenset[frozenset[str]]]) -> frozenset[frozenset[str]]:
    unions = frozenset({frozenset[str]()})
    for end in ends:
        unions = frozenset(a | b for a in unions for b in end)
    return unions


def _end_bits(end: End, timeline: Timeline) -> int:
    bits = 0
    for alternative in end:
        bits |= free_bits(alternative, timeline)
        if bits == timeline.always:
            break
    return bits
