"""Sub-assemblies of a sequence: their names, and how they lie at first."""

from __future__ import annotations

from dataclasses import dataclass, replace

from seqviz.records.model import Model, Name
from seqviz.records.names import Found, Names, Scope, unknown
from seqviz.records.reading import Reading
from seqviz.records.shape_flats import flats_of
from seqviz.records.step_lines import Numbered
from seqviz.records.steps import Apart, Place, Sequence
from seqviz.records.words import as_word

__all__ = ["Aparts", "aparts_linked"]

_Facing = tuple[Name, str, str]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Aparts:
    """The sub-assemblies that are right.

    Attributes
    ----------
    pieces
        All that can be placed: placed parts and sub-assemblies.
    broken
        Numbers of the steps of those that are wrong; 0 for one without steps.
    up_flat, up_stands
        What the sequence itself says is up, the flat in its usual form; whether that is there.
    """

    good: tuple[Apart, ...]
    pieces: Scope
    broken: set[int]
    up_flat: _Facing | None
    up_stands: bool

    @property
    def by_name(self) -> dict[str, Apart]:
        """The sub-assemblies by name."""
        return {apart.name: apart for apart in self.good}


def aparts_linked(reading: Reading, sequence: Sequence, model: Model, names: Names, read: Numbered) -> Aparts:
    """Look up what the sub-assemblies of a sequence name."""
    look = _Look(reading=reading, sequence=sequence, model=model, names=names, read=read)
    good: list[Apart] = []
    broken: set[int] = set()
    for apart in sequence.apart:
        linked = None if apart.first in broken and apart.last in broken else look.apart(apart, good)
        if linked is None:
            broken |= set(range(apart.first, apart.last + 1)) or {0}
        else:
            good.append(linked)
    up = sequence.up_flat
    facing = look.facing(up) if up is not None else None
    wrong = {apart.name for apart in sequence.apart} - {apart.name for apart in good}
    # One that stands within a wrong one is wrong with it, and its name is muted too.
    return Aparts(
        good=tuple(good),
        pieces=look.pieces(frozenset(wrong)),
        broken=broken,
        up_flat=facing,
        up_stands=(up is None) == (facing is None),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Look:
    """What is needed to look one sub-assembly up."""

    reading: Reading
    sequence: Sequence
    model: Model
    names: Names
    read: Numbered

    def pieces(self, wrong: frozenset[str] = frozenset()) -> Scope:
        """Return all that can be placed; ``wrong`` are sub-assemblies of which nothing is known."""
        placed = self.names.placed
        aparts = {apart.name for apart in self.sequence.apart}
        some = bool(aparts or self.read.wrong or self.read.nameless)
        return Scope(
            what="placed part or sub-assembly" if some else "placed part",
            good=placed.good | (aparts - wrong),
            broken=placed.broken | ((wrong | self.read.wrong) - placed.good),
            unread=placed.unread or self.read.nameless,
        )

    def apart(self, apart: Apart, before: list[Apart]) -> Apart | None:
        """Return a sub-assembly with what it names looked up, None (with a finding) where it is wrong."""
        place = apart.name_at or apart.at
        first = next((other for other in before if other.name == apart.name), None)
        if first is not None:
            self.reading.duplicate(f"The sub-assembly `{apart.name}`", place, first.name_at or first.at)
            return None
        if apart.name in self.names.placed.good | self.names.placed.broken:
            self.reading.report(
                "duplicate-name",
                place,
                f"`{apart.name}` is the name of a placed part.",
                "`place` would not know which of the two is meant.",
                "Give the sub-assembly another name.",
            )
            return None
        edge = [self.pieces().look_up(self.reading, name) for name in apart.over_the_edge]
        up = apart.up
        if up is not None:
            up = self.facing(up)
            if up is not None and not self._holds(apart, up[0]):
                return None
        wrong = Found.WRONG in edge or (up is None) != (apart.up is None)
        return None if wrong else replace(apart, up=up)

    def _holds(self, apart: Apart, part: Name) -> bool:
        """Say whether ``part`` is placed by a step of the sub-assembly, as far as these are known."""
        own = range(apart.first, apart.last + 1)
        if any(number in own for number in self.sequence.broken) or self.names.placed.find(part.text) is (
            Found.MUTED
        ):
            return True
        steps = (step.action for step in self.sequence.steps if step.number in own)
        placed = {name.text for action in steps if isinstance(action, Place) for name in action.names}
        if part.text in placed.union(*(self.names.twins.get(name, ()) for name in placed)):
            return True
        self.reading.bad(
            part.at,
            f"`{part.text}` is not part of the sub-assembly `{apart.name}`.",
            "What faces up is a flat of a part that lies there.",
            "Name one of the parts that its steps place.",
        )
        return False

    def facing(self, up: _Facing) -> _Facing | None:
        """Look up a placed part and its flat; return them with the flat in its usual form."""
        part, flat, face = up
        found = self.names.placed.look_up(self.reading, part)
        if found is not Found.GOOD:
            return up if found is Found.MUTED else None
        twins = self.names.twins.get(part.text)
        if twins:
            self.reading.report(
                "unknown-name",
                part.at,
                f"One of two is meant here: {' or '.join(twins)}.",
                "A part entered for both sides has a name for each side; the bare name means both.",
                f"Write {twins[0]} or {twins[1]}.",
            )
            return None
        flats = flats_of(self.model, self.names, part.text)
        known = {as_word(name): name for name in flats or ()}
        if flats is None or as_word(flat) in known:
            return part, known.get(as_word(flat), flat), face
        unknown(
            self.reading,
            Name(text=flat, at=part.at),
            f"`{part.text}` has no flat `{flat}`.",
            list(flats),
        )
        return None
