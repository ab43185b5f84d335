"""What becomes unreachable for good: set fasteners that nobody checked, and holes that are not set yet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seqviz.assembly.structure import Stack
from seqviz.records.steps import HoldPoint, Place
from seqviz.sequence.access import Side
from seqviz.sequence.replay_types import ClosingUnchecked, HeadUnder, LastChance, StepState
from seqviz.sequence.timeline import View, highest_bit
from seqviz.sequence.whereabouts import WorkName
from seqviz.sequence.work import Shop

__all__ = ["note_closings", "note_last_chances"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Closing:
    """A step that brings parts while pins put in at the step ``pinned`` were not checked since."""

    state: StepState
    pinned: int


def note_closings(shop: Shop, states: tuple[StepState, ...]) -> None:
    """Note the steps after which fasteners of the same work, set before, are never reached again.

    The bench is left out: a look from below is a matter of turning the work.
    """
    closings = {one.state.step.number: one for one in _unchecked(states)}
    # What is laid over a head is one mistake, and told there.
    covered = {(laid.step, stack) for laid in shop.troubles.of(HeadUnder) for stack in laid.stacks}
    shut: dict[int, list[int]] = {}
    for index, held in shop.filled.items() if closings else ():
        stack = shop.assembly.stacks[index]
        perhaps = {
            number
            for number, closing in closings.items()
            if held.step < number and shop.timeline.is_in(stack.parts[0], closing.state.work, number)
        }
        # To ask when a tool reaches it last takes long: only where the answer can matter.
        last = _last_reach(shop, stack, held.fixing.fastener, held.fixing.end) if perhaps else None
        if last is not None and last + 1 in perhaps and (last + 1, index) not in covered:
            shut.setdefault(last + 1, []).append(index)
    for number, stacks in sorted(shut.items()):
        closing = closings[number]
        trouble = ClosingUnchecked(
            step=number,
            at=closing.state.step.at,
            parts=closing.state.placed,
            stacks=tuple(sorted(stacks)),
            pinned=closing.pinned,
        )
        shop.troubles.note(trouble)


def note_last_chances(shop: Shop, states: tuple[StepState, ...]) -> None:
    """Note, of a sequence that goes on, the steps after which holes not set yet are never reached again.

    The bench is left out: the work can still be turned over.
    """
    of_step = {state.step.number: state for state in states}
    shut: dict[int, list[int]] = {}
    for stack in shop.assembly.stacks:
        if stack.index in shop.filled or stack.index in shop.later or not stack.joins:
            continue
        last = _last_reach(shop, stack, stack.fastener)
        state = of_step.get(last + 1) if last is not None else None
        if state is not None and state.placed:
            shut.setdefault(state.step.number, []).append(stack.index)
    for number, stacks in sorted(shut.items()):
        state = of_step[number]
        trouble = LastChance(step=number, at=state.step.at, stacks=tuple(stacks), parts=state.placed)
        shop.troubles.note(trouble)


def _unchecked(states: tuple[StepState, ...]) -> Iterator[_Closing]:
    """Yield the steps that place parts after pins went into their work, unchecked since."""
    pinned: dict[WorkName, int] = {}
    for state in states:
        action = state.step.action
        if isinstance(action, HoldPoint) and action.what in ("check", "inspect"):
            pinned.pop(state.work, None)
        if isinstance(action, Place) and state.placed and state.work in pinned:
            yield _Closing(state=state, pinned=pinned[state.work])
        if state.pinned:
            pinned[state.work] = state.step.number


def _last_reach(shop: Shop, stack: Stack, fastener: str | None, head: int = 1) -> int | None:
    """Return the last step after which a tool reaches the hole; None: never, to the end, or nobody knows.

    Holes whose layers are not all together at the end are left out. The side of the ``head`` is asked first.
    """
    if not stack.located or shop.is_muted(stack) or any(layer.hole is None for layer in stack.layers):
        return None
    sides = tuple(sorted(shop.tables.sides(stack.index, fastener), key=lambda side: side.head != head))
    view = shop.timeline.view(stack.parts).without_bench()
    layers = view.all_there(stack.parts)
    if not sides or not layers >> view.timeline.steps & 1:
        return None
    if any(all(end.is_free(view, view.timeline.steps) for end in side.ends) for side in sides):
        return None
    return highest_bit(_reach(sides, view, layers))


def _reach(sides: tuple[Side, ...], view: View, layers: int) -> int:
    reach = 0
    for side in sides:
        bits = layers
        for end in side.ends:
            bits &= end.free_bits(view)
        reach |= bits
    return reach
