"""What a name in ``known`` and ``later`` means in the structure: placed parts, or hole stacks."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.assembly.entries import entries, placed_names
from seqviz.build import Build
from seqviz.records.holes import hole_choice
from seqviz.records.model import HoleChoice, Known
from seqviz.sequence.choose import Chooser

__all__ = ["Target", "later_parts", "later_stacks", "target_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """What a name means: ``parts`` for a placed part, else ``stacks``, the indices of the holes' stacks."""

    parts: frozenset[str] = frozenset()
    stacks: frozenset[int] = frozenset()


def target_of(build: Build, entry: Known) -> Target:
    """Return what ``entry`` speaks of: a placed part, ``PLACED.ROW`` or ``PART.ROW``, one hole, or a range.

    A bare name entered for both sides means both; a part's name means every occurrence.
    """
    name = " ".join(entry.target.split())
    choice = hole_choice(name, entry.target_at) if "." in name else None
    if isinstance(choice, HoleChoice):
        return Target(stacks=_stacks(build, choice))
    return Target(parts=frozenset(_occurrences(build, name)))


def later_stacks(build: Build) -> frozenset[int]:
    """Return the stacks that ``later`` names, by their holes or by a part that is a layer of them."""
    return Chooser(build.model, build.assembly).later()


def later_parts(build: Build) -> frozenset[str]:
    """Return the placed parts that ``later`` names."""
    return Chooser(build.model, build.assembly).later_parts()


def _occurrences(build: Build, name: str) -> tuple[str, ...]:
    """Return the placed parts of that name, or else all occurrences of the part of that name."""
    named = placed_names(name, entries(build.model), build.assembly.base)
    placed = build.assembly.placed
    return named or tuple(key for key, there in placed.items() if there.part.name == name)


def _stacks(build: Build, choice: HoleChoice) -> frozenset[int]:
    assembly = build.assembly
    found = set()
    for placed in _occurrences(build, choice.placed):
        if placed not in assembly.placed:
            continue
        there = assembly.placed[placed]
        rows = there.part.twins.get(choice.row, (choice.row,))
        for hole in there.holes:
            index = assembly.stack_of.get(f"{placed}.{hole.name}")
            if hole.row in rows and _within(hole.number, choice) and index is not None:
                found.add(index)
    return frozenset(found)


def _within(number: int, choice: HoleChoice) -> bool:
    if choice.first is None or choice.last is None:
        return True
    return min(choice.first, choice.last) <= number <= max(choice.first, choice.last)
