"""What ``preparation`` asks for between parts, and the joints at which no step did it in time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import combinations

from seqviz.build import Build
from seqviz.checks.places import farther_first, sound
from seqviz.findings import At
from seqviz.records.model import Preparation
from seqviz.records.steps import Prepare
from seqviz.sequence.choose import Chooser
from seqviz.sequence.replay_types import Replay, StepState

__all__ = ["DONE", "BareJoint", "bare_joints"]

DONE = {"prime": "primed", "seal": "sealed", "deburr": "deburred"}
"""What was asked -> that it was done."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BareJoint:
    """Two parts that touch with nothing done between them in time.

    Attributes
    ----------
    asked
        The entry that asks for it.
    parts
        The one farther from the base, then the other.
    step, at
        The step that fastens one to the other (``fastened``), else the one that lays them together.
    laid
        The step since which they lie together.
    late
        Steps that do what was asked when they lie together or are fastened already.
    """

    asked: Preparation
    parts: tuple[str, str]
    step: int
    at: At
    laid: int
    fastened: bool
    late: tuple[int, ...]


def bare_joints(build: Build) -> Iterator[BareJoint]:
    """Yield the pairs of parts that touch, for which a preparation is asked that no step did in time.

    A step does it in time while the parts are apart, before a fastener that stays goes through both. It does
    it with either part whole, or at holes of both that they share.
    """
    replay = build.replay
    if replay is None or not build.model.preparation:
        return
    touching = _touching(build)
    works = _Works(build, replay)
    for asked in build.model.preparation:
        names = [works.chooser.parts_named(name.text) for name in asked.between]
        for some, others in combinations(names, 2):
            for pair in ((a, b) for a in some for b in others if frozenset((a, b)) in touching):
                found = works.bare(asked, farther_first(build.assembly, *pair))
                if found is not None and not _doubtful(build, found):
                    yield found


def _touching(build: Build) -> set[frozenset[str]]:
    """Return the pairs of sound parts that sit on each other, or are layers next to each other."""
    found = {frozenset((contact.upper, contact.lower)) for contact in build.assembly.contacts}
    for stack in build.assembly.stacks:
        found |= {frozenset(pair) for pair in zip(stack.parts, stack.parts[1:], strict=False)}
    return {pair for pair in found if len(pair) == 2 and sound(build.assembly, pair)}


def _doubtful(build: Build, found: BareJoint) -> bool:
    """Say whether a step that could not be read may have done it."""
    broken = build.sequence.broken if build.sequence else ()
    return any(0 < number < found.step or (number > 0 and not found.fastened) for number in broken)


@dataclass(slots=True, kw_only=True)
class _Progress:
    """What has become of one pair so far: the parts done at holes, the steps too late, when it was joined."""

    done: bool = False
    holes: set[str] = field(default_factory=set)
    late: list[int] = field(default_factory=list)
    laid: StepState | None = None
    fastened: StepState | None = None
    laid_then: StepState | None = None


class _Works:
    """Looks the steps up for one pair after the other."""

    def __init__(self, build: Build, replay: Replay) -> None:
        self._build = build
        self._replay = replay
        self.chooser = Chooser(build.model, build.assembly)

    def bare(self, asked: Preparation, pair: tuple[str, str]) -> BareJoint | None:
        """Return the joint of ``pair`` where nothing was done in time."""
        shared = self._shared(pair)
        seen = _Progress()
        for state in self._replay.states:
            self._go(seen, state, asked.what, (pair, shared))
        if seen.fastened is not None:
            step, laid = seen.fastened, seen.laid_then
        elif not seen.done and seen.laid is not None:
            step, laid = seen.laid, seen.laid
        else:
            return None
        return BareJoint(
            asked=asked,
            parts=pair,
            step=step.step.number,
            at=step.step.at,
            laid=laid.step.number if laid else step.step.number,
            fastened=seen.fastened is not None,
            late=tuple(seen.late),
        )

    def _go(
        self,
        seen: _Progress,
        state: StepState,
        what: str,
        joint: tuple[tuple[str, str], frozenset[int]],
    ) -> None:
        pair, shared = joint
        together = self._together(pair, state.step.number)
        if not together:
            seen.laid = None
        elif seen.laid is None:
            seen.laid = state
        action = state.step.action
        if isinstance(action, Prepare) and action.what == what:
            whole, at_holes = self._prepared(action, joint)
            if together and (whole or at_holes) and not seen.done:
                seen.late.append(state.step.number)
            elif not together:
                seen.holes |= at_holes
                seen.done = seen.done or whole or seen.holes == set(pair)
        if seen.fastened is None and not seen.done and shared & self._closed(state):
            seen.fastened, seen.laid_then = state, seen.laid

    def _together(self, pair: tuple[str, str], step: int) -> bool:
        one, other = (self._replay.where.get(part, {}) for part in pair)
        return any(one[work] & other.get(work, 0) & (1 << step) for work in one)

    def _shared(self, pair: tuple[str, str]) -> frozenset[int]:
        stacks = self._build.assembly.stacks_of_part
        return frozenset(stacks.get(pair[0], ())) & frozenset(stacks.get(pair[1], ()))

    def _closed(self, state: StepState) -> set[int]:
        """Return the stacks in which a step sets, or tightens, what is in them at the end."""
        kept, number = self._replay.filled_at, state.step.number
        new = {k for k in state.filled if kept.get(k) == number} - set(state.finger_tight)
        return new | {k for k in state.tightened if k in kept}

    def _prepared(
        self, action: Prepare, joint: tuple[tuple[str, str], frozenset[int]]
    ) -> tuple[bool, set[str]]:
        """Return whether the step prepares a part whole, and the parts whose shared holes it does."""
        pair, shared = joint
        whole = {part for name in action.names for part in self.chooser.parts_named(name.text)}
        return not whole.isdisjoint(pair), set(self._at_holes(action, pair, shared))

    def _at_holes(self, action: Prepare, pair: Iterable[str], shared: frozenset[int]) -> Iterator[str]:
        stack_of = self._build.assembly.stack_of
        for choice in action.holes:
            for part, hole in self.chooser.placed_holes(choice):
                if part in pair and stack_of.get(f"{part}.{hole.name}") in shared:
                    yield part
