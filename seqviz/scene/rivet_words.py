"""The words of a step that sets fasteners: how many, of which size, for which grip, heads where."""

from __future__ import annotations

from collections import Counter

from seqviz.assembly.structure import Assembly, Stack
from seqviz.records.model import Model
from seqviz.records.steps import Bolt, Rivet
from seqviz.scene.fasteners import choice_in, fastener_of
from seqviz.scene.phrases import counted
from seqviz.sequence.replay_types import StepState
from seqviz.trade.choice_words import named_take, take_words
from seqviz.units import length_text

__all__ = ["rivet_words"]

_ACTS = {
    "blind rivet": ("Pull", "blind rivet"),
    "solid rivet": ("Drive", "solid rivet"),
    "bolt": ("Tighten", "bolt"),
}
_ALONG_UP = 0.7  # cosine from which a head is on top, or below


def rivet_words(action: Rivet | Bolt, model: Model, assembly: Assembly, state: StepState) -> tuple[str, str]:
    """Return title and line: ``Pull 24 blind rivets.`` and ``With pull 3.2 length 6, grip 2.4 mm.``."""
    stacks = [assembly.stacks[index] for index in (*state.filled, *state.tightened)]
    if not stacks:
        return f"Nothing to {'bolt' if isinstance(action, Bolt) else 'rivet'}.", ""
    use = action.use.text if action.use else None
    acts = Counter(_ACTS[fastener_of(model, stack, use).kind] for stack in stacks)
    told = [f"{verb} {counted(count, thing)}" for (verb, thing), count in acts.items()]
    title = ", ".join([told[0], *(one[0].lower() + one[1:] for one in told[1:])])
    if state.finger_tight:
        title = f"Run on {counted(len(stacks), 'bolt')}, finger tight"
    return f"{title}.", f"{_taken(model, stacks, use)} {_heads(assembly, state)}".strip()


def _taken(model: Model, stacks: list[Stack], use: str | None) -> str:
    """Say what to take, of each in which lengths, and for which grips."""
    sorts: dict[str, dict[str, Counter[float]]] = {}
    for stack in stacks:
        name = use or stack.fastener or f"what fits a hole of {length_text(stack.diameter, model.units)}"
        choice = choice_in(model, stack, use)
        take = take_words(choice, model.units) if choice else ""
        grips = sorts.setdefault(name, {}).setdefault(take, Counter())
        grips[round(stack.grip + 1e-7, 3)] += 1
    alone = len(sorts) == 1
    return " ".join(_sort(name, takes, model.units, alone=alone) for name, takes in sorts.items())


def _sort(name: str, takes: dict[str, Counter[float]], units: str, *, alone: bool) -> str:
    """Return ``With pull 3.2 length 6, grip 1.6 mm.``, or each length with its number and its grips."""
    told = []
    for take, grips in sorted(takes.items(), key=lambda pair: min(pair[1])):
        many = "" if alone and len(takes) == 1 else f" in {grips.total()}"
        told.append((take, f"{many}, {_grips(grips, units)}"))
    if len(told) == 1:
        ((take, rest),) = told
        return f"With {named_take(name, take, ', ' if take.startswith('no ') else ' ')}{rest}."
    return f"With {name}:{';'.join((f' {take}' if take else '') + rest for take, rest in told)}."


def _grips(grips: Counter[float], units: str) -> str:
    if len(grips) == 1:
        return f"grip {length_text(next(iter(grips)), units)}"
    told = [f"{length_text(grip, units)} in {count}" for grip, count in sorted(grips.items())]
    return f"grip {', '.join(told)}"


def _heads(assembly: Assembly, state: StepState) -> str:
    """Say where the manufactured heads are, where all of them are on one side of the bench."""
    ends = [side * float(assembly.stacks[k].axis @ state.up) for k, side in state.head_sides.items()]
    if ends and min(ends) > _ALONG_UP:
        return "Heads on top."
    return "Heads below." if ends and max(ends) < -_ALONG_UP else ""
