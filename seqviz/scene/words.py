"""The words of a step: plain sentences, with counts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seqviz.assembly.structure import Assembly
from seqviz.records.model import Model
from seqviz.records.steps import (
    Action,
    LeaveOpen,
    MovePins,
    Note,
    OpenNoLonger,
    Place,
    PullPins,
    Rivet,
    TurnOver,
)
from seqviz.scene.phrases import counted, listed, ranges, sentence
from seqviz.scene.rivet_words import rivet_words
from seqviz.sequence.replay_types import NoWay, Replay, StepState

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
    if isinstance(action, Rivet):
        title, *lines = rivet_words(action, model, assembly, state)
    else:
        title, *lines = _told(action, replay, state)
    lines.append(_not_drawn(assembly, state))
    if state.step.note:
        lines.append(sentence(state.step.note))
    return Words(
        title=f"Step {state.step.number}. {title}".strip(),
        lines=tuple(line for line in lines if line),
        holes=_holes(assembly, _stacks(action, replay, state)),
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
            where = side if side.endswith((" side", " end")) else f"{side} side"
            return [f"Move {counted(len(state.pinned), 'pin')} to the {where}."]
        case TurnOver(how=how, side=side):
            return [f"Turn the work: {side} up." if side else f"Turn the work over {how}."]
        case Note(text=text):
            return ["", sentence(text)]
    return [""]


def _place(action: Place, replay: Replay, state: StepState) -> list[str]:
    names = state.placed or tuple(name.text for name in action.names)
    lines = [f"Place {listed(names)}."]
    if state.pinned:
        many = f"Pins in {len(state.pinned)} holes" if len(state.pinned) > 1 else "A pin in 1 hole"
        lines.append(f"{many}, from the {action.pins_from} side." if action.pins_from else f"{many}.")
    lines += [_no_way(no) for no in replay.no_way if no.step == state.step.number]
    return lines


def _not_drawn(assembly: Assembly, state: StepState) -> str:
    """Say which of the parts placed are not in the picture, and why."""
    bare = [name for name in state.placed if name in assembly.placed and not assembly.placed[name].located]
    return f"No dimensions yet, so not drawn: {listed(bare)}." if bare else ""


def _no_way(no: NoWay) -> str:
    if no.cause == "pins":
        return f"No way in for {no.part} while pins are in {ranges(no.blockers)}."
    if no.cause == "bench" or not no.blockers:
        return f"No way in for {no.part}: the bench is in the way."
    stand = "is" if len(no.blockers) == 1 else "are"
    return f"No way in for {no.part}: {listed(no.blockers)} {stand} in the way."


def _stacks(action: Action, replay: Replay, state: StepState) -> Sequence[int]:
    """Return the hole stacks that the words name; not the pins of a part just placed: too many names."""
    match action:
        case OpenNoLonger():
            return [held.stack for held in replay.open_since if held.until == state.step.number]
        case Rivet():
            return state.filled
        case LeaveOpen():
            return state.left_open
        case PullPins():
            return state.unpinned
        case MovePins():
            return state.pinned
    return ()


def _holes(assembly: Assembly, stacks: Sequence[int]) -> str:
    return f"Holes: {ranges(assembly.stacks[index].holes[0] for index in stacks)}." if stacks else ""
