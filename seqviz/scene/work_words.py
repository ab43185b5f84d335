"""The words of a step that drills, prepares, checks, or takes something off."""

from __future__ import annotations

from seqviz.assembly.structure import Assembly
from seqviz.records.model import Model
from seqviz.records.steps import Drill, HoldPoint, Prepare, TakeOff
from seqviz.scene.fasteners import fastener_of
from seqviz.scene.phrases import counted, listed, ranges, sentence
from seqviz.sequence.replay_types import NoWay, NoWayOut, Replay, StepState
from seqviz.trade.fasteners import BOLT
from seqviz.units import length_text

__all__ = [
    "blocked_words",
    "check_words",
    "drill_out_words",
    "drill_words",
    "prepare_words",
    "prepared_holes",
    "take_off_words",
]


def take_off_words(action: TakeOff, replay: Replay, state: StepState) -> list[str]:
    """Return ``Take off strap.`` and what is in its way."""
    names = listed([name.text for name in action.names])
    stopped = [no for no in replay.no_way_out if no.step == state.step.number]
    return [f"Take off {names}.", *(blocked_words(no, "out") for no in stopped)]


def blocked_words(no: NoWay | NoWayOut, sense: str) -> str:
    """Return why a part has no way ``in`` or ``out``."""
    if no.cause == "pins":
        return f"No way {sense} for {no.part} while pins are in {ranges(no.blockers)}."
    if no.cause == "bench" or not no.blockers:
        return f"No way {sense} for {no.part}: the bench is in the way."
    stand = "is" if len(no.blockers) == 1 else "are"
    return f"No way {sense} for {no.part}: {listed(no.blockers)} {stand} in the way."


def drill_words(action: Drill, model: Model, assembly: Assembly, state: StepState) -> list[str]:
    """Return ``Drill 5 holes to 3.3 mm.`` and through what."""
    count = len(state.drilled)
    sizes = sorted({assembly.stacks[k].diameter for k in state.drilled})
    to = f" to {listed([length_text(size, model.units) for size in sizes])}" if sizes else ""
    if action.to == "pilot":
        title = f"Drill {counted(count, 'pilot hole')}."
    else:
        title = f"{'Open' if action.to == 'final' else 'Drill'} {counted(count, 'hole')}{to}."
    if action.template is None:
        return [title]
    return [title, f"Through {action.template.placed}.{action.template.row}."]


def drill_out_words(model: Model, assembly: Assembly, state: StepState) -> list[str]:
    """Return ``Drill out 3 rivets.``, of bolts ``Take out 3 bolts.``."""
    kinds = {fastener_of(model, assembly.stacks[k]).kind == BOLT for k in state.emptied}
    if kinds == {True}:
        return [f"Take out {counted(len(state.emptied), 'bolt')}."]
    return [f"Drill out {counted(len(state.emptied), 'fastener' if len(kinds) > 1 else 'rivet')}."]


def prepare_words(action: Prepare, state: StepState) -> list[str]:
    """Return ``Deburr rail and strap.``, or that their holes are."""
    names, verb = [name.text for name in action.names], action.what.capitalize()
    if names:
        return [f"{verb} {listed(names)}."]
    return [f"{verb} the holes of {listed(list(state.prepared))}."]


def prepared_holes(action: Prepare) -> str:
    """Return ``Holes: rail.foot, strap.eye 1-4.``, or nothing where parts are prepared whole."""
    told = []
    for choice in action.holes:
        ends = dict.fromkeys(str(end) for end in (choice.first, choice.last) if end is not None)
        told.append(" ".join([f"{choice.placed}.{choice.row}", *(["-".join(ends)] if ends else [])]))
    return f"Holes: {', '.join(told)}." if told else ""


def check_words(action: HoldPoint) -> list[str]:
    """Return ``Check: square by the diagonals.``, who does it, and what must come out."""
    title = f"{action.what.capitalize()}: {action.text.strip()}"
    lines = ["Work stops here until it is done."]
    if action.who:
        lines.append(sentence(f"By {action.who}"))
    if action.value:
        lines.append(sentence(f"Must be: {action.value}"))
    return [sentence(title), *lines]
