"""The words of a step: plain sentences, with counts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from seqviz.assembly.structure import Assembly, Stack
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
from seqviz.scene.fasteners import fastener_of
from seqviz.sequence.replay_types import Replay, StepState

__all__ = ["Words", "counted", "listed", "ranges", "words_of_step"]

_VERBS = {"blind rivet": ("Pull", "rivet"), "solid rivet": ("Drive", "rivet"), "bolt": ("Tighten", "bolt")}
_MOST_LINES = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A step in words: one title, then ``lines``, a sentence or two each."""

    title: str
    lines: tuple[str, ...]


def counted(number: int, thing: str) -> str:
    """Return ``1 hole``, ``24 rivets``."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def listed(names: Sequence[str]) -> str:
    """Return ``a``, ``a and b``, ``a, b and c``."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else ""


def ranges(holes: Iterable[str]) -> str:
    """Return hole names with their numbers run together: ``rail.foot 1, 4-27``; rows in the order met."""
    rows: dict[str, list[int]] = {}
    for hole in holes:
        row, _, number = hole.rpartition(".")
        rows.setdefault(row, []).append(int(number))
    return ", ".join(f"{row} {_runs(sorted(set(numbers)))}" for row, numbers in rows.items())


def words_of_step(model: Model, assembly: Assembly, replay: Replay, index: int) -> Words:
    """Return the words of the step ``replay.states[index]``."""
    state = replay.states[index]
    title, lines = _act(state.step.action, model, assembly, replay, state)
    if state.step.note:
        lines = [*lines, _sentence(state.step.note)]
    return Words(title=f"Step {state.step.number}. {title}".strip(), lines=tuple(lines[:_MOST_LINES]))


def _act(
    action: Action, model: Model, assembly: Assembly, replay: Replay, state: StepState
) -> tuple[str, list[str]]:
    match action:
        case Place():
            return _place(action, replay, state)
        case Rivet():
            return _rivet(action, model, assembly, state)
        case LeaveOpen(reason=reason):
            kept = f"Leave {counted(len(state.left_open), 'hole')} open"
            return f"{kept} for {reason}." if reason else f"{kept}.", [_names(assembly, state.left_open)]
        case OpenNoLonger(holes=choices):
            held = [
                f"{c.placed}.{c.row}" + (f" {_span(c.first, c.last)}" if c.first else "") for c in choices
            ]
            return "These holes need not stay open any longer.", [f"Holes: {', '.join(held)}."]
        case PullPins():
            return f"Take out {counted(len(state.unpinned), 'pin')}.", [_names(assembly, state.unpinned)]
        case MovePins(to=side):
            count = counted(len(state.pinned), "pin")
            where = side if side.endswith((" side", " end")) else f"{side} side"
            return f"Move {count} to the {where}.", [_names(assembly, state.pinned)]
        case TurnOver(how=how, side=side):
            return _turn(how, side)
        case Note(text=text):
            return "", [_sentence(text)]


def _place(action: Place, replay: Replay, state: StepState) -> tuple[str, list[str]]:
    names = state.placed or tuple(name.text for name in action.names)
    lines = []
    if state.pinned:
        where = f" from the {action.pins_from} side" if action.pins_from in ("upper", "lower") else ""
        many = f"Pins in {len(state.pinned)} holes" if len(state.pinned) > 1 else "A pin in 1 hole"
        lines.append(f"{many}{where}.")
    stopped = [no.part for no in replay.no_way if no.step == state.step.number]
    if stopped:
        lines.append(f"No free way in was found for {listed(stopped)}.")
    return f"Place {listed(names)}.", lines


def _rivet(action: Rivet, model: Model, assembly: Assembly, state: StepState) -> tuple[str, list[str]]:
    stacks = [assembly.stacks[index] for index in state.filled]
    if not stacks:
        return "Nothing to rivet.", []
    use = action.use.text if action.use else None
    groups: dict[tuple[str, str], list[Stack]] = {}
    for stack in stacks:
        verb, thing = _VERBS[fastener_of(model, stack, use).kind]
        groups.setdefault((verb, thing), []).append(stack)
    kinds = [f"{verb} {counted(len(group), thing)}" for (verb, thing), group in groups.items()]
    title = ", ".join([kinds[0], *(kind[0].lower() + kind[1:] for kind in kinds[1:])])
    sorts = Counter(
        (stack.size or "no size", use or stack.fastener or "", _mm(stack.grip)) for stack in stacks
    )
    each = [
        f"{_sort(size, name)}, grip {grip} mm"
        if count == len(stacks)
        else f"{count} {_sort(size, name)}, grip {grip} mm"
        for (size, name, grip), count in sorts.items()
    ]
    lines = [f"{'; '.join(each)[:1].upper()}{'; '.join(each)[1:]}."]
    lines.append(_names(assembly, state.filled))
    heads = _heads(assembly, state)
    return f"{title}.", [line for line in (*lines[:1], heads, *lines[1:]) if line]


def _sort(size: str, fastener: str) -> str:
    return f"{size} ({fastener})" if fastener else size


def _heads(assembly: Assembly, state: StepState) -> str:
    """Say where the manufactured heads are, where all of them are on one side of the bench."""
    ends = [side * float(assembly.stacks[k].axis @ state.up) for k, side in state.head_sides.items()]
    if not ends:
        return ""
    if min(ends) > 0.7:
        return "Heads on top."
    return "Heads below." if max(ends) < -0.7 else ""


def _turn(how: str, side: str | None) -> tuple[str, list[str]]:
    if side:
        return f"Turn the work: {side} up.", []
    return f"Turn the work over {how}.", []


def _names(assembly: Assembly, stacks: Sequence[int]) -> str:
    return f"Holes: {ranges(assembly.stacks[index].holes[0] for index in stacks)}." if stacks else ""


def _runs(numbers: list[int]) -> str:
    cuts = [0, *(np.flatnonzero(np.diff(numbers) != 1) + 1).tolist(), len(numbers)]
    return ", ".join(_span(numbers[a], numbers[b - 1]) for a, b in pairwise(cuts))


def _span(first: int | None, last: int | None) -> str:
    return f"{first}" if last is None or first == last else f"{first}-{last}"


def _mm(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _sentence(text: str) -> str:
    tidy = " ".join(text.split())
    tidy = tidy[:1].upper() + tidy[1:]
    return tidy if tidy.endswith((".", "!", "?", ":")) else f"{tidy}."
