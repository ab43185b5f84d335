"""``drill`` and ``drill out``: holes that are made or opened, and fasteners that are taken out again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import numpy as np

from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import Assembly, Stack
from seqviz.records.model import HoleChoice
from seqviz.records.steps import Drill, DrillOut, Sequence
from seqviz.sequence.choose import Chooser
from seqviz.sequence.replay_types import DrillHits
from seqviz.sequence.timeline import Timeline
from seqviz.sequence.work import Done, Work, place_of

__all__ = ["drill", "drill_out", "drilled_when"]


def drilled_when(
    assembly: Assembly, sequence: Sequence, chooser: Chooser, timeline: Timeline
) -> dict[int, dict[str, tuple[int, ...]]]:
    """Return stack -> part -> the steps that drill it to its final size; the part is there then."""
    found: dict[int, dict[str, tuple[int, ...]]] = {}
    for step in sequence.steps:
        if not isinstance(step.action, Drill) or step.action.to == "pilot":
            continue
        for index in _chosen(assembly, chooser, step.action):
            for part in dict.fromkeys(assembly.stacks[index].parts):
                if timeline.is_in(part, step.work, step.number):
                    of_stack = found.setdefault(index, {})
                    of_stack[part] = (*of_stack.get(part, ()), step.number)
    return found


def drill(work: Work, action: Drill) -> Done:
    """Drill through every layer that is there; from the side up, or from the template's side."""
    shop = work.shop
    chosen = _chosen(shop.assembly, shop.chooser, action)
    for index, choice in chosen.items():
        stack = shop.assembly.stacks[index]
        for part in work.there.intersection(stack.parts):
            shop.holes.drill(index, part, final=action.to != "pilot")
        if stack.located and not shop.is_muted(stack):
            _note_hits(work, action, stack, choice)
    return Done(drilled=tuple(chosen))


def drill_out(work: Work, action: DrillOut) -> Done:
    """Take set fasteners out again."""
    shop = work.shop
    emptied = tuple(k for k in shop.chooser.stacks(action.holes) if k in shop.filled)
    for index in emptied:
        shop.filled.take(index)
        shop.finger_tight.pop(index, None)
        shop.taken_off_when_set.discard(index)
    return Done(emptied=emptied)


def _chosen(assembly: Assembly, chooser: Chooser, action: Drill) -> Mapping[int, HoleChoice | None]:
    """Return the stacks that are drilled: those named, those under the template's holes, or both."""
    passing = chooser.passes(action.narrowed)
    named: Mapping[int, HoleChoice | None] = chooser.stacks(action.holes)
    if action.template is not None:
        under = dict.fromkeys(_under(assembly, chooser, action.template))
        named = {k: named.get(k) for k in under if not action.holes or k in named}
    return {k: choice for k, choice in named.items() if k in passing}


def _under(assembly: Assembly, chooser: Chooser, template: HoleChoice) -> Iterator[int]:
    """Yield the stacks whose axis a hole of the template leads the drill along."""
    located = [stack for stack in assembly.stacks if stack.located]
    points = np.array([stack.point for stack in located]).reshape(-1, 3)
    axes = np.array([stack.axis for stack in located]).reshape(-1, 3)
    for centre, axis in _leading(assembly, chooser, template):
        away = centre - points
        aside = np.linalg.norm(away - np.einsum("ij,ij->i", away, axes)[:, None] * axes, axis=1)
        near = (np.abs(axes @ axis) >= PARALLEL) & (aside <= [s.diameter / 2 for s in located])
        # Of two walls in line the template stands on the nearer one.
        found = np.flatnonzero(near)
        if len(found):
            yield located[int(min(found, key=lambda k: np.linalg.norm(away[k])))].index


def _leading(
    assembly: Assembly, chooser: Chooser, template: HoleChoice
) -> Iterator[tuple[np.ndarray, np.ndarray]]:
    """Yield centre and axis, base frame, of the template's holes."""
    for name, hole in chooser.placed_holes(template):
        pose = assembly.placed[name].pose
        yield pose.points(hole.centre), pose.vectors(hole.axis)


def _note_hits(work: Work, action: Drill, stack: Stack, choice: HoleChoice | None) -> None:
    shop = work.shop
    layers = [layer for layer in stack.layers if layer.part in work.there]
    if not layers:
        return
    end = -_entry(work, action, stack)
    level = max(layer.top for layer in layers) if end > 0 else min(layer.bottom for layer in layers)
    among = frozenset(work.there - shop.assembly.muted)
    struck = shop.tables.behind(stack.index, end, level, among)
    if struck:
        trouble = DrillHits(
            step=work.number,
            at=place_of(work.step, choice, len(action.holes)),
            stack=stack.index,
            parts=tuple(sorted(struck, key=lambda part: (struck[part], part))),
            behind=min(struck.values()),
        )
        shop.troubles.note(trouble)


def _entry(work: Work, action: Drill, stack: Stack) -> int:
    """Return the end of the stack at which the drill goes in."""
    if action.template is not None:
        centres = [c for c, _ in _leading(work.shop.assembly, work.shop.chooser, action.template)]
        heights = _heights(stack, centres)
        if heights:
            middle = (stack.layers[0].top + stack.layers[-1].bottom) / 2
            return 1 if min(heights, key=lambda pair: pair[1])[0] > middle else -1
    return work.end_toward(stack, work.lie.up)


def _heights(stack: Stack, centres: Iterable[np.ndarray]) -> list[tuple[float, float]]:
    """Return for each centre its height along the stack's axis and its distance from it."""
    found = []
    for centre in centres:
        along = float((centre - stack.point) @ stack.axis)
        found.append((along, float(np.linalg.norm(centre - stack.point - along * stack.axis))))
    return found
