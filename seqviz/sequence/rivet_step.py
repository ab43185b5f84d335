"""``rivet``: which holes a step fills, and the one trouble of each."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.assembly.structure import Layer, Stack
from seqviz.findings import At
from seqviz.geometry.pose import Array
from seqviz.records.model import HoleChoice, Name
from seqviz.records.steps import Rivet, Step
from seqviz.sequence.access import reaching_side, stopped
from seqviz.sequence.bench import side_vector
from seqviz.sequence.replay_types import FilledOpen, TooEarly, ToolStopped
from seqviz.sequence.tables import Fixing
from seqviz.sequence.work import Done, Work, place_of

__all__ = ["rivet"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Filling:
    """One hole to be filled now, with what, where a trouble is told, and the head's end where said."""

    step: int
    at: At
    stack: Stack
    fastener: str | None
    head: int | None


def rivet(work: Work, step: Step, action: Rivet) -> Done:
    """Fill the holes that the step names, in that order; a hole with a trouble is filled all the same."""
    chosen = _chosen(work, action)
    heads = {}
    for index, choice in chosen.items():
        stack = work.assembly.stacks[index]
        filling = Filling(
            step=step.number,
            at=place_of(step, choice, len(action.holes or ())),
            stack=stack,
            fastener=action.use.text if action.use else stack.fastener,
            head=_told_head(work, action.head, stack),
        )
        heads[index] = _fill(work, filling)
    unpinned = tuple(index for index in chosen if work.pins.pop(index, None) is not None)
    return Done(filled=tuple(chosen), unpinned=unpinned, head_sides=heads)


def _chosen(work: Work, action: Rivet) -> dict[int, HoleChoice | None]:
    named: dict[int, HoleChoice | None]
    if action.holes is None:
        unset = (stack for stack in work.assembly.stacks if stack.index not in work.filled_at)
        named = {stack.index: None for stack in unset if _ready(work, action, stack)}
    else:
        named = {**work.chooser.stacks(action.holes)}
    passing = work.chooser.passes(action.narrowed)
    return {k: choice for k, choice in named.items() if k in passing and k not in work.filled_at}


def _ready(work: Work, action: Rivet, stack: Stack) -> bool:
    return (
        (stack.fastener is not None or action.use is not None)
        and len(stack.layers) >= 2
        and all(layer.hole is not None and layer.part in work.there for layer in stack.layers)
        and stack.index not in work.later
        and work.open_window(stack.index) is None
    )


def _fill(work: Work, filling: Filling) -> int:
    """Fill one hole, note its trouble, and return the side of its head."""
    index = filling.stack.index
    head = None if work.is_muted(filling.stack) else _checked(work, filling)
    head = head or filling.head or 1
    work.filled_at[index] = filling.step
    work.set[index] = Fixing(stack=index, kind="fastener", end=head, fastener=filling.fastener)
    return head


def _checked(work: Work, filling: Filling) -> int | None:
    """Note at most one trouble; return the side from which the fastener is set where that could be told."""
    window = work.open_window(filling.stack.index)
    if window is not None:
        work.troubles.filled_open.append(
            FilledOpen(step=filling.step, at=filling.at, stack=filling.stack.index, since=window.since)
        )
        return None
    missing = [layer for layer in filling.stack.layers if layer.part not in work.there]
    if missing:
        _note_missing(work, filling, missing)
        return None
    return _reached(work, filling) if len(filling.stack.layers) >= 2 else None


def _note_missing(work: Work, filling: Filling, missing: list[Layer]) -> None:
    """Note the layers that come too late.

    A part without a hole there is told by the geometry, one that never comes to a finished structure by the
    check for parts that are not placed.
    """
    parts = dict.fromkeys(layer.part for layer in missing if layer.hole is not None)
    late = tuple(part for part in parts if not _never_comes(work, part))
    if late:
        comes = tuple(work.timeline.placed_at.get(part) for part in late)
        work.troubles.too_early.append(
            TooEarly(step=filling.step, at=filling.at, stack=filling.stack.index, missing=late, comes=comes)
        )


def _never_comes(work: Work, part: str) -> bool:
    return work.finished and part not in work.timeline.placed_at and part not in work.later_parts


def _reached(work: Work, filling: Filling) -> int | None:
    """Return the head side from which a tool reaches the hole; None, and a trouble noted, where none does."""
    stack, timeline = filling.stack, work.timeline
    sides = work.tables.sides(stack.index, filling.fastener)
    sides = tuple(side for side in sides if filling.head in (None, side.head))
    if not sides:
        return None
    reaching = reaching_side(sides, timeline, filling.step)
    if reaching is not None:
        return reaching.head
    why = stopped(sides, timeline, filling.step, timeline.all_there(stack.parts))
    work.troubles.tool_stopped.append(
        ToolStopped(
            step=filling.step,
            at=filling.at,
            stack=stack.index,
            cause=why.cause,
            blockers=why.blockers,
            last=why.last,
            above=why.above,
        )
    )
    return None


def _told_head(work: Work, head: Name | None, stack: Stack) -> int | None:
    """Return the end at which ``head:`` wants the manufactured head, None where it does not decide."""
    if head is None:
        return None
    if head.text.startswith("on "):
        return _end_of_part(work, head.text[3:].strip(), stack)
    if head.text in ("upper", "lower"):
        toward = side_vector(work.assembly, head.text)
    else:
        hole = _base_most_axis(work, stack)
        toward = hole if head.text == "outside" else -hole
    across = abs(float(stack.axis @ toward)) <= 1e-6
    return None if across else work.end_toward(stack, toward)


def _end_of_part(work: Work, name: str, stack: Stack) -> int | None:
    parts = work.chooser.parts_named(name)
    if stack.parts[0] in parts:
        return 1
    return -1 if stack.parts[-1] in parts else None


def _base_most_axis(work: Work, stack: Stack) -> Array:
    """Return the outside's normal, base frame, where the part nearest to the base has its hole."""
    drilled = [layer for layer in stack.layers if layer.hole is not None]
    layer = min(drilled, key=lambda one: (work.assembly.placed[one.part].depth, one.part))
    here = work.assembly.placed[layer.part]
    hole = next(hole for hole in here.holes if f"{here.name}.{hole.name}" == layer.hole)
    return here.pose.vectors(hole.axis)
