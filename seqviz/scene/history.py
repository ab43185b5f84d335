"""What earlier steps left behind: pins still in, fasteners set, holes kept open."""

from __future__ import annotations

from dataclasses import replace

from seqviz.assembly.structure import Assembly
from seqviz.records.model import Model
from seqviz.records.steps import Bolt, MovePins, Place, PutPins, Rivet, TakeOff
from seqviz.sequence.bench import side_vector
from seqviz.sequence.choose import Chooser
from seqviz.sequence.replay_types import Replay, StepState

__all__ = ["InHoles", "parts_before", "pieces_moved", "pin_side", "with_moved_pins"]


class InHoles:
    """What is in the holes while the steps go by, one after the other.

    Attributes
    ----------
    pins
        Stack -> +1 where the pin's body is on layer 1's side, else -1.
    heads
        Stack -> +1 where the manufactured head is on layer 1's side, else -1.
    used
        Stack -> the fastener that its step named by ``use``, where it did.
    held
        Stack -> the parts that the last pin or fastener put into it went through.
    """

    def __init__(self, assembly: Assembly, replay: Replay) -> None:
        self._assembly = assembly
        self._replay = replay
        self.pins: dict[int, int] = {}
        self.heads: dict[int, int] = {}
        self.used: dict[int, str] = {}
        self.held: dict[int, frozenset[str]] = {}

    def go(self, state: StepState) -> None:
        """Go one step on."""
        for stack in (*state.pinned, *state.filled):
            self.held[stack] = self.layers_there(state, stack, state.work)
        for stack in (*state.unpinned, *state.filled):
            self.pins.pop(stack, None)
        for stack in state.pinned:
            self.pins[stack] = pin_side(self._assembly, state, stack)
        for stack in state.emptied:
            self.heads.pop(stack, None)
        action = state.step.action
        use = action.use if isinstance(action, Rivet | Bolt) else None
        for stack in state.filled:
            self.heads[stack] = state.head_sides.get(stack, 1)
            self.used.pop(stack, None)
            if use is not None:
                self.used[stack] = use.text

    def layers_there(self, state: StepState, stack: int, work: str | None) -> frozenset[str]:
        """Return the layers of ``stack`` that are in ``work`` after ``state``."""
        there, number = self._replay.there, state.step.number
        parts = self._assembly.stacks[stack].parts
        return frozenset(part for part in parts if there(part, number, work))

    def is_held(self, stack: int, there: frozenset[str]) -> bool:
        """Say whether what is in ``stack`` is held by one of ``there``, or went through nothing at all."""
        held = self.held.get(stack)
        return not held or not held.isdisjoint(there)


def with_moved_pins(model: Model, assembly: Assembly, replay: Replay) -> Replay:
    """Return the replay with the pins that a ``move pins`` step moves told as pinned by it."""
    if not any(isinstance(state.step.action, MovePins) for state in replay.states):
        return replay
    chooser = Chooser(model, assembly)
    states: list[StepState] = []
    pins: set[int] = set()
    for state in replay.states:
        if isinstance(state.step.action, MovePins):
            moved = [stack for stack in chooser.stacks(state.step.action.holes) if stack in pins]
            states.append(replace(state, pinned=tuple(moved)))
        else:
            states.append(state)
        pins = (pins | set(state.pinned)) - {*state.unpinned, *state.filled}
    return replace(replay, states=tuple(states))


def parts_before(assembly: Assembly, replay: Replay, index: int) -> tuple[str, ...]:
    """Return the parts to draw that are there before ``replay.states[index]``, in the structure's order."""
    state = replay.states[index]
    bit = state.step.number
    return tuple(
        name
        for name, part in assembly.placed.items()
        if part.located and name not in state.placed and replay.there(name, bit, state.work)
    )


def pieces_moved(replay: Replay, state: StepState) -> dict[str, str]:
    """Return for each part that ``state`` places or takes off what moves: itself, or its sub-assembly."""
    action = state.step.action
    names = [name.text for name in action.names] if isinstance(action, Place | TakeOff) else []
    return {
        part: next((name for name in names if name in replay.where.get(part, {})), part)
        for part in (*state.placed, *state.taken_off)
    }


def pin_side(assembly: Assembly, state: StepState, stack: int) -> int:
    """Return the side of ``stack`` from which ``state`` puts its pin in: +1 is layer 1's."""
    action = state.step.action
    named = action.pins_from if isinstance(action, Place | PutPins) else None
    named = action.to if isinstance(action, MovePins) else named
    side = side_vector(assembly, named) if named else state.up
    return -1 if float(assembly.stacks[stack].axis @ side) < -1e-6 else 1
