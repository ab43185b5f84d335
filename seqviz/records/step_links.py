"""Names within a sequence: each is looked up in the model; a step with a wrong one is left out."""

from __future__ import annotations

from dataclasses import replace

from seqviz.records.links import known_linked
from seqviz.records.model import Name
from seqviz.records.names import Found, Names
from seqviz.records.reading import Reading
from seqviz.records.steps import (
    HoleFilter,
    LeaveOpen,
    MovePins,
    OpenNoLonger,
    Place,
    PullPins,
    Rivet,
    Sequence,
    Step,
)

__all__ = ["link_sequence"]


def link_sequence(reading: Reading, sequence: Sequence, names: Names) -> Sequence:
    """Return the sequence without the steps that name what is not there; their numbers are in ``broken``."""
    good = [step for step in sequence.steps if Found.WRONG not in _looked_up(reading, step, names)]
    wrong = {step.number for step in sequence.steps} - {step.number for step in good}
    return replace(
        sequence,
        steps=tuple(good),
        known=known_linked(reading, sequence.known, names),
        broken=tuple(sorted({*sequence.broken, *wrong})),
    )


def _looked_up(reading: Reading, step: Step, names: Names) -> list[Found]:
    action = step.action
    if isinstance(action, Place):
        found = [names.placed.look_up(reading, name) for name in action.names]
        return found + names.all_holes(reading, action.pins.holes if action.pins else ())
    if isinstance(action, PullPins | MovePins | LeaveOpen | OpenNoLonger):
        return names.all_holes(reading, action.holes)
    return _of_rivet(reading, action, names) if isinstance(action, Rivet) else []


def _of_rivet(reading: Reading, action: Rivet, names: Names) -> list[Found]:
    found = names.all_holes(reading, action.holes or ())
    found += _of_filter(reading, action.narrowed, names)
    if action.use is not None:
        found.append(names.fastener(reading, action.use))
    if action.head is not None and action.head.text.startswith("on "):
        part = Name(text=action.head.text.removeprefix("on "), at=action.head.at)
        found.append(names.placed.look_up(reading, part))
    return found


def _of_filter(reading: Reading, narrowed: HoleFilter, names: Names) -> list[Found]:
    found = [names.placed.look_up(reading, name) for name in narrowed.through]
    if narrowed.size is not None:
        found.append(names.sizes.look_up(reading, narrowed.size))
    if narrowed.fastener is not None:
        found.append(names.fastener(reading, narrowed.fastener))
    if isinstance(narrowed.forward_of, Name):
        found.append(names.placed.look_up(reading, narrowed.forward_of))
    return found + names.all_holes(reading, narrowed.excluded)
