"""What earlier steps left behind: pins still in, fasteners set, holes kept open."""

from __future__ import annotations

from dataclasses import dataclass, replace

from seqviz.assembly.structure import Assembly
from seqviz.records.model import Model
from seqviz.records.steps import Bolt, MovePins, Place, PutPins, Rivet, TakeOff
from seqviz.sequence.bench import side_vector
from seqviz.sequence.choose import Chooser
from seqviz.sequence.replay_types import Replay, StepState

__all__ = ["History", "history_before", "parts_before", "pieces_moved", "pin_side", "with_moved_pins"]


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What is in the holes before a step.

    Attributes
    ----------
    pins
        Stack -> +1 where the pin's body is on layer 1's side, else -1.
    heads
        Stack -> +1 where the manufactured head is on layer 1's side, else -1.
    used
        Stack -> the fastener that its step named by ``use``, where it did.
    """

    pins: dict[int, int]
    heads: dict[int, int]
    used: dict[int, str]


def history_before(assembly: Assembly, replay: Replay, index: int) -> History:
    """Return what the steps before ``replay.states[index]`` left in the holes."""
    pins: dict[int, int] = {}
    heads: dict[int, int] = {}
    used: dict[int, str] = {}
    held: dict[int, frozenset[str]] = {}
    for state in replay.states[:index]:
        for stack in (*state.pinned, *state.filled):
            held[stack] = _layers_there(assembly, replay, state, stack)
        for stack in (*state.unpinned, *state.filled):
            pins.pop(stack, None)
        for stack in state.pinned:
            pins[stack] = pin_side(assembly, state, stack)
        for stack in state.emptied:
            heads.pop(stack, None)
        heads |= {stack: state.head_sides.get(stack, 1) for stack in state.filled}
        if isinstance(state.step.action, Rivet | Bolt) and state.step.action.use:
            used |= dict.fromkeys(state.filled, state.step.action.use.text)
    now = replay.states[index]
    gone = {
        stack
        for stack, parts in held.items()
        if parts
        and parts.isdisjoint(_layers_there(assembly, replay, now, stack) | {*now.placed, *now.taken_off})
    }
    return History(
        pins={stack: side for stack, side in pins.items() if stack not in gone},
        heads={stack: side for stack, side in heads.items() if stack not in gone},
        used=used,
    )


def _layers_there(assembly: Assembly, replay: Replay, state: StepState, stack: int) -> frozenset[str]:
    """Return the layers of ``stack`` that are in the work of ``state`` after it."""
    parts = assembly.stacks[stack].parts
    return frozenset(part for part in parts if replay.there(part, state.step.number, state.work))


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
    """Return for each part that ``state`` places or takes off what it moves as: itself, its sub-assembly."""
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
