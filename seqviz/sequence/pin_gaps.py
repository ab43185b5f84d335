"""Rows that are set with too few pins: how many holes lie between one that holds and the next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from seqviz.assembly.structure import Assembly, Stack
from seqviz.sequence.replay_types import PinsFarApart
from seqviz.sequence.work import Work

__all__ = ["MOST_BETWEEN", "note_pin_gaps"]

MOST_BETWEEN = 10
"""Holes of a row between neighbouring pins or set fasteners while it is being set (project choice)."""


def note_pin_gaps(work: Work, filling: Iterable[int]) -> None:
    """Note each gap without pins, in the rows of the holes about to be filled, that is too long.

    Only where pins hold those parts at all: who works without pins has other ways to hold them.
    """
    shop = work.shop
    wanted = frozenset(filling)
    told: set[int] = set()
    for row, parts in _rows(shop.assembly.stacks[k] for k in sorted(wanted)):
        if parts.isdisjoint(shop.assembly.muted) and _pinned(work, parts):
            line = _line(shop.assembly, row, parts)
            for before, inner, after in _gaps(work, line):
                first = next((k for k in inner if k in wanted), None)
                if len(inner) > MOST_BETWEEN and first is not None and first not in told:
                    told.add(first)
                    trouble = PinsFarApart(
                        step=work.number,
                        at=work.step.at,
                        stack=first,
                        between=(before, after),
                        holes=len(inner),
                    )
                    shop.troubles.note(trouble)


def _rows(stacks: Iterable[Stack]) -> list[tuple[str, frozenset[str]]]:
    """Return the rows, by the name farthest from the base, each with the parts that it joins."""
    return list(dict.fromkeys((s.holes[0].rpartition(".")[0], frozenset(s.parts)) for s in stacks if s.holes))


def _pinned(work: Work, parts: frozenset[str]) -> bool:
    return any(frozenset(pair) in work.shop.pinned_together for pair in combinations(parts, 2))


def _line(assembly: Assembly, row: str, parts: frozenset[str]) -> list[int]:
    """Return the stacks of the row that join two of ``parts`` at least, in the order of their numbers."""
    placed, _, name = row.partition(".")
    holes = sorted((hole.number, hole.name) for hole in assembly.placed[placed].holes if hole.row == name)
    stacks = dict.fromkeys(assembly.stack_of.get(f"{placed}.{hole}") for _, hole in holes)
    return [k for k in stacks if k is not None and len(parts.intersection(assembly.stacks[k].parts)) > 1]


def _gaps(work: Work, line: list[int]) -> Iterator[tuple[int | None, list[int], int | None]]:
    """Yield the runs of empty holes, each with the pinned or set hole before and after it."""
    before: int | None = None
    inner: list[int] = []
    for index in line:
        if index in work.shop.pins or index in work.shop.filled:
            yield before, inner, index
            before, inner = index, []
        else:
            inner.append(index)
    yield before, inner, None
