"""The way of a part, or of a sub-assembly in one piece, into or out of a work; the same both ways."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from seqviz.sequence.access import by_step, fewest
from seqviz.sequence.replay_types import Cause
from seqviz.sequence.tables import Fixing, Way
from seqviz.sequence.whereabouts import Piece
from seqviz.sequence.work import Work

__all__ = ["Closed", "Obstacles", "free_way", "obstacles", "what_closes"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacles:
    """What is there when a piece comes or goes.

    Attributes
    ----------
    parts
        Those that stay where they are.
    fixings
        Pins and set fasteners in stacks of which nothing that moves is a layer.
    through
        Pins that close every way: they are in the piece's own holes and hold what stays.
    """

    parts: frozenset[str]
    fixings: frozenset[Fixing]
    through: frozenset[Fixing]


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """What closes all ways: the cause, the parts or holes in the way, and the way of which that is told."""

    cause: Cause
    blockers: tuple[str, ...]
    way: Way | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Met:
    """What closes one way."""

    way: Way
    parts: frozenset[str]
    fixings: frozenset[Fixing]
    bench: bool


def obstacles(work: Work, piece: Piece, fixings: frozenset[Fixing]) -> Obstacles:
    """Return what is in this work beside ``piece``; ``fixings``: those that stay."""
    stacks_of = work.shop.assembly.stacks_of_part
    own = frozenset(k for part in piece.parts for k in stacks_of[part])
    mine = frozenset(f for held in work.shop.in_stacks(own) if (f := held.fixing) in fixings)
    return Obstacles(
        parts=frozenset(work.there - work.shop.assembly.muted - set(piece.parts)),
        fixings=fixings - mine if mine else fixings,
        # A fastener in a stack of the piece itself was set too early: that is told at the fastener.
        through=frozenset(fixing for fixing in mine if fixing.kind == "pin"),
    )


def free_way(work: Work, piece: Piece, there: Obstacles) -> Way | None:
    """Return the most natural way that is free, None where none is."""
    if there.through:
        return None
    for way in _by_preference(work, piece):
        if _is_free(work, piece, way, there):
            return way
    # What meets nothing but the bench on a straight way is not helped by a bend.
    for way in work.shop.tables.two_moves(_moving(work, piece), there.parts):
        if _is_free(work, piece, way, there):
            return way
    return None


def what_closes(work: Work, piece: Piece, there: Obstacles) -> Closed:
    """Say what closes all ways: the bench alone on some way, pins alone on some, or else parts."""
    ways = _by_preference(work, piece)
    met = [_met(work, piece, way, there) for way in ways]
    clear = next((one.way for one in met if not one.parts and not one.fixings), None)
    if clear is not None:
        return Closed(cause="bench", blockers=(), way=clear)
    pinned = [one for one in met if not one.parts and all(fixing.kind == "pin" for fixing in one.fixings)]
    if pinned:
        best = min(pinned, key=lambda one: (len(one.fixings), sorted(pin.stack for pin in one.fixings)))
        return Closed(cause="pins", blockers=_hole_names(work, best.fixings), way=best.way)
    return _closed_by_parts(work, met)


def _moving(work: Work, piece: Piece) -> tuple[str, ...]:
    """Return the parts of which a way is asked: of those that a finding spoils nothing is known."""
    return tuple(part for part in piece.parts if part not in work.shop.assembly.muted)


def _by_preference(work: Work, piece: Piece) -> list[Way]:
    """Return the ways: nearest to the side that the first part lies on first, then nearest to up."""
    moving = _moving(work, piece)
    side, up = work.shop.assembly.placed[moving[0]].side, work.lie.up
    ways = dict.fromkeys(way for part in moving for way in work.shop.tables.ways(part))
    # Rounded, so that a motion of the whole structure does not decide between equal ways.
    keys = {way: (round(-float(np.dot(way, side)), 6), round(-float(np.dot(way, up)), 6)) for way in ways}
    return [Way(out) for out in sorted(ways, key=lambda way: keys[way])]


def _is_free(work: Work, piece: Piece, way: Way, there: Obstacles) -> bool:
    tables = work.shop.tables
    return not _bench_closes(work, piece, way) and not any(
        tables.met_parts(part, way, there.parts) or tables.met_fixings(part, way, there.fixings)
        for part in _moving(work, piece)
    )


def _met(work: Work, piece: Piece, way: Way, there: Obstacles) -> _Met:
    tables, moving = work.shop.tables, _moving(work, piece)
    fixings = (tables.met_fixings(part, way, there.fixings) for part in moving)
    return _Met(
        way=way,
        parts=frozenset().union(*(tables.met_parts(part, way, there.parts) for part in moving)),
        fixings=there.through.union(*fixings),
        bench=_bench_closes(work, piece, way),
    )


def _bench_closes(work: Work, piece: Piece, way: Way) -> bool:
    return any(work.lie.closes(direction, frozenset(piece.parts)) for direction in way.directions)


def _closed_by_parts(work: Work, met: list[_Met]) -> Closed:
    """Tell of parts, then holes of set fasteners, on the way that was closed last, by the fewest."""
    placed_at = work.shop.timeline.placed_at
    rivets = {one.way: _rivets_beside(work, one) for one in met}
    ranks = {one.way: _rank(work, one, rivets[one.way]) for one in met}
    best = [one for one in met if ranks[one.way] == min(ranks.values())]
    parts = fewest((one.parts for one in best), placed_at)
    told = next((one.way for one in best if one.parts == parts), None)
    holes = _hole_names(work, rivets[told]) if told else ()
    return Closed(cause="parts", blockers=(*by_step(parts, placed_at), *holes), way=told)


def _rivets_beside(work: Work, met: _Met) -> frozenset[Fixing]:
    """Return the set fasteners on a way, but for those that are in nothing but parts on it."""
    filled = work.shop.filled
    rivets = (fixing for fixing in met.fixings if fixing.kind == "fastener")
    held = {fixing: filled[fixing.stack].parts for fixing in rivets}
    return frozenset(fixing for fixing, parts in held.items() if not parts or parts - met.parts)


def _rank(work: Work, met: _Met, rivets: frozenset[Fixing]) -> tuple[int, int]:
    """Return less for the way that was open longest, then for that which fewer close.

    A way that was closed from the start, such as through the part that it lies on, helps nobody.
    """
    came, filled = work.shop.now.came, work.shop.filled
    held = [filled[fixing.stack] for fixing in rivets]
    since = [max((one.step, *(came.get(part, 0) for part in one.parts))) for one in held]
    first = min((*(came.get(part, 0) for part in met.parts), *since))
    return -first, len(met.parts) + len(rivets)


def _hole_names(work: Work, fixings: Iterable[Fixing]) -> tuple[str, ...]:
    stacks = work.shop.assembly.stacks
    return tuple(stacks[k].holes[0] for k in sorted(fixing.stack for fixing in fixings))
