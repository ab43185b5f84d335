"""One mistake, one finding: equal sightings of a row and a pair of parts become one, with numbers."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

from seqviz.build import Build
from seqviz.checks.known import known_entries, within
from seqviz.checks.targets import Target, target_of
from seqviz.checks.wording import spans
from seqviz.findings import At, Finding, Related, Severity

__all__ = ["Group", "Sighting", "Words", "grouped", "touches"]

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sighting(Generic[T]):
    """One thing seen at one hole stack or at one pair of parts, before equal ones are put together.

    Attributes
    ----------
    key
        What makes sightings equal. Places in the file rather than names, so that the left and the right of
        one entry are one mistake.
    seen
        What the check wants to speak about.
    at
        Where the finding stands.
    parts
        Placed parts concerned, in order.
    stack, hole
        Index of the hole stack, or None; the hole by which it is named, None: the one farthest from the base.
    figure
        Size of the mistake, mm, or None.
    """

    key: tuple[Hashable, ...]
    seen: T
    at: At
    parts: tuple[str, ...]
    stack: int | None = None
    hole: str | None = None
    figure: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What a finding says: what is wrong, the rule and its source, the way out."""

    message: str
    why: str
    fix: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Group(Generic[T]):
    """Equal sightings; ``holes`` names one hole of each stack."""

    sightings: tuple[Sighting[T], ...]
    holes: tuple[str, ...]

    @property
    def first(self) -> T:
        """What was seen first."""
        return self.sightings[0].seen

    @property
    def all(self) -> tuple[T, ...]:
        """All that was seen."""
        return tuple(sighting.seen for sighting in self.sightings)

    @property
    def parts(self) -> tuple[str, ...]:
        """Placed parts concerned, each once."""
        return tuple(dict.fromkeys(part for sighting in self.sightings for part in sighting.parts))

    @property
    def figure(self) -> float | None:
        """The worst figure, mm."""
        return max((s.figure for s in self.sightings if s.figure is not None), default=None)

    @property
    def named(self) -> str:
        """The holes in short: ``rail left.foot 4-27``."""
        return spans(self.holes)

    @property
    def one(self) -> bool:
        """Whether there is a single hole."""
        return len(self.holes) == 1

    @property
    def them(self) -> str:
        """``it`` or ``them``: the holes, or the rivets in them."""
        return "it" if self.one else "them"

    def these(self, thing: str) -> str:
        """Return ``this hole`` or ``these holes``."""
        return f"this {thing}" if self.one else f"these {thing}s"

    def finding(
        self,
        kind: str,
        severity: Severity,
        words: Words,
        *,
        steps: Iterable[int] = (),
        related: Iterable[Related] = (),
    ) -> Finding:
        """Return the finding for the whole group."""
        return Finding(
            kind=kind,
            severity=severity,
            at=self.sightings[0].at,
            message=words.message,
            why=words.why,
            fix=words.fix,
            steps=tuple(dict.fromkeys(steps)),
            parts=self.parts,
            holes=self.holes,
            related=tuple(related),
            figure=self.figure,
        )


def grouped(build: Build, kind: str, sightings: Iterable[Sighting[T]]) -> list[Group[T]]:
    """Put equal sightings together, in the order seen.

    Sightings that a ``known`` entry settles never share a group with others: settling one hole of a row must
    not hide the rest of the row.
    """
    entries = [(entry, target_of(build, entry)) for entry in known_entries(build) if entry.kind == kind]
    groups: dict[Hashable, list[Sighting[T]]] = {}
    for sighting in sightings:
        settled = tuple(
            touches(target, sighting) and within(entry, sighting.figure) for entry, target in entries
        )
        groups.setdefault((sighting.at, sighting.key, settled), []).append(sighting)
    return [Group(sightings=tuple(group), holes=_holes(build, group)) for group in groups.values()]


def touches(target: Target, sighting: Sighting[T]) -> bool:
    """Tell whether what was seen is what ``target`` names."""
    return sighting.stack in target.stacks or not target.parts.isdisjoint(sighting.parts)


def _holes(build: Build, group: list[Sighting[T]]) -> tuple[str, ...]:
    stacks = {s.stack: s.hole for s in group if s.stack is not None}
    names = [hole or build.assembly.stacks[index].holes[0] for index, hole in stacks.items()]
    rows = list(dict.fromkeys(name.rpartition(".")[0] for name in names))
    return tuple(sorted(names, key=lambda name: (rows.index(name.rpartition(".")[0]), _number(name))))


def _number(hole: str) -> int:
    return int(hole.rpartition(".")[2])
