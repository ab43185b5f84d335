"""One hole filled: its one trouble, and the side of its head."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.assembly.structure import Layer, Stack
from seqviz.findings import At
from seqviz.geometry.pose import Array
from seqviz.records.model import Name
from seqviz.sequence.access import Reached, Side, reaching_side, stopped
from seqviz.sequence.barred import barred_tool
from seqviz.sequence.bench import side_vector
from seqviz.sequence.replay_types import FilledOpen, NotDrilled, TooEarly, ToolStopped
from seqviz.sequence.tables import Fixing
from seqviz.sequence.timeline import View
from seqviz.sequence.work import Shop, Work

__all__ = ["Filling", "fill", "told_head"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Filling:
    """One hole to be filled now, with what, where a trouble is told, and the head's end where said.

    ``by_hand``: no tool is needed, a nut is only run on; ``run_on``: it was, and is tightened now.
    """

    at: At
    stack: Stack
    fastener: str | None
    head: int | None
    by_hand: bool = False
    run_on: bool = False


def fill(work: Work, filling: Filling) -> Reached:
    """Fill one hole, note its trouble, and return the side of its head and the tools."""
    index, shop = filling.stack.index, work.shop
    how = None if shop.is_muted(filling.stack) else checked(work, filling)
    how = how or Reached(head=filling.head or 1)
    fixing = Fixing(stack=index, kind="fastener", end=how.head, fastener=filling.fastener)
    shop.filled.put(work.hold(fixing))
    return how


def checked(work: Work, filling: Filling) -> Reached | None:
    """Note at most one trouble; return how the fastener is set where that could be told."""
    stack, troubles = filling.stack, work.shop.troubles
    window = work.shop.open_window(stack.index)
    if window is not None:
        troubles.note(FilledOpen(step=work.number, at=filling.at, stack=stack.index, since=window.since))
        return None
    missing = [layer for layer in stack.layers if layer.part not in work.there]
    if missing:
        _note_missing(work, filling, missing)
        return None
    solid = [layer for layer in stack.layers if work.shop.holes.to_be_drilled(stack.index, layer)]
    if solid:
        _note_solid(work, filling, solid)
        return None
    return reached(work, filling) if stack.joins else None


def _note_missing(work: Work, filling: Filling, missing: list[Layer]) -> None:
    """Note the layers that come too late.

    A part without a hole there is told by the geometry unless a step drills it, one that never comes to a
    finished structure by the check for parts that are not placed.
    """
    shop, drilled = work.shop, work.shop.holes.comes.get(filling.stack.index, {})
    parts = dict.fromkeys(layer.part for layer in missing if layer.hole is not None or layer.part in drilled)
    late = tuple(part for part in parts if not _never_comes(shop, part))
    if late:
        comes = tuple(shop.timeline.next_there(part, work.name, work.number) for part in late)
        trouble = TooEarly(
            step=work.number, at=filling.at, stack=filling.stack.index, missing=late, comes=comes
        )
        shop.troubles.note(trouble)


def _never_comes(shop: Shop, part: str) -> bool:
    return shop.finished and part not in shop.timeline.placed_at and part not in shop.later_parts


def _note_solid(work: Work, filling: Filling, solid: list[Layer]) -> None:
    index = filling.stack.index
    parts = tuple(dict.fromkeys(layer.part for layer in solid))
    comes = tuple(work.shop.holes.next_drilled(index, part, work.number) for part in parts)
    work.shop.troubles.note(
        NotDrilled(step=work.number, at=filling.at, stack=index, parts=parts, comes=comes)
    )


def reached(work: Work, filling: Filling) -> Reached | None:
    """Return the head side from which tools reach the hole; None, and a trouble noted, where none do."""
    stack = filling.stack
    sides = _asked(work, filling)
    if not sides:
        return None
    view = work.shop.timeline.view(stack.parts)
    reaching = reaching_side(sides, view, work.number)
    if reaching is not None:
        return reaching
    why = stopped(sides, view, work.number, view.all_there(stack.parts))
    work.shop.troubles.note(
        ToolStopped(
            step=work.number,
            at=filling.at,
            stack=stack.index,
            cause=why.cause,
            blockers=why.blockers,
            last=why.last,
            above=why.above,
            by_hand=_stopped_by_hand(filling, sides, view, work.number),
            tool=barred_tool(sides, view, work.number, why),
        )
    )
    return None


def _asked(work: Work, filling: Filling) -> tuple[Side, ...]:
    """Return the sides that may be used, each with what it takes: a bolt that is in needs no way in."""
    sides = work.shop.tables.sides(filling.stack.index, filling.fastener)
    sides = tuple(side for side in sides if filling.head in (None, side.head))
    if filling.by_hand:
        return tuple(side.put_in() for side in sides if side.by_hand)
    return tuple(side.tightened() for side in sides) if filling.run_on else sides


def _stopped_by_hand(filling: Filling, sides: tuple[Side, ...], view: View, step: int) -> bool:
    """Say whether it is not for want of a tool that a bolt cannot be set."""
    if filling.by_hand or filling.run_on:
        return filling.by_hand
    tight = [side.tightened() for side in sides if side.by_hand]
    return reaching_side(tight, view, step) is not None


def told_head(work: Work, head: Name | None, stack: Stack) -> int | None:
    """Return the end at which ``head:`` wants the manufactured head, None where it does not decide.

    Without it a flush head lies where the row of its hole says so.
    """
    if head is None:
        return stack.head_end
    if head.text.startswith("on "):
        return _end_of_part(work, head.text[3:].strip(), stack)
    if head.text in ("upper", "lower"):
        toward = side_vector(work.shop.assembly, head.text)
    else:
        hole = _base_most_axis(work, stack)
        toward = hole if head.text == "outside" else -hole
    across = abs(float(stack.axis @ toward)) <= 1e-6
    return None if across else work.end_toward(stack, toward)


def _end_of_part(work: Work, name: str, stack: Stack) -> int | None:
    parts = work.shop.chooser.parts_named(name)
    if stack.parts[0] in parts:
        return 1
    return -1 if stack.parts[-1] in parts else None


def _base_most_axis(work: Work, stack: Stack) -> Array:
    """Return the outside's normal, base frame, where the part nearest to the base has its hole."""
    placed = work.shop.assembly.placed
    drilled = [layer for layer in stack.layers if layer.hole is not None]
    layer = min(drilled, key=lambda one: (placed[one.part].depth, one.part))
    here = placed[layer.part]
    hole = next(hole for hole in here.holes if f"{here.name}.{hole.name}" == layer.hole)
    return here.pose.vectors(hole.axis)
