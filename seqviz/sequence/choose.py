"""Which stacks a choice of holes means: names, ranges, rows, twins, and the filters of ``rivet``."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from seqviz.assembly.entries import entries, placed_names
from seqviz.assembly.mistakes import set_inside
from seqviz.assembly.structure import Assembly, PlacedPart, Stack
from seqviz.findings import Finding
from seqviz.parts.part import Hole
from seqviz.records.model import HoleChoice, Model, Name
from seqviz.records.steps import HoleFilter

__all__ = ["Chooser"]


class Chooser:
    """Looks names up in the structure; keeps a finding for each that is wrong and that reading let pass."""

    def __init__(self, model: Model, assembly: Assembly) -> None:
        self._model = model
        self._assembly = assembly
        self._entries = entries(model)
        self._wrong: dict[HoleChoice | Name, Finding] = {}

    @property
    def findings(self) -> list[Finding]:
        """One for each wrong choice met so far."""
        return list(self._wrong.values())

    def parts_named(self, text: str) -> tuple[str, ...]:
        """Return the placed parts that ``text`` means: one, both twins, or none."""
        return placed_names(text, self._entries, self._assembly.base)

    def stacks(self, choices: Iterable[HoleChoice]) -> dict[int, HoleChoice]:
        """Return the stacks meant, in the order written, each with the first choice that named it."""
        found: dict[int, HoleChoice] = {}
        for choice in choices:
            for name in self._holes(choice):
                index = self._assembly.stack_of.get(name)
                if index is not None:
                    found.setdefault(index, choice)
        return found

    def placed_holes(self, choice: HoleChoice) -> Iterator[tuple[str, Hole]]:
        """Yield the placed part and the hole for each that is meant; a template's have no stack."""
        for name in self._holes(choice):
            part, _, hole = name.partition(".")
            yield part, next(one for one in self._assembly.placed[part].holes if one.name == hole)

    def later(self) -> frozenset[int]:
        """Return the stacks that ``later`` names, by holes or by a part that is a layer.

        Holes that another model as one piece keeps for later wait until something of this one is there.
        """
        found = set(self.stacks(choice for entry in self._model.later for choice in entry.holes))
        for entry in self._model.later:
            for part in self.parts_named(entry.part.text) if entry.part else ():
                found.update(self._assembly.stacks_of_part.get(part, ()))
        found.update(stack.index for stack in self._assembly.stacks if _waits_inside(stack))
        return frozenset(found)

    def later_parts(self) -> frozenset[str]:
        """Return the placed parts that ``later`` names."""
        named = (entry.part for entry in self._model.later if entry.part)
        return frozenset(part for name in named for part in self.parts_named(name.text))

    def passes(self, narrowed: HoleFilter) -> frozenset[int]:
        """Return the stacks that pass the filters of a step."""
        if narrowed == HoleFilter():
            return frozenset(range(len(self._assembly.stacks)))
        excluded = self.stacks(narrowed.excluded)
        through = [set(self.parts_named(name.text)) for name in narrowed.through]
        ahead = self._level(narrowed.forward_of)
        return frozenset(
            stack.index
            for stack in self._assembly.stacks
            if stack.index not in excluded
            and all(names & set(stack.parts) for names in through)
            and (narrowed.size is None or stack.size == narrowed.size.text)
            and (narrowed.fastener is None or stack.fastener == narrowed.fastener.text)
            and (ahead is None or (stack.located and _coordinate(stack, ahead[0]) > ahead[1]))
        )

    def _level(self, limit: Name | tuple[str, float] | None) -> tuple[np.ndarray, float] | None:
        """Return a direction and the level along it beyond which holes are ``forward of`` the limit."""
        if limit is None:
            return None
        forward = self._assembly.forward
        if isinstance(limit, tuple):
            axis = np.eye(3)["xyz".index(limit[0])]
            sense = -1.0 if forward @ axis < -1e-9 else 1.0
            return axis * sense, limit[1] * sense
        there = [self._assembly.placed[n] for n in self.parts_named(limit.text) if n in self._assembly.placed]
        if any(not part.located for part in there):
            self._without_place(limit)
            return forward, np.inf
        levels = [float((part.solids.vertices @ forward).max()) for part in there]
        return forward, max(levels, default=-np.inf)

    def _without_place(self, limit: Name) -> None:
        """Note that nothing can be forward of a part that has no place."""
        self._wrong[limit] = Finding(
            kind="bad-value",
            severity="error",
            at=limit.at,
            message=f"Nothing is known to be forward of {limit.text}: it has no dimensions yet.",
            why="`forward of` compares places, and `rows` say only what lies over what.",
            fix="Name the holes, or choose them with through.",
            parts=(limit.text,),
        )

    def _holes(self, choice: HoleChoice) -> Iterator[str]:
        """Yield the full names of the holes meant; parts and rows that are not there were told by reading."""
        for placed in self.parts_named(choice.placed):
            if placed not in self._assembly.placed or placed in self._assembly.muted:
                continue
            there = self._assembly.placed[placed]
            rows = there.part.twins.get(choice.row, (choice.row,))
            for row in rows:
                numbers = sorted(hole.number for hole in there.holes if hole.row == row)
                if not self._set_inside(choice, there, row, numbers):
                    self._check(choice, placed, row, numbers)
                yield from (f"{placed}.{row}.{number}" for number in _chosen(choice, numbers))

    def _set_inside(self, choice: HoleChoice, there: PlacedPart, row: str, numbers: list[int]) -> bool:
        """Note holes within another model that its sequence has filled; a row means those still open.

        Say whether some of the row are filled: it may end in one of them.
        """
        own = (hole.rpartition(".") for hole in there.part.filled)
        filled = sorted(int(number) for of, _, number in own if of == row)
        meant = _chosen(choice, filled)
        if meant and (choice.first == choice.last is not None or not _chosen(choice, numbers)):
            hole = f"{row}.{meant[0]}"
            file = there.part.filled[hole]
            self._wrong.setdefault(choice, set_inside(choice.at, f"{there.name}.{hole}", file))
        return bool(filled)

    def _check(self, choice: HoleChoice, placed: str, row: str, numbers: list[int]) -> None:
        """Note a number beyond the row's end, or a single hole that was left out of its row."""
        ends = [end for end in (choice.first, choice.last) if end is not None]
        if not numbers or not ends or choice in self._wrong:
            return
        beyond = [end for end in ends if not 1 <= end <= numbers[-1]]
        missing = choice.first if choice.first == choice.last and choice.first not in numbers else None
        if not beyond and missing is None:
            return
        wrong = beyond[-1] if beyond else missing
        self._wrong[choice] = Finding(
            kind="unknown-name",
            severity="error",
            at=choice.at,
            message=f"There is no hole {placed}.{row}.{wrong}.",
            why=f"The row {placed}.{row} has {len(numbers)} holes, the last is number {numbers[-1]}.",
            fix=f"Choose from {placed}.{row}.{numbers[0]} to {numbers[-1]}, or correct the row.",
            parts=(placed,),
        )


def _waits_inside(stack: Stack) -> bool:
    return len(set(stack.parts)) == 1 and any(one.column and one.column.later for one in stack.layers)


def _chosen(choice: HoleChoice, numbers: list[int]) -> list[int]:
    if choice.first is None or choice.last is None:
        return numbers
    low, high = sorted((choice.first, choice.last))
    within = [number for number in numbers if low <= number <= high]
    return within[::-1] if choice.first > choice.last else within


def _coordinate(stack: Stack, direction: np.ndarray) -> float:
    return float(stack.point @ direction)
