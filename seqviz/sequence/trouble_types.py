"""The troubles that a replay meets: each with its step, its place in the file, and what is concerned."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from seqviz.findings import At
from seqviz.geometry.prism import Piece
from seqviz.sequence.way import Way

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
    "SetTwice",
    "StandsOnWeak",
    "StillFingerTight",
    "TooEarly",
    "ToolStopped",
    "UnderSet",
]

Cause = Literal["parts", "pins", "bench"]


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
    ``by_hand``: a bolt that a tool would reach, but that has no straight way in, or no room for its nut.
    ``tool``: what of the best alternative is stopped, base frame, mm: tool, hand and arm, or room.
    """

    step: int
    at: At
    stack: int
    cause: Cause
    blockers: tuple[str, ...]
    last: int | None
    above: tuple[str, ...] = ()
    by_hand: bool = False
    tool: tuple[Piece, ...] = field(default=(), compare=False, repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class NoWay:
    """A part that no longer goes in. ``blockers``: parts, or holes whose pins or fasteners are in the way.

    ``part`` is a placed part, or a sub-assembly; then ``members`` are the parts that move with it. ``way``:
    the way OUT that these blockers close, where one was looked at.
    """

    step: int
    at: At
    part: str
    cause: Cause
    blockers: tuple[str, ...]
    members: tuple[str, ...] = ()
    way: Way | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class NoWayOut:
    """A part, or sub-assembly, that is taken off and does not come out; as `NoWay`."""

    step: int
    at: At
    part: str
    cause: Cause
    blockers: tuple[str, ...]
    members: tuple[str, ...] = ()
    way: Way | None = field(default=None, compare=False)


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
