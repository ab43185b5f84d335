"""From the steps to the timeline: one pass for what they place, take off, and how they turn each work."""

from __future__ import annotations

from collections.abc import Iterable

from seqviz.assembly.structure import Assembly
from seqviz.geometry.pose import Array, frozen
from seqviz.records.model import Name
from seqviz.records.steps import Apart, Place, Sequence, Step, TakeOff, TurnOver
from seqviz.sequence.bench import side_vector, turned
from seqviz.sequence.choose import Chooser
from seqviz.sequence.timeline import Lie, Timeline
from seqviz.sequence.whereabouts import Bits, Whereabouts, WorkName

__all__ = ["begin", "timeline_of"]


def timeline_of(assembly: Assembly, sequence: Sequence, chooser: Chooser) -> Timeline:
    """Go through the steps once.

    Steps that could not be read are not there, their numbers are: nothing changes with them.
    """
    comings = _Comings(assembly, sequence, chooser)
    benches = _Benches(assembly, sequence, chooser)
    for step in sequence.steps:
        benches.before(step)
        if isinstance(step.action, Place):
            comings.place(step, step.action.names)
        elif isinstance(step.action, TakeOff):
            comings.take_off(step, step.action.names)
        elif isinstance(step.action, TurnOver):
            benches.turn(step, step.action)
    steps = max((step.number for step in sequence.steps), default=0)
    where = comings.bits.finished(steps)
    return Timeline(
        steps=steps,
        where={part: where.get(part, {}) for part in assembly.placed},
        placed_at=comings.placed_at,
        comes=comings.comes,
        lies={work: _until(lies, steps) for work, lies in benches.lies.items()},
        inside={one.name: one.inside for one in sequence.apart},
    )


def begin(assembly: Assembly, sequence: Sequence, chooser: Chooser) -> Whereabouts:
    """Return where the parts are before the first step: the base is there unless a step places it.

    A base with a mistake is nowhere, as any part that could not be made.
    """
    named = {
        part
        for step in sequence.steps
        if isinstance(step.action, Place)
        for name in step.action.names
        for part in chooser.parts_named(name.text)
    }
    there = {assembly.base} & assembly.placed.keys() - named
    return Whereabouts((one.name for one in sequence.apart), there)


class _Comings:
    """What the steps bring and take away."""

    def __init__(self, assembly: Assembly, sequence: Sequence, chooser: Chooser) -> None:
        self._placed = assembly.placed
        self._chooser = chooser
        self._apart = frozenset(one.name for one in sequence.apart)
        self._now = begin(assembly, sequence, chooser)
        self.bits = Bits(self._now.work_of)
        self.placed_at: dict[str, int] = dict.fromkeys(self._now.work_of, 0)
        self.comes: dict[str, dict[WorkName, int]] = {part: {None: 0} for part in self._now.work_of}

    def place(self, step: Step, names: Iterable[Name]) -> None:
        for name in names:
            parts = self._chooser.parts_named(name.text)
            unread = [part for part in parts if part not in self._placed]
            if not parts and name.text not in self._apart:
                unread = [name.text]
            there = [part for part in parts if part in self._placed]
            # A part that could not be read has no entry; holes may wait for it all the same.
            for part in unread:
                self._note(part, step)
            for piece in self._now.to_place(name.text, there, step.work):
                self._now.place(piece, step.work, step.number)
                for part in dict.fromkeys((piece.name, *piece.parts)):
                    self._note(part, step)
                for part in piece.parts:
                    self.bits.move(part, step.work, step.number)

    def take_off(self, step: Step, names: Iterable[Name]) -> None:
        for name in names:
            parts = self._chooser.parts_named(name.text)
            for piece in self._now.to_take_off(name.text, parts, step.work):
                self._now.take_off(piece)
                for part in piece.parts:
                    if part in self._now.work_of:
                        self.bits.move(part, self._now.work_of[part], step.number)
                    else:
                        self.bits.leave(part, step.number)

    def _note(self, name: str, step: Step) -> None:
        self.placed_at.setdefault(name, step.number)
        self.comes.setdefault(name, {}).setdefault(step.work, step.number)


class _Benches:
    """How each work lies; a sub-assembly starts as the main work lies then, unless it says otherwise."""

    def __init__(self, assembly: Assembly, sequence: Sequence, chooser: Chooser) -> None:
        self._assembly = assembly
        self._chooser = chooser
        self._apart = {one.name: one for one in sequence.apart}
        first = Lie(
            first=0,
            last=0,
            up=frozen(side_vector(assembly, sequence.up)),
            bench=sequence.bench,
            over_the_edge=self._parts(sequence.over_the_edge),
        )
        self.lies: dict[WorkName, list[Lie]] = {None: [first]}

    def before(self, step: Step) -> None:
        """Let a sub-assembly of which this is the first step lie somewhere."""
        if step.work in self.lies:
            return
        main = self.lies[None][-1]
        told = self._apart.get(step.work or "")
        up = self._told_up(told) if told else None
        bench = told.bench if told and told.bench else main.bench
        self.lies[step.work] = [Lie(first=0, last=0, up=main.up if up is None else up, bench=bench)]

    def turn(self, step: Step, action: TurnOver) -> None:
        before = self.lies[step.work][-1]
        lie = Lie(
            first=step.number,
            last=step.number,
            up=turned(self._assembly, before.up, action),
            bench=action.bench or before.bench,
            over_the_edge=self._parts(action.over_the_edge),
        )
        self.lies[step.work].append(lie)

    def _told_up(self, told: Apart) -> Array | None:
        """Return the normal of the face that a sub-assembly says is up, None where it says none."""
        if told.up is None:
            return None
        name, flat, face = told.up
        for part in self._chooser.parts_named(name.text):
            placed = self._assembly.placed.get(part)
            if placed is not None and flat in placed.part.flats:
                return frozen(placed.pose.vectors(placed.part.flats[flat].face_normal(face)))
        return None

    def _parts(self, names: Iterable[Name]) -> frozenset[str]:
        return frozenset(part for name in names for part in self._chooser.parts_named(name.text))


def _until(lies: list[Lie], steps: int) -> tuple[Lie, ...]:
    """Return the lies, each until the next begins."""
    ends = [*(lie.first - 1 for lie in lies[1:]), steps]
    return tuple(
        Lie(first=lie.first, last=last, up=lie.up, bench=lie.bench, over_the_edge=lie.over_the_edge)
        for lie, last in zip(lies, ends, strict=True)
    )
