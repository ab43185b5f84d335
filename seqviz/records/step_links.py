"""Names within a sequence: each is looked up in the model; a step with a wrong one is left out."""

from __future__ import annotations

from dataclasses import dataclass, replace

from seqviz.records.apart_links import aparts_linked
from seqviz.records.links import known_linked
from seqviz.records.model import HoleChoice, Model, Name
from seqviz.records.names import Found, Names, Scope
from seqviz.records.piece_works import PieceWorks
from seqviz.records.reading import Reading
from seqviz.records.step_lines import Numbered
from seqviz.records.steps import (
    Bolt,
    Drill,
    DrillOut,
    HoleFilter,
    LeaveOpen,
    MovePins,
    OpenNoLonger,
    Place,
    Prepare,
    PullPins,
    PutPins,
    Rivet,
    Sequence,
    Step,
    TakeOff,
    TurnOver,
)
from seqviz.records.template_links import no_layer, no_template

__all__ = ["link_sequence"]


def link_sequence(
    reading: Reading, sequence: Sequence, model: Model, names: Names, read: Numbered
) -> tuple[Sequence, Scope]:
    """Return the sequence without the steps that name what is not there; their numbers are in ``broken``.

    With it comes all that can be placed: placed parts and sub-assemblies.
    """
    aparts = aparts_linked(reading, sequence, model, names, read)
    look = _Look(reading=reading, names=names, pieces=aparts.pieces)
    works = PieceWorks(reading=reading, aparts=aparts.by_name, twins=names.twins, lost=set(sequence.broken))
    works.lost |= aparts.broken
    wrong = set(aparts.broken)
    for step in sequence.steps:
        if step.number not in wrong and (Found.WRONG in look.step(step) or not works.take(step)):
            wrong.add(step.number)
            works.lost.add(step.number)
    head = [look.piece(name) for name in sequence.over_the_edge]
    wrong |= {0} if Found.WRONG in head or not aparts.up_stands else set()
    linked = replace(
        sequence,
        steps=tuple(step for step in sequence.steps if step.number not in wrong),
        apart=aparts.good,
        up_flat=aparts.up_flat,
        known=known_linked(reading, sequence.known, names),
        broken=tuple(sorted({*sequence.broken, *wrong})),
    )
    return linked, aparts.pieces


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Look:
    """Looks the names of one step up; ``pieces`` are placed parts and sub-assemblies."""

    reading: Reading
    names: Names
    pieces: Scope

    def step(self, step: Step) -> list[Found]:
        """Look all names of a step up."""
        match step.action:
            case Place() as action:
                return self._pieces(action.names) + self._holes(action.pins.holes if action.pins else ())
            case TakeOff() as action:
                return self._pieces(action.names)
            case PutPins() as action:
                return self._holes(action.pattern.holes) + self._pieces(action.of)
            case Prepare() as action:
                return self._pieces(action.names) + self._holes(action.holes)
            case PullPins() | MovePins() | LeaveOpen() | OpenNoLonger() | DrillOut() as action:
                return self._holes(action.holes)
            case Rivet() | Bolt() as action:
                return self._set(action)
            case Drill() as action:
                return self._drill(action)
            case TurnOver() as action:
                return self._pieces(action.over_the_edge)
            case _:
                return []

    def piece(self, name: Name) -> Found:
        """Look up a placed part or a sub-assembly."""
        return self.pieces.look_up(self.reading, name)

    def _pieces(self, names: tuple[Name, ...]) -> list[Found]:
        return [self.piece(name) for name in names]

    def _holes(self, choices: tuple[HoleChoice, ...]) -> list[Found]:
        return [self._hole(choice) for choice in choices]

    def _hole(self, choice: HoleChoice) -> Found:
        if self.names.placed.find(choice.placed) is not Found.WRONG or (
            self.pieces.find(choice.placed) is not Found.GOOD
        ):
            return self.names.holes(self.reading, choice)
        self.reading.report(
            "unknown-name",
            choice.at,
            f"`{choice.placed}` is a sub-assembly and has no rows of its own.",
            "Rows of holes belong to placed parts, wherever these are joined.",
            f"Write the placed part that has the row `{choice.row}`.",
        )
        return Found.WRONG

    def _set(self, action: Rivet | Bolt) -> list[Found]:
        found = self._holes(action.holes or ()) + self._filter(action.narrowed)
        if action.use is not None:
            found.append(self.names.fastener(self.reading, action.use))
        if action.head is not None and action.head.text.startswith("on "):
            found.append(self._layer(Name(text=action.head.text.removeprefix("on "), at=action.head.at)))
        return found

    def _drill(self, action: Drill) -> list[Found]:
        found = self._holes(action.holes) + self._filter(action.narrowed)
        template = action.template
        if template is not None:
            found.append(self._hole(template))
            if found[-1] is Found.GOOD and no_template(self.reading, template, self.names.templates):
                found.append(Found.WRONG)
        return found

    def _layer(self, name: Name) -> Found:
        if no_layer(self.reading, name, self.names.templates):
            return Found.WRONG
        return self.piece(name)

    def _filter(self, narrowed: HoleFilter) -> list[Found]:
        found = [self._layer(name) for name in narrowed.through]
        if narrowed.size is not None:
            found.append(self.names.sizes.look_up(self.reading, narrowed.size))
        if narrowed.fastener is not None:
            found.append(self.names.fastener(self.reading, narrowed.fastener))
        if isinstance(narrowed.forward_of, Name):
            found.append(self.piece(narrowed.forward_of))
        return found + self._holes(narrowed.excluded)
