"""What is drawn at the holes that a step is about: its marks, on the ends of their stacks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

import numpy as np

from seqviz.assembly.structure import Assembly, Stack
from seqviz.geometry.pose import Array, frozen
from seqviz.geometry.separation import TOLERANCE
from seqviz.records.steps import Bolt, OpenNoLonger, Rivet
from seqviz.scene.history import pin_side
from seqviz.scene.picture import End, Mark, MarkKind
from seqviz.sequence.replay_types import Replay, StepState

__all__ = ["end_of", "marks_of"]

_PARALLEL = 0.999
_CLOSE = 3.0
"""mm: how far off the work a template may stand."""


def marks_of(
    assembly: Assembly, replay: Replay, state: StepState, drawn: Mapping[str, Array]
) -> Iterator[Mark]:
    """Yield the marks of the holes that ``state`` is about; ``drawn``: placed part -> its shift, mm."""
    leading = _leading(assembly, drawn)
    for index, (kind, side) in _about(assembly, replay, state).items():
        stack = assembly.stacks[index]
        ends = _ends(stack, drawn, side, leading)
        if ends is not None:
            yield Mark(stack=index, kind=kind, diameter=stack.diameter, ends=ends)


def end_of(stack: Stack, part: str, side: int) -> End:
    """Return where the axis leaves a layer of ``stack`` that is ``part``'s, on ``side`` (+1: layer 1's)."""
    own = [layer for layer in stack.layers if layer.part == part]
    level = own[0].top if side > 0 else own[-1].bottom
    outward = stack.axis if side > 0 else frozen(-stack.axis)
    return End(point=frozen(stack.point + stack.axis * level), outward=outward, part=part)


def _leading(assembly: Assembly, drawn: Iterable[str]) -> tuple[tuple[End, End], ...]:
    """Return both ends of every hole of the templates that are drawn, in their places."""
    found = []
    for placed in (assembly.placed[name] for name in drawn if name in assembly.placed):
        for hole in placed.part.holes if placed.part.tool and placed.located else ():
            centre, axis = placed.pose.points(hole.centre), placed.pose.vectors(hole.axis)
            half = placed.part.thickness_at(hole) / 2
            up, down = (
                End(point=centre + way * half, outward=frozen(way), part=placed.name) for way in (axis, -axis)
            )
            found.append((up, down))
    return tuple(found)


def _on_template(end: End, diameter: float, leading: Iterable[tuple[End, End]]) -> End:
    """Return the outer end of the template's hole that lies on ``end``, else ``end``."""
    for far, near in (pair for ends in leading for pair in (ends, ends[::-1])):
        way = near.point - end.point
        along = float(way @ end.outward)
        aside = float(np.linalg.norm(way - along * end.outward))
        straight = float(far.outward @ end.outward) > _PARALLEL
        if straight and aside <= diameter / 2 and -TOLERANCE <= along <= _CLOSE:
            return replace(far, outward=end.outward)
    return end


def _ends(
    stack: Stack, drawn: Mapping[str, Array], side: int, leading: Iterable[tuple[End, End]]
) -> tuple[End, End] | None:
    """Return the stack's end on ``side`` (+1: layer 1's) and the other, of the parts drawn.

    A template that lies on an end has it on its own face. None where no layer is drawn, or where the stack
    has no place.
    """
    parts = [part for part in stack.parts if part in drawn]
    if not parts or not stack.located:
        return None
    first, last = end_of(stack, parts[0], 1), end_of(stack, parts[-1], -1)
    ends = [_on_template(end, stack.diameter, leading) for end in (first, last)][::side]
    near, far = (replace(end, point=frozen(end.point + drawn[end.part])) for end in ends)
    return near, far


def _about(assembly: Assembly, replay: Replay, state: StepState) -> dict[int, tuple[MarkKind, int]]:
    """Return what the step is about: stack -> kind of mark, and the side worked from (+1: layer 1's)."""
    found: dict[int, tuple[MarkKind, int]] = {}
    number, stacks = state.step.number, assembly.stacks

    def seen_from_above(kind: MarkKind, indices: Iterable[int]) -> None:
        for index in indices:
            found[index] = kind, -1 if float(stacks[index].axis @ state.up) < -1e-6 else 1

    if isinstance(state.step.action, Rivet | Bolt):
        kept = [
            o.stack for o in replay.open_since if o.step < number and (o.until is None or o.until > number)
        ]
        seen_from_above("still open", kept)
    if isinstance(state.step.action, OpenNoLonger):
        seen_from_above("open again", [o.stack for o in replay.open_since if o.until == number])
    seen_from_above("leave open", state.left_open)
    seen_from_above("pin out", state.unpinned)
    found |= {index: ("pin in", pin_side(assembly, state, index)) for index in state.pinned}
    seen_from_above("drill", state.drilled)
    seen_from_above("drill out", state.emptied)
    seen_from_above("set", (*state.tightened, *state.filled))
    found |= {index: ("set", state.head_sides[index]) for index in state.filled if index in state.head_sides}
    return found
