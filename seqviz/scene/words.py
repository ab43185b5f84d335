"""The words of a step: plain sentences, with counts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seqviz.assembly.structure import Assembly
from seqviz.records.model import Model
from seqviz.records.steps import (
    Action,
    Bolt,
    Drill,
    DrillOut,
    HoldPoint,
    LeaveOpen,
    MovePins,
    Note,
    OpenNoLonger,
    Place,
    Prepare,
    PullPins,
    PutPins,
    Rivet,
    TakeOff,
    TurnOver,
)
from seqviz.scene.history import pieces_moved
from seqviz.scene.phrases import counted, listed, ranges, sentence
from seqviz.scene.rivet_words import rivet_words
from seqviz.scene.tool_words import tool_words
from seqviz.scene.work_words import (
    blocked_words,
    check_words,
    drill_out_words,
    drill_words,
    prepare_words,
    prepared_holes,
    take_off_words,
)
from seqviz.sequence.replay_types import Replay, StepState

__all__ = ["Words", "words_of_step"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A step in words.

    Attributes
    ----------
    title
        ``Step 4. Place rail left.``
    lines
        More about it, a sentence or two each.
    holes
        ``Holes: rail left.foot 1, 4-27.``, or nothing; a picture that has no room leaves it out.
    """

    title: str
    lines: tuple[str, ...]
    holes: str = ""


def words_of_step(model: Model, assembly: Assembly, replay: Replay, index: int) -> Words:
    """Return the words of the step ``replay.states[index]``."""
    state = replay.states[index]
    action = state.step.action
    if isinstance(action, Rivet | Bolt):
        title, *lines = rivet_words(action, model, assembly, state)
    elif isinstance(action, Drill):
        title, *lines = drill_words(action, model, assembly, state)
    elif isinstance(action, DrillOut):
        title, *lines = drill_out_words(model, assembly, state)
    else:
        title, *lines = _told(action, replay, state)
    lines.append(tool_words(assembly, state))
    if state.work is not None:
        lines.insert(0, f"Made apart: {state.work}.")
    lines.append(_not_drawn(assembly, state))
    if state.step.note:
        lines.append(sentence(state.step.note))
    return Words(
        title=f"Step {state.step.number}. {title}".strip(),
        lines=tuple(line for line in lines if line),
        holes=prepared_holes(action)
        if isinstance(action, Prepare)
        else _holes(assembly, _stacks(action, replay, state)),
    )


def _told(action: Action, replay: Replay, state: StepState) -> list[str]:
    """Return the title, then more lines."""
    match action:
        case Place():
            return _place(action, replay, state)
        case LeaveOpen(reason=reason):
            kept = f"Leave {counted(len(state.left_open), 'hole')} open"
            return [f"{kept} for {reason}." if reason else f"{kept}."]
        case OpenNoLonger():
            count = len(_stacks(action, replay, state))
            return [f"{counted(count, 'hole')} {'needs' if count == 1 else 'need'} not stay open any longer."]
        case PullPins():
            return [f"Take out {counted(len(state.unpinned), 'pin')}."]
        case MovePins(to=side):
            return [f"Move {counted(len(state.pinned), 'pin')} to the {_side(side)}."]
        case TurnOver():
            return _turn(action)
        case TakeOff():
            return take_off_words(action, replay, state)
        case PutPins():
            where = f", from the {action.pins_from} side" if action.pins_from else ""
            return [f"Put pins in {counted(len(state.pinned), 'hole')}{where}."]
        case Prepare():
            return prepare_words(action, state)
        case HoldPoint():
            return check_words(action)
        case Note(text=text):
            return ["", sentence(text)]
    return [""]


def _place(action: Place, replay: Replay, state: StepState) -> list[str]:
    piece_of = pieces_moved(replay, state)
    names = dict.fromkeys(piece_of[part] for part in state.placed)
    lines = [f"Place {listed(list(names) or [name.text for name in action.names])}."]
    if state.pinned:
        many = f"Pins in {len(state.pinned)} holes" if len(state.pinned) > 1 else "A pin in 1 hole"
        lines.append(f"{many}, from the {action.pins_from} side." if action.pins_from else f"{many}.")
    for piece in names:
        members = [part for part in state.placed if piece_of[part] == piece]
        if members != [piece]:
            lines.append(f"{piece} goes in as one piece: {listed(members)}.")
    lines += [blocked_words(no, "in") for no in replay.no_way if no.step == state.step.number]
    return lines


def _not_drawn(assembly: Assembly, state: StepState) -> str:
    """Say which of the parts placed are not in the picture, and why."""
    bare = [name for name in state.placed if name in assembly.placed and not assembly.placed[name].located]
    return f"No dimensions yet, so not drawn: {listed(bare)}." if bare else ""


def _turn(action: TurnOver) -> list[str]:
    title = f"Turn the work: {_side(action.side)} up." if action.side else f"Turn the work over {action.how}."
    lines = [f"It lies on {action.bench} then."] if action.bench in ("trestles", "blocks") else []
    if action.over_the_edge:
        names = [name.text for name in action.over_the_edge]
        stand = "stands" if len(names) == 1 else "stand"
        lines.append(f"{listed(names)} {stand} out over the bench's edge.")
    return [title, *lines]


def _side(name: str) -> str:
    """Return ``upper side``, ``left side``, ``aft end``."""
    if name.endswith((" side", " end")):
        return name
    return f"{name} end" if name in ("forward", "aft") else f"{name} side"


def _stacks(action: Action, replay: Replay, state: StepState) -> Sequence[int]:
    """Return the hole stacks that the words name; not the pins of a part just placed: too many names."""
    match action:
        case OpenNoLonger():
            return [held.stack for held in replay.open_since if held.until == state.step.number]
        case Rivet() | Bolt():
            return (*state.filled, *state.tightened)
        case Drill():
            return state.drilled
        case DrillOut():
            return state.emptied
        case PutPins():
            return state.pinned
        case LeaveOpen():
            return state.left_open
        case PullPins():
            return state.unpinned
        case MovePins():
            return state.pinned
    return ()


def _holes(assembly: Assembly, stacks: Sequence[int]) -> str:
    return f"Holes: {ranges(assembly.stacks[index].holes[0] for index in stacks)}." if stacks else ""
