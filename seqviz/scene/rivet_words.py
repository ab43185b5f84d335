"""The words of a step that sets fasteners: how many, of which size, for which grip, heads where."""

from __future__ import annotations

from collections import Counter

from seqviz.assembly.structure import Assembly, Stack
from seqviz.records.model import Model
from seqviz.records.steps import Bolt, Rivet
from seqviz.scene.fasteners import fastener_of
from seqviz.scene.phrases import counted
from seqviz.sequence.replay_types import StepState
from seqviz.units import length_text

__all__ = ["rivet_words"]

_VERBS = {"blind rivet": ("Pull", "rivet"), "solid rivet": ("Drive", "rivet"), "bolt": ("Tighten", "bolt")}
_ALONG_UP = 0.7  # cosine from which a head is on top, or below


def rivet_words(action: Rivet | Bolt, model: Model, assembly: Assembly, state: StepState) -> tuple[str, str]:
    """Return title and line: ``Pull 24 rivets: small (pull 3.2).`` and ``Grip 2.4 mm. Heads on top.``."""
    stacks = [assembly.stacks[index] for index in (*state.filled, *state.tightened)]
    if not stacks:
        return f"Nothing to {'bolt' if isinstance(action, Bolt) else 'rivet'}.", ""
    use, units = action.use.text if action.use else None, model.units
    acts = Counter(_VERBS[fastener_of(model, stack, use).kind] for stack in stacks)
    told = [f"{verb} {counted(count, thing)}" for (verb, thing), count in acts.items()]
    title = ", ".join([told[0], *(one[0].lower() + one[1:] for one in told[1:])])
    if state.finger_tight:
        title = f"Run on {counted(len(stacks), 'bolt')}, finger tight"
    sorts = {_sort(stack, use, units) for stack in stacks}
    if len(sorts) == 1:
        return f"{title}: {sorts.pop()}.", f"{_grips(stacks, units)} {_heads(assembly, state)}".strip()
    return f"{title}.", f"{_sorts(stacks, use, units)} {_heads(assembly, state)}".strip()


def _sort(stack: Stack, use: str | None, units: str) -> str:
    fastener = use or stack.fastener
    size = stack.size or f"hole {length_text(stack.diameter, units)}"
    return f"{size} ({fastener})" if fastener else size


def _grips(stacks: list[Stack], units: str) -> str:
    grips = Counter(round(stack.grip + 1e-7, 3) for stack in stacks)
    if len(grips) == 1:
        return f"Grip {length_text(stacks[0].grip, units)}."
    told = [f"{length_text(grip, units)} in {count}" for grip, count in sorted(grips.items())]
    return f"Grip {', '.join(told)}."


def _sorts(stacks: list[Stack], use: str | None, units: str) -> str:
    sorts = Counter((_sort(stack, use, units), round(stack.grip + 1e-7, 3)) for stack in stacks)
    told = [f"{count} {sort}, grip {length_text(grip, units)}" for (sort, grip), count in sorts.items()]
    return f"{'; '.join(told)}."


def _heads(assembly: Assembly, state: StepState) -> str:
    """Say where the manufactured heads are, where all of them are on one side of the bench."""
    ends = [side * float(assembly.stacks[k].axis @ state.up) for k, side in state.head_sides.items()]
    if ends and min(ends) > _ALONG_UP:
        return "Heads on top."
    return "Heads below." if ends and max(ends) < -_ALONG_UP else ""
