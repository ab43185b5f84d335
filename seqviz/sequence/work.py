"""The work while the steps are replayed: pins, set fasteners, open holes, and the troubles met."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from seqviz.assembly.structure import Assembly, Stack
from seqviz.findings import At
from seqviz.geometry.pose import Array
from seqviz.records.model import HoleChoice, Name
from seqviz.records.steps import Step
from seqviz.sequence.choose import Chooser
from seqviz.sequence.replay_types import FilledOpen, HeadUnder, NoWay, OpenSince, TooEarly, ToolStopped
from seqviz.sequence.tables import Fixing, Tables
from seqviz.sequence.timeline import Timeline

__all__ = ["Done", "Troubles", "Window", "Work", "place_of"]


@dataclass(frozen=True, kw_only=True, eq=False)
class Done:
    """What one step did; the fields of `StepState` that it fills."""

    placed: tuple[str, ...] = ()
    ways: Mapping[str, Array | None] = field(default_factory=dict)
    pinned: tuple[int, ...] = ()
    unpinned: tuple[int, ...] = ()
    filled: tuple[int, ...] = ()
    left_open: tuple[int, ...] = ()
    head_sides: Mapping[int, int] = field(default_factory=dict)


@dataclass(slots=True, kw_only=True)
class Window:
    """A hole left open, until all of ``waits_for`` are placed or a step says so; ``until`` then."""

    stack: int
    since: int
    at: At
    waits_for: frozenset[str]
    until: int | None = None


@dataclass(slots=True, kw_only=True)
class Troubles:
    """Every trouble met, in the order met."""

    too_early: list[TooEarly] = field(default_factory=list)
    tool_stopped: list[ToolStopped] = field(default_factory=list)
    no_way: list[NoWay] = field(default_factory=list)
    head_under: list[HeadUnder] = field(default_factory=list)
    filled_open: list[FilledOpen] = field(default_factory=list)


@dataclass(kw_only=True)
class Work:
    """The state that the steps change, and what they look up.

    Attributes
    ----------
    finished
        The sequence says that it is complete.
    later, later_parts
        Stacks and placed parts that the model says come later.
    there
        Placed parts that are there now; within a ``place`` step those placed so far.
    pins
        Pinned stack -> +1 where the pin comes from layer 1's side, else -1.
    set
        Filled stack -> its fastener.
    windows
        All holes that were left open, closed again or not.
    """

    assembly: Assembly
    chooser: Chooser
    timeline: Timeline
    tables: Tables
    finished: bool
    later: frozenset[int]
    later_parts: frozenset[str]
    there: set[str] = field(default_factory=set)
    pins: dict[int, int] = field(default_factory=dict)
    set: dict[int, Fixing] = field(default_factory=dict)
    filled_at: dict[int, int] = field(default_factory=dict)
    windows: list[Window] = field(default_factory=list)
    troubles: Troubles = field(default_factory=Troubles)

    def is_muted(self, stack: Stack) -> bool:
        """Say whether a layer of ``stack`` is a part about which a spoiling finding has been made."""
        muted = self.assembly.muted
        return bool(muted) and not muted.isdisjoint(stack.parts)

    def layers_there(self, stack: Stack) -> int:
        """Return how many different parts of ``stack`` are there now."""
        return len(self.there & set_of(stack.parts))

    def open_window(self, stack: int) -> Window | None:
        """Return the window that keeps the hole open now, None where it may be filled."""
        return next((w for w in self.windows if w.stack == stack and w.until is None), None)

    def opened(self) -> tuple[OpenSince, ...]:
        """Return every hole that was left open."""
        return tuple(OpenSince(step=w.since, at=w.at, stack=w.stack, until=w.until) for w in self.windows)

    def end_toward(self, stack: Stack, side: Array) -> int:
        """Return the end of ``stack`` that looks toward ``side``; layer 1's where the side is across it."""
        return -1 if stack.axis @ side < -1e-6 else 1


def set_of(names: Iterable[str]) -> frozenset[str]:
    """Return the different names."""
    return frozenset(names)


def place_of(step: Step, named: HoleChoice | Name | None, among: int) -> At:
    """Return where a trouble stands: at the action word, or at the name in a list of several."""
    return named.at if named is not None and among > 1 else step.at
