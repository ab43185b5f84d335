"""``place``: parts in the order written, the way in of each, and the pins that follow."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from seqviz.findings import At
from seqviz.geometry.pose import Array, frozen
from seqviz.records.steps import Place, Step
from seqviz.sequence.access import by_step, fewest
from seqviz.sequence.bench import closed_by_bench, side_vector
from seqviz.sequence.open_holes import close_windows
from seqviz.sequence.pin_steps import put_pins
from seqviz.sequence.replay_types import HeadUnder, NoWay
from seqviz.sequence.tables import Fixing
from seqviz.sequence.work import Done, Work, place_of

__all__ = ["place"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Obstacles:
    """What is there when a part comes: parts, fixings elsewhere, and pins through the part's own holes."""

    parts: frozenset[str]
    fixings: frozenset[Fixing]
    through: frozenset[Fixing]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Closed:
    """What closes one way."""

    parts: frozenset[str]
    fixings: frozenset[Fixing]
    bench: bool


def place(work: Work, step: Step, action: Place) -> Done:
    """Place parts one after the other; a part that is there already is left where it is."""
    placed: dict[str, Array | None] = {}
    fixings = _fixings(work)
    for name in action.names:
        at = place_of(step, name, len(action.names))
        for part in work.chooser.parts_named(name.text):
            if part not in work.assembly.placed or work.timeline.placed_at[part] != step.number:
                continue
            if part not in work.there:
                placed[part] = (
                    None if part in work.assembly.muted else _way_in(work, (step.number, at), part, fixings)
                )
                work.there.add(part)
    close_windows(work, step.number)
    up = work.timeline.ups[step.number]
    side = side_vector(work.assembly, action.pins_from) if action.pins_from else up
    pinned = put_pins(work, tuple(placed), action.pins, side)
    return Done(placed=tuple(placed), ways=placed, pinned=pinned)


def _way_in(work: Work, when: tuple[int, At], part: str, fixings: frozenset[Fixing]) -> Array | None:
    """Return the most natural free way OUT of ``part``; None, and a trouble noted, where there is none."""
    step, at = when
    there = _obstacles(work, part, fixings)
    under = work.tables.heads_under(part, there.fixings)
    if under:
        stacks = tuple(sorted(fixing.stack for fixing in under))
        work.troubles.head_under.append(HeadUnder(step=step, at=at, part=part, stacks=stacks))
    if under:
        there = _Obstacles(parts=there.parts, fixings=there.fixings - under, through=there.through)
    ways = _by_preference(work, step, part)
    for way in ways:
        if not there.through and _is_free(work, step, part, (way, there)):
            return frozen(work.tables.ways(part)[way])
    if not under:
        work.troubles.no_way.append(_no_way(work, step, at, (part, there)))
    return None


def _obstacles(work: Work, part: str, fixings: frozenset[Fixing]) -> _Obstacles:
    own = frozenset(work.assembly.stacks_of_part[part])
    mine = frozenset(_in_stacks(work, own)) & fixings
    return _Obstacles(
        parts=frozenset(work.there - work.assembly.muted - {part}),
        fixings=fixings - mine if mine else fixings,
        # A fastener in a stack of the part itself was set too early: that is told at the fastener.
        through=frozenset(fixing for fixing in mine if fixing.kind == "pin"),
    )


def _fixings(work: Work) -> frozenset[Fixing]:
    """Return the pins and fasteners that are there now, where no layer is muted."""
    stacks = work.assembly.stacks
    there = _in_stacks(work, (*work.pins, *work.set))
    return frozenset(fixing for fixing in there if not work.is_muted(stacks[fixing.stack]))


def _in_stacks(work: Work, stacks: Iterable[int]) -> Iterator[Fixing]:
    """Yield the pins and fasteners that are in ``stacks`` now."""
    for index in stacks:
        if index in work.pins:
            yield Fixing(stack=index, kind="pin", end=work.pins[index])
        if index in work.set:
            yield work.set[index]


def _by_preference(work: Work, step: int, part: str) -> list[int]:
    """Return the numbers of the ways: nearest to the side that the part lies on first, then nearest to up."""
    side, up = work.assembly.placed[part].side, work.timeline.ups[step]
    ways = work.tables.ways(part)
    # Rounded, so that a motion of the whole structure does not decide between equal ways.
    keys = [(round(-float(np.dot(way, side)), 6), round(-float(np.dot(way, up)), 6)) for way in ways]
    return sorted(range(len(ways)), key=lambda k: keys[k])


def _is_free(work: Work, step: int, part: str, asked: tuple[int, _Obstacles]) -> bool:
    way, there = asked
    return (
        not _bench_closes(work, step, part, way)
        and not work.tables.met_parts(part, way, there.parts)
        and not work.tables.met_fixings(part, way, there.fixings)
    )


def _bench_closes(work: Work, step: int, part: str, way: int) -> bool:
    return work.timeline.flat_bench and closed_by_bench(work.tables.ways(part)[way], work.timeline.ups[step])


def _no_way(work: Work, step: int, at: At, what: tuple[str, _Obstacles]) -> NoWay:
    """Say what closes all ways: the bench alone on some way, pins alone on some, or else parts."""
    part, there = what
    closed = [_closed(work, step, part, (way, there)) for way in range(len(work.tables.ways(part)))]
    if any(not way.parts and not way.fixings for way in closed):
        return NoWay(step=step, at=at, part=part, cause="bench", blockers=())
    pinned = [w.fixings for w in closed if not w.parts and all(fixing.kind == "pin" for fixing in w.fixings)]
    if pinned:
        pins = min(pinned, key=lambda pins: (len(pins), sorted(pin.stack for pin in pins)))
        return NoWay(step=step, at=at, part=part, cause="pins", blockers=_hole_names(work, pins))
    return NoWay(step=step, at=at, part=part, cause="parts", blockers=_best_blockers(work, closed))


def _closed(work: Work, step: int, part: str, asked: tuple[int, _Obstacles]) -> _Closed:
    way, there = asked
    return _Closed(
        parts=work.tables.met_parts(part, way, there.parts),
        fixings=work.tables.met_fixings(part, way, there.fixings) | there.through,
        bench=_bench_closes(work, step, part, way),
    )


def _best_blockers(work: Work, closed: list[_Closed]) -> tuple[str, ...]:
    """Return parts, then holes of set fasteners, on the way that is closed by the fewest."""
    rivets = [frozenset(f for f in way.fixings if f.kind == "fastener") for way in closed]
    least = min((len(way.parts) + len(set_) for way, set_ in zip(closed, rivets, strict=True)), default=0)
    best = [
        (way.parts, set_)
        for way, set_ in zip(closed, rivets, strict=True)
        if len(way.parts) + len(set_) == least
    ]
    parts = fewest((parts for parts, _ in best), work.timeline)
    holes = [set_ for those, set_ in best if those == parts]
    return (*by_step(parts, work.timeline), *(_hole_names(work, holes[0]) if holes else ()))


def _hole_names(work: Work, fixings: frozenset[Fixing]) -> tuple[str, ...]:
    return tuple(work.assembly.stacks[k].holes[0] for k in sorted(fixing.stack for fixing in fixings))
