"""What a name in ``known`` and ``later`` means in the structure: placed parts, or hole stacks."""

from __future__ import annotations

import re
from dataclasses import dataclass

from seqviz.assembly.entries import entries, placed_names
from seqviz.build import Build
from seqviz.sequence.choose import Chooser

__all__ = ["Target", "later_parts", "later_stacks", "target_of"]

_HOLES = re.compile(r"(?P<placed>.+?)\.(?P<row>.+?)(?:\.(?P<first>\d+)(?:-(?P<last>\d+))?)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """What a name means: ``parts`` for a placed part, else ``stacks``, the indices of the holes' stacks."""

    parts: frozenset[str] = frozenset()
    stacks: frozenset[int] = frozenset()


def target_of(build: Build, text: str) -> Target:
    """Return what ``text`` means: a placed part, ``PLACED.ROW`` or ``PART.ROW``, one hole, or a range.

    A bare name entered for both sides means both; a part's name means every occurrence.
    """
    found = _HOLES.fullmatch(text.strip())
    if found is None:
        return Target(parts=frozenset(_occurrences(build, text.strip())))
    first = int(found["first"]) if found["first"] else None
    last = int(found["last"]) if found["last"] else first
    return Target(stacks=_stacks(build, found["placed"], found["row"], (first, last)))


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


def _stacks(build: Build, name: str, row: str, ends: tuple[int | None, int | None]) -> frozenset[int]:
    assembly = build.assembly
    found = set()
    for placed in _occurrences(build, name):
        if placed not in assembly.placed:
            continue
        part = assembly.placed[placed].part
        rows = part.twins.get(row, (row,))
        for hole in part.holes:
            full = f"{placed}.{hole.name}"
            if hole.row in rows and _within(hole.number, ends) and full in assembly.stack_of:
                found.add(assembly.stack_of[full])
    return frozenset(found)


def _within(number: int, ends: tuple[int | None, int | None]) -> bool:
    first, last = ends
    if first is None or last is None:
        return True
    return min(first, last) <= number <= max(first, last)
