"""The state that the steps change: one work on its bench, and the shop in which all of them are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from seqviz.assembly.structure import Assembly, Layer, Stack
from seqviz.findings import At
from seqviz.geometry.pose import Array
from seqviz.records.model import HoleChoice, Model, Name
from seqviz.records.steps import Step
from seqviz.sequence.choose import Chooser
from seqviz.sequence.drilled import Holes
from seqviz.sequence.held import Held, HeldIn
from seqviz.sequence.replay_types import OpenSince
from seqviz.sequence.tables import Fixing, Tables
from seqviz.sequence.timeline import Lie, Timeline
from seqviz.sequence.troubles import Troubles
from seqviz.sequence.whereabouts import Whereabouts, WorkName

__all__ = ["Done", "Shop", "Window", "Work", "place_of"]


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
    taken_off: tuple[str, ...] = ()
    drilled: tuple[int, ...] = ()
    emptied: tuple[int, ...] = ()
    finger_tight: tuple[int, ...] = ()
    tightened: tuple[int, ...] = ()
    prepared: tuple[str, ...] = ()
    hold: bool = False
    tools: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    first_moves: Mapping[str, Array] = field(default_factory=dict)


@dataclass(slots=True, kw_only=True)
class Window:
    """A hole left open by a step on ``work``, until all of ``waits_for`` are there or a step says so."""

    stack: int
    since: int
    at: At
    work: WorkName
    waits_for: frozenset[str]
    until: int | None = None


@dataclass(kw_only=True)
class Shop:
    """What all works have in common, and what the steps look up.

    Attributes
    ----------
    finished
        The sequence says that it is complete.
    later, later_parts
        Stacks and placed parts that the model says come later.
    now
        Where each part is; within a step that places parts it counts those placed so far.
    pins, filled
        Stack -> the pin, or the set fastener, that is in it.
    finger_tight
        Stack -> the step that ran its nut on, and where that stands in the file.
    taken_off_when_set
        Stacks whose fastener went with a part that was taken off: that was told.
    just_placed
        Work -> the parts that the last step which placed any there placed.
    pinned_together
        Every two parts that a pin has gone through so far.
    windows
        All holes that were left open, closed again or not.
    """

    model: Model
    assembly: Assembly
    chooser: Chooser
    timeline: Timeline
    tables: Tables
    holes: Holes
    finished: bool
    later: frozenset[int]
    later_parts: frozenset[str]
    now: Whereabouts
    pins: HeldIn = field(default_factory=HeldIn)
    filled: HeldIn = field(default_factory=HeldIn)
    finger_tight: dict[int, tuple[int, At]] = field(default_factory=dict)
    taken_off_when_set: set[int] = field(default_factory=set)
    just_placed: dict[WorkName, tuple[str, ...]] = field(default_factory=dict)
    pinned_together: set[frozenset[str]] = field(default_factory=set)
    windows: list[Window] = field(default_factory=list)
    troubles: Troubles = field(default_factory=Troubles)

    @cached_property
    def stacks_through(self) -> dict[frozenset[str], list[int]]:
        """The parts of a stack -> all stacks through these parts."""
        found: dict[frozenset[str], list[int]] = {}
        for stack in self.assembly.stacks:
            found.setdefault(frozenset(stack.parts), []).append(stack.index)
        return found

    @cached_property
    def touching(self) -> dict[str, set[str]]:
        """Placed part -> the parts that it touches in its final place, itself where it does so."""
        found: dict[str, set[str]] = {}
        for contact in self.assembly.contacts:
            found.setdefault(contact.upper, set()).add(contact.lower)
            found.setdefault(contact.lower, set()).add(contact.upper)
        return found

    def is_muted(self, stack: Stack) -> bool:
        """Say whether a layer of ``stack`` is a part about which a spoiling finding has been made."""
        muted = self.assembly.muted
        return bool(muted) and not muted.isdisjoint(stack.parts)

    def open_window(self, stack: int) -> Window | None:
        """Return the window that keeps the hole open now, None where it may be filled."""
        return next((w for w in self.windows if w.stack == stack and w.until is None), None)

    def opened(self) -> tuple[OpenSince, ...]:
        """Return every hole that was left open."""
        return tuple(OpenSince(step=w.since, at=w.at, stack=w.stack, until=w.until) for w in self.windows)

    def in_stacks(self, stacks: Iterable[int]) -> Iterator[Held]:
        """Yield the pins and fasteners that are in ``stacks`` now."""
        for index in stacks:
            if index in self.pins:
                yield self.pins[index]
            if index in self.filled:
                yield self.filled[index]


@dataclass(frozen=True, kw_only=True, eq=False)
class Work:
    """One work, as a step finds it: the main one (``name`` None) or a sub-assembly."""

    shop: Shop
    name: WorkName
    step: Step

    @property
    def number(self) -> int:
        """The step's number."""
        return self.step.number

    @cached_property
    def there(self) -> set[str]:
        """Parts that are in this work now; a step that moves parts keeps it right."""
        return self.shop.now.there(self.name)

    @cached_property
    def lie(self) -> Lie:
        """How it lies after the step."""
        return self.shop.timeline.lie(self.name, self.step.number)

    def layers_there(self, stack: Stack) -> int:
        """Return how many different parts of ``stack`` are there now."""
        return len(self.there.intersection(stack.parts))

    def whole(self, stack: Stack, layer: Layer) -> bool:
        """Say whether the layer is there, and its hole made."""
        return layer.part in self.there and self.shop.holes.made(stack.index, layer)

    def hold(self, fixing: Fixing) -> Held:
        """Return ``fixing`` as it is put in now, with what it holds."""
        parts = self.there.intersection(self.shop.assembly.stacks[fixing.stack].parts)
        return Held(fixing=fixing, parts=frozenset(parts), work=self.name, step=self.number)

    def has(self, held: Held) -> bool:
        """Say whether a pin or fastener is in this work: with what it holds, else where it was put in."""
        return not held.parts.isdisjoint(self.there) if held.parts else held.work == self.name

    def fixings(self) -> frozenset[Fixing]:
        """Return the pins and fasteners that are in this work now, where no layer is muted."""
        shop = self.shop
        found = shop.pins.in_work(self.name, self.there) | shop.filled.in_work(self.name, self.there)
        spoiled = shop.assembly.muted
        return (
            frozenset(f for f in found if not shop.is_muted(shop.assembly.stacks[f.stack]))
            if spoiled
            else found
        )

    def end_toward(self, stack: Stack, side: Array) -> int:
        """Return the end of ``stack`` that looks toward ``side``; layer 1's where the side is across it."""
        return -1 if stack.axis @ side < -1e-6 else 1


def place_of(step: Step, named: HoleChoice | Name | None, among: int) -> At:
    """Return where a trouble stands: at the action word, or at the name in a list of several."""
    return named.at if named is not None and among > 1 else step.at
