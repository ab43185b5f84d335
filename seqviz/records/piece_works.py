"""In which work each piece lies, step by step, as far as reading can tell."""

from __future__ import annotations

from dataclasses import dataclass, field

from seqviz.findings import Related
from seqviz.records.model import Name
from seqviz.records.reading import Reading
from seqviz.records.steps import Apart, Drill, Place, PutPins, Step, TakeOff

__all__ = ["PieceWorks"]


@dataclass(slots=True, kw_only=True, eq=False)
class PieceWorks:
    """The pieces that were placed: parts and sub-assemblies.

    Attributes
    ----------
    aparts, twins
        Sub-assemblies by name; common names of twins, and the two that each means.
    lost
        Numbers of steps that are left out. After one of them it is not known what lies where.
    where
        Piece -> the work in which it lies, and the step that placed it.
    members
        Sub-assembly that was placed -> its pieces.
    """

    reading: Reading
    aparts: dict[str, Apart]
    twins: dict[str, tuple[str, ...]]
    lost: set[int]
    where: dict[str, tuple[str | None, Step]] = field(default_factory=dict)
    members: dict[str, set[str]] = field(default_factory=dict)
    begun: set[str | None] = field(default_factory=set)

    def take(self, step: Step) -> bool:
        """Do a step; say whether there is nothing wrong with where its pieces lie, and note what is."""
        if isinstance(step.action, Place):
            self.begun.add(step.work)
            placed = [self._placed(step, name) for name in step.action.names]
            return all(placed)
        if isinstance(step.action, TakeOff):
            for name in step.action.names:
                self._taken_off(name.text)
        if isinstance(step.action, PutPins):
            return self._pinned(step, step.action)
        return not isinstance(step.action, Drill) or self._led(step, step.action)

    def _sure(self, step: Step) -> bool:
        return not any(0 < number < step.number for number in self.lost)

    def _placed(self, step: Step, name: Name) -> bool:
        apart = self.aparts.get(name.text)
        if apart is not None and not self._joined(step, name, apart):
            return False
        laid = [self._laid(step, name, piece) for piece in self.twins.get(name.text, (name.text,))]
        return all(laid)

    def _joined(self, step: Step, name: Name, apart: Apart) -> bool:
        """Say whether a sub-assembly is joined before it is placed."""
        related = (Related(at=apart.name_at or apart.at, message="where it is joined"),)
        if step.number > apart.last and step.number >= apart.first:
            return True
        if step.number < apart.first:
            self.reading.report(
                "bad-value",
                name.at,
                f"`{name.text}` is placed here, but is joined only further down.",
                "A sub-assembly is placed as one piece, so all its steps come before.",
                f"Move `apart: {name.text}` with its steps before this one.",
                related,
            )
        else:
            self.reading.report(
                "bad-value",
                name.at,
                f"`{name.text}` cannot be placed within itself.",
                "This step is one of its own; it is placed as one piece when all of them are done.",
                "Move this step behind the sub-assembly, further out.",
                related,
            )
        return False

    def _laid(self, step: Step, name: Name, piece: str) -> bool:
        before = self.where.get(piece)
        if before is not None and before[0] != step.work and self._sure(step):
            work, first = before
            lies = "the main work" if work is None else f"the sub-assembly `{work}`"
            self.reading.report(
                "duplicate-name",
                name.at,
                f"`{piece}` lies in {lies} already: step {first.number} placed it there.",
                "One piece lies in one work. A sub-assembly takes its parts along when it is placed.",
                "Delete one of the two, or take it off there first (`take off`).",
                (Related(at=first.at, message="placed here first"),),
            )
            return False
        self.where[piece] = (step.work, step)
        if piece in self.aparts:
            own = {inner for inner, (work, _) in self.where.items() if work == piece}
            self.members[piece] = own
            for inner in own:
                self.where[inner] = (step.work, self.where[inner][1])
        return True

    def _taken_off(self, name: str) -> None:
        for piece in self.twins.get(name, (name,)):
            before = self.where.pop(piece, None)
            for inner in self.members.pop(piece, set()) if before else set():
                if inner in self.where:
                    self.where[inner] = (piece, self.where[inner][1])

    def _led(self, step: Step, action: Drill) -> bool:
        """Say whether the template that leads the drill is there."""
        template = action.template
        if template is None or not self._sure(step):
            return True
        pieces = self.twins.get(template.placed, (template.placed,))
        if any(piece in self.where and self.where[piece][0] == step.work for piece in pieces):
            return True
        self.reading.report(
            "bad-value",
            template.at,
            f"`{template.placed}` is not there to lead the drill.",
            "The drill goes through the holes of a template that lies on the same work.",
            f"Add `place: {template.placed}` before this step, and take it off only afterwards.",
        )
        return False

    def _pinned(self, step: Step, action: PutPins) -> bool:
        if action.of or action.pattern.kind == "holes" or step.work in self.begun or not self._sure(step):
            return True
        self.reading.report(
            "missing-word",
            step.at,
            "`of` is missing: no part was placed before.",
            "Pins go into the rows of the parts just placed, or of those that `of` names.",
            "Add `of: ` and placed parts, or write the holes.",
        )
        return False
