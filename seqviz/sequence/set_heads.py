"""The fasteners that are set at the end of a sequence, with their heads and tails as solids."""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.structure import Assembly
from seqviz.geometry.access import Cylinder
from seqviz.records.model import Model
from seqviz.records.steps import Bolt, Rivet
from seqviz.sequence.fixings import FixingTable
from seqviz.sequence.hardware import fastener_in
from seqviz.sequence.replay_types import Replay
from seqviz.sequence.tables import Fixing

__all__ = ["set_heads"]


def set_heads(
    model: Model, assembly: Assembly, replay: Replay
) -> Iterator[tuple[Fixing, tuple[Cylinder, ...]]]:
    """Yield each fastener set at the end in a stack that has a place, with what stands out; base frame."""
    table = FixingTable(assembly, lambda k, name: fastener_in(model, assembly.stacks[k], name))
    for fixing in _set_at_the_end(assembly, replay):
        stack = assembly.stacks[fixing.stack]
        if stack.located and assembly.muted.isdisjoint(stack.parts):
            yield fixing, tuple(end for end in table.standing_out(fixing) if end.length > 0.0)


def _set_at_the_end(assembly: Assembly, replay: Replay) -> Iterator[Fixing]:
    for state in replay.states:
        action = state.step.action
        use = action.use if isinstance(action, (Rivet, Bolt)) else None
        for index in state.filled:
            if replay.filled_at.get(index) == state.step.number:
                yield Fixing(
                    stack=index,
                    kind="fastener",
                    end=state.head_sides.get(index, 1),
                    fastener=use.text if use else assembly.stacks[index].fastener,
                )
