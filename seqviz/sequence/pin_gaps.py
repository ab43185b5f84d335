"""Rows that are set with too few pins: how many holes lie between one that holds and the next."""

from __future__ import annotations

from collections.abc import Iterable

from seqviz.sequence.replay_types import PinsFarApart
from seqviz.sequence.work import Work

__all__ = ["MOST_BETWEEN", "note_pin_gaps"]

MOST_BETWEEN = 5
"""Holes of a row between neighbouring pins or set fasteners while it is being set (project choice)."""


def note_pin_gaps(work: Work, filling: Iterable[int]) -> None:
    """Note each gap without pins, in the rows of the holes about to be filled, that is too long.

    Only where pins hold those parts at all: who works without pins has other ways to hold them.
    """
    told: set[tuple[str, int | None, int | None]] = set()
    for index in filling:
        stack = work.shop.assembly.stacks[index]
        if not stack.holes or work.shop.is_muted(stack) or not _pinned(work, frozenset(stack.parts)):
            continue
        row = stack.holes[0].rpartition(".")[0]
        line = _line(work, row, index)
        at = line.index(index)
        before = next((k for k in reversed(line[:at]) if _holds(work, k)), None)
        after = next((k for k in line[at + 1 :] if _holds(work, k)), None)
        first = line.index(before) + 1 if before is not None else 0
        last = line.index(after) if after is not None else len(line)
        if last - first > MOST_BETWEEN and not _holds(work, index) and (row, before, after) not in told:
            told.add((row, before, after))
            trouble = PinsFarApart(
                step=work.number,
                at=work.step.at,
                stack=index,
                between=(before, after),
                holes=last - first,
            )
            work.shop.troubles.note(trouble)


def _pinned(work: Work, parts: frozenset[str]) -> bool:
    return any(len(parts & those) >= 2 for _, those in work.shop.pinned)


def _holds(work: Work, index: int) -> bool:
    return index in work.shop.pins or index in work.shop.filled


def _line(work: Work, row: str, index: int) -> list[int]:
    """Return the stacks of the row that join the same parts, in the order of their numbers."""
    assembly = work.shop.assembly
    parts = set(assembly.stacks[index].parts)
    placed, _, name = row.rpartition(".")
    holes = sorted((hole.number, hole.name) for hole in assembly.placed[placed].holes if hole.row == name)
    stacks = (assembly.stack_of.get(f"{placed}.{hole}") for _, hole in holes)
    return [
        k for k in dict.fromkeys(stacks) if k is not None and len(parts & set(assembly.stacks[k].parts)) > 1
    ]
