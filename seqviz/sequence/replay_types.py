"""What the replay of a sequence tells: what every step did, what is there when, and every trouble met."""

from __future__ import annotations

from dataclasses import dataclass, field

from seqviz.geometry.pose import Array
from seqviz.records.steps import Step
from seqviz.sequence.trouble_types import (
    Cause,
    ClosingUnchecked,
    DrillHits,
    FilledOpen,
    HeadUnder,
    LastChance,
    LooseAtTurn,
    NotDrilled,
    NoWay,
    NoWayOut,
    OffWhenSet,
    OpenSince,
    PinOutOfReach,
    PinsFarApart,
    PlacedTwice,
    SetTwice,
    StandsOnWeak,
    StillFingerTight,
    TooEarly,
    ToolStopped,
    UnderSet,
)

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
        For each stack filled or tightened the builder's tools that reach it, where one was asked: the one at
        the head first, then the one at the tail.
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
    tools: dict[int, tuple[str, ...]] = field(default_factory=dict)
    first_moves: dict[str, Array] = field(default_factory=dict)


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

    def there(self, part: str, step: int, work: str | None) -> bool:
        """Say whether ``part`` is in ``work`` after ``step``."""
        return bool(self.where.get(part, {}).get(work, 0) >> step & 1)

    def came_at(self, part: str, step: int) -> int:
        """Return the step since which ``part`` is in the work that it is in after ``step``."""
        bits = next((bits for bits in self.where.get(part, {}).values() if bits >> step & 1), 0)
        while step > 0 and bits >> (step - 1) & 1:
            step -= 1
        return step
