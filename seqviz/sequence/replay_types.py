"""What the replay of a sequence tells: what every step did, what is there when, and every trouble met."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from seqviz.findings import At
from seqviz.geometry.pose import Array
from seqviz.records.steps import Step

__all__ = [
    "Cause",
    "ClosingUnchecked",
    "DrillHits",
    "FilledOpen",
    "HeadUnder",
    "LastChance",
    "LooseAtTurn",
    "NoWay",
    "NoWayOut",
    "NotDrilled",
    "OffWhenSet",
    "OpenSince",
    "PinOutOfReach",
    "PinsFarApart",
    "PlacedTwice",
    "Replay",
    "SetTwice",
    "StandsOnWeak",
    "StepState",
    "StillFingerTight",
    "TooEarly",
    "ToolStopped",
    "UnderSet",
]

Cause = Literal["parts", "pins", "bench"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StepState:
    """What one step did.

    Attributes
    ----------
    placed
        Parts placed by it, in order; of a sub-assembly all its members.
    ways
        For each part placed or taken off the unit vector of a free way OUT (it comes in along the opposite),
        or None. Of two moves the last way out, from outside.
    pinned, unpinned, filled, left_open
        Indices of stacks: pins put in, pins taken out, fasteners set, holes left open by it.
    up
        ``(3,)`` base frame: what faces up after it.
    head_sides
        For each stack filled: +1 where the manufactured head is on layer 1's side, else -1.
    work
        The sub-assembly on which it is done, None: the main work.
    taken_off
        Parts taken off by it, in order; of a sub-assembly all its members.
    drilled
        Indices of stacks that it drills.
    emptied
        Indices of stacks whose set fastener it drills out.
    finger_tight
        Those among ``filled`` whose nut is only run on.
    tightened
        Indices of stacks whose nut, run on before, it tightens.
    prepared
        Placed parts that it deburrs, primes or seals, whole or at some holes.
    hold
        Whether work stops until something is checked.
    tools
        For each stack filled the name of the builder's tool that reaches it, where one was asked.
    first_moves
        Placed part -> ``(3,)`` the first, short move out in mm, where it comes in by two.
    """

    step: Step
    placed: tuple[str, ...]
    ways: dict[str, Array | None]
    pinned: tuple[int, ...]
    unpinned: tuple[int, ...]
    filled: tuple[int, ...]
    left_open: tuple[int, ...]
    up: Array
    head_sides: dict[int, int]
    work: str | None = None
    taken_off: tuple[str, ...] = ()
    drilled: tuple[int, ...] = ()
    emptied: tuple[int, ...] = ()
    finger_tight: tuple[int, ...] = ()
    tightened: tuple[int, ...] = ()
    prepared: tuple[str, ...] = ()
    hold: bool = False
    tools: dict[int, str] = field(default_factory=dict)
    first_moves: dict[str, Array] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class TooEarly:
    """A fastener set before the layers ``missing`` are there; they come at ``comes`` (None: never)."""

    step: int
    at: At
    stack: int
    missing: tuple[str, ...]
    comes: tuple[int | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolStopped:
    """No tool reaches the fastener. ``last``: the last step at which it could still be set, None: never.

    ``above``, where the bench is the cause: parts in the way of the best tool that the bench leaves room for.
    """

    step: int
    at: At
    stack: int
    cause: Cause
    blockers: tuple[str, ...]
    last: int | None
    above: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NoWay:
    """A part that no longer goes in. ``blockers``: parts, or holes whose pins or fasteners are in the way.

    ``part`` is a placed part, or a sub-assembly; then ``members`` are the parts that move with it.
    """

    step: int
    at: At
    part: str
    cause: Cause
    blockers: tuple[str, ...]
    members: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NoWayOut:
    """A part, or sub-assembly, that is taken off and does not come out; as `NoWay`."""

    step: int
    at: At
    part: str
    cause: Cause
    blockers: tuple[str, ...]
    members: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OffWhenSet:
    """A part, or sub-assembly, that is taken off while fasteners still hold it to what stays.

    ``stacks``: their holes; ``set_at``: the step that set each.
    """

    step: int
    at: At
    part: str
    stacks: tuple[int, ...]
    set_at: tuple[int, ...]
    members: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedTwice:
    """A part, or sub-assembly, that a step places although it is there since the step ``since``."""

    step: int
    at: At
    part: str
    since: int


@dataclass(frozen=True, slots=True, kw_only=True)
class UnderSet:
    """A part that must go between two others which fasteners already hold together there.

    ``between``: the two; ``stacks``: the holes of those fasteners, near the part's outline; ``set_at``: the
    step that set each.
    """

    step: int
    at: At
    part: str
    between: tuple[str, str]
    stacks: tuple[int, ...]
    set_at: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SetTwice:
    """A hole named to be filled that has its fastener since the step ``since``."""

    step: int
    at: At
    stack: int
    since: int


@dataclass(frozen=True, slots=True, kw_only=True)
class NotDrilled:
    """A hole filled before it is drilled through ``parts``; they are drilled at ``comes`` (None: never)."""

    step: int
    at: At
    stack: int
    parts: tuple[str, ...]
    comes: tuple[int | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillHits:
    """A drill that, once through, meets ``parts`` close behind: ``behind`` mm, the nearest."""

    step: int
    at: At
    stack: int
    parts: tuple[str, ...]
    behind: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StillFingerTight:
    """A bolt whose nut was run on and never tightened; stands at the step that ran it on."""

    step: int
    at: At
    stack: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PinsFarApart:
    """A hole set far from the nearest pins or set fasteners of its row.

    ``between``: the stacks of the nearest ones on either side (None: the row ends without one). ``holes``:
    how many holes of the row lie between them.
    """

    step: int
    at: At
    stack: int
    between: tuple[int | None, int | None]
    holes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PinOutOfReach:
    """A pin put in where its body has no room: ``blockers`` are the parts there; or the bench closes it."""

    step: int
    at: At
    stack: int
    cause: Cause
    blockers: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseAtTurn:
    """A part of the work that is turned over with fewer than two pins or fasteners in it: ``held``."""

    step: int
    at: At
    part: str
    held: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StandsOnWeak:
    """The work stands, after a turn, only on the edges of thin sheets: ``parts``."""

    step: int
    at: At
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosingUnchecked:
    """A step after which set fasteners are reached no more, unchecked since pins went in at ``pinned``.

    ``parts``: those that close it; ``stacks``: what is then out of reach.
    """

    step: int
    at: At
    parts: tuple[str, ...]
    stacks: tuple[int, ...]
    pinned: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LastChance:
    """A step after which no tool reaches holes that are not set yet, as far as the steps go.

    ``stacks``: the holes; ``parts``: what the step places, where that closes them.
    """

    step: int
    at: At
    stacks: tuple[int, ...]
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadUnder:
    """A part laid over set heads or tails without a hole for them."""

    step: int
    at: At
    part: str
    stacks: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledOpen:
    """A hole filled while it was to stay open; ``since`` is the step that said so."""

    step: int
    at: At
    stack: int
    since: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenSince:
    """A hole that a ``leave open`` step named, and the step at which it was free again (None: never)."""

    step: int
    at: At
    stack: int
    until: int | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Replay:
    """The whole sequence, replayed.

    Attributes
    ----------
    states
        One a step, in order.
    presence
        Placed part -> bit set: bit ``k`` is set when it is there during step ``k`` (bit 0: before the first).
        During the step that places it it counts as there only for what is written after it in the same step.
        In whichever work; ``where`` says in which.
    filled_at
        Stack -> the step that set the fastener which is in it at the end; one drilled out again is not here.
    placed_at
        Placed part -> the step that placed it first; the base, where no step places it, has 0.
    where
        Placed part -> work (None: the main work) -> bit set of the steps after which it is in that work.
    drilled
        Stack -> the parts through which a step drills it.
    """

    states: tuple[StepState, ...]
    presence: dict[str, int]
    filled_at: dict[int, int]
    placed_at: dict[str, int]
    too_early: tuple[TooEarly, ...]
    tool_stopped: tuple[ToolStopped, ...]
    no_way: tuple[NoWay, ...]
    head_under: tuple[HeadUnder, ...]
    filled_open: tuple[FilledOpen, ...]
    open_since: tuple[OpenSince, ...]
    where: dict[str, dict[str | None, int]] = field(default_factory=dict)
    drilled: dict[int, frozenset[str]] = field(default_factory=dict)
    no_way_out: tuple[NoWayOut, ...] = ()
    off_when_set: tuple[OffWhenSet, ...] = ()
    placed_twice: tuple[PlacedTwice, ...] = ()
    under_set: tuple[UnderSet, ...] = ()
    set_twice: tuple[SetTwice, ...] = ()
    not_drilled: tuple[NotDrilled, ...] = ()
    drill_hits: tuple[DrillHits, ...] = ()
    still_finger_tight: tuple[StillFingerTight, ...] = ()
    pins_far_apart: tuple[PinsFarApart, ...] = ()
    pin_out_of_reach: tuple[PinOutOfReach, ...] = ()
    loose_at_turn: tuple[LooseAtTurn, ...] = ()
    stands_on_weak: tuple[StandsOnWeak, ...] = ()
    closing_unchecked: tuple[ClosingUnchecked, ...] = ()
    last_chance: tuple[LastChance, ...] = ()
