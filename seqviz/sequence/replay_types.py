"""What the replay of a sequence tells: what every step did, what is there when, and every trouble met."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from seqviz.findings import At
from seqviz.geometry.pose import Array
from seqviz.records.steps import Step

__all__ = [
    "Cause",
    "FilledOpen",
    "HeadUnder",
    "NoWay",
    "OpenSince",
    "Replay",
    "StepState",
    "TooEarly",
    "ToolStopped",
]

Cause = Literal["parts", "pins", "bench"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StepState:
    """What one step did.

    Attributes
    ----------
    placed
        Parts placed by it, in order.
    ways
        For each part placed the unit vector of a free way OUT (it comes in along the opposite), or None.
    pinned, unpinned, filled, left_open
        Indices of stacks: pins put in, pins taken out, fasteners set, holes left open by it.
    up
        ``(3,)`` base frame: what faces up after it.
    head_sides
        For each stack filled: +1 where the manufactured head is on layer 1's side, else -1.
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
    """A part that no longer goes in. ``blockers``: parts, or holes whose pins or fasteners are in the way."""

    step: int
    at: At
    part: str
    cause: Cause
    blockers: tuple[str, ...]


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
    filled_at
        Stack -> the step that first set its fastener.
    placed_at
        Placed part -> the step that placed it; the base, where no step places it, has 0.
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
