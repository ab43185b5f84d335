"""What is drawn at the holes: marks of this step, and the heads, tails and pins that earlier steps left."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from seqviz.assembly.structure import Assembly, Stack
from seqviz.geometry.pose import Array, frozen
from seqviz.records.model import Model
from seqviz.records.steps import Bolt, OpenNoLonger, Rivet
from seqviz.scene.fasteners import fastener_of
from seqviz.scene.history import History, pin_side
from seqviz.scene.picture import End, Fitted, Mark, MarkKind
from seqviz.sequence.replay_types import Replay, StepState
from seqviz.trade.heads import head_size, tail_size

__all__ = ["fitted_before", "marks_of"]

# A pin's body as drawn, times the hole's diameter: wide and tall enough to be seen, project choice.
_PIN_WIDTH, _PIN_HEIGHT = 1.7, 4.0


def fitted_before(
    model: Model, assembly: Assembly, history: History, there: Mapping[str, Array], busy: frozenset[int]
) -> Iterator[Fitted]:
    """Yield what stands on the holes of the parts ``there``; stacks with a mark, ``busy``, are left out.

    ``there``: placed part -> its shift, mm.
    """
    for index, side in history.heads.items():
        stack = assembly.stacks[index]
        ends = _ends(stack, there, side)
        if ends is not None and index not in busy:
            one = fastener_of(model, stack, history.used.get(index))
            sizes = (head_size(one.kind, one.diameter), tail_size(one.kind, one.diameter))
            for end, size in zip(ends, sizes, strict=True):
                yield _on(end, index, (size.diameter, size.height), pin=False)
    for index, side in history.pins.items():
        stack = assembly.stacks[index]
        ends = _ends(stack, there, side)
        if ends is not None and index not in busy:
            yield _on(ends[0], index, (_PIN_WIDTH * stack.diameter, _PIN_HEIGHT * stack.diameter), pin=True)


def marks_of(
    assembly: Assembly, replay: Replay, state: StepState, drawn: Mapping[str, Array]
) -> Iterator[Mark]:
    """Yield the marks of the holes that ``state`` is about; ``drawn``: placed part -> its shift, mm."""
    for index, (kind, side) in _about(assembly, replay, state).items():
        stack = assembly.stacks[index]
        ends = _ends(stack, drawn, side)
        if ends is not None:
            yield Mark(stack=index, kind=kind, diameter=stack.diameter, ends=ends)


def _on(end: End, stack: int, size: tuple[float, float], *, pin: bool) -> Fitted:
    diameter, height = size
    return Fitted(
        stack=stack, point=end.point, outward=end.outward, diameter=diameter, height=height, pin=pin
    )


def _ends(stack: Stack, drawn: Mapping[str, Array], side: int) -> tuple[End, End] | None:
    """Return the stack's end on ``side`` (+1: layer 1's) and the other, of the parts drawn.

    None where no layer is drawn, or where the stack has no place.
    """
    layers = [layer for layer in stack.layers if layer.part in drawn]
    if not layers or not stack.located:
        return None
    first = End(
        point=frozen(stack.point + stack.axis * layers[0].top + drawn[layers[0].part]),
        outward=stack.axis,
        part=layers[0].part,
    )
    last = End(
        point=frozen(stack.point + stack.axis * layers[-1].bottom + drawn[layers[-1].part]),
        outward=frozen(-stack.axis),
        part=layers[-1].part,
    )
    return (first, last) if side > 0 else (last, first)


def _about(assembly: Assembly, replay: Replay, state: StepState) -> dict[int, tuple[MarkKind, int]]:
    """Return what the step is about: stack -> kind of mark, and the side worked from (+1: layer 1's)."""
    up = {stack.index: -1 if float(stack.axis @ state.up) < -1e-6 else 1 for stack in assembly.stacks}
    found: dict[int, tuple[MarkKind, int]] = {}
    number = state.step.number
    if isinstance(state.step.action, Rivet | Bolt):
        kept = [
            o.stack for o in replay.open_since if o.step < number and (o.until is None or o.until > number)
        ]
        found |= {index: ("still open", up[index]) for index in kept}
    if isinstance(state.step.action, OpenNoLonger):
        found |= {o.stack: ("open again", up[o.stack]) for o in replay.open_since if o.until == number}
    found |= {index: ("leave open", up[index]) for index in state.left_open}
    found |= {index: ("pin out", up[index]) for index in state.unpinned}
    found |= {index: ("pin in", pin_side(assembly, state, index)) for index in state.pinned}
    found |= {index: ("drill", up[index]) for index in state.drilled}
    found |= {index: ("drill out", up[index]) for index in state.emptied}
    found |= {index: ("set", up[index]) for index in state.tightened}
    found |= {index: ("set", state.head_sides.get(index, up[index])) for index in state.filled}
    return found
