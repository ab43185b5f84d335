"""Rows of holes that take more than one length: what to know before the work begins."""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.structure import Assembly
from seqviz.scene.hole_names import split_hole
from seqviz.scene.phrases import listed, runs
from seqviz.trade.choice_words import take_words

__all__ = ["mixed_lengths"]

_Taken = tuple[str, str]
"""Fastener, and what is taken of it."""


def mixed_lengths(assembly: Assembly, units: str) -> list[str]:
    """Return a sentence for each row whose holes take more than one length of one fastener.

    Rows of several parts that are the same joints are told once, by the longest of them.
    """
    rows: dict[str, dict[int, int]] = {}
    taken: dict[int, _Taken] = {}
    for stack in assembly.stacks:
        choice = stack.choice
        take = take_words(choice, units) if choice else ""
        if take and stack.fastener:
            taken[stack.index] = (stack.fastener, take)
            for hole in stack.holes:
                row, number = split_hole(hole)
                rows.setdefault(row, {})[number] = stack.index
    told: list[set[int]] = []
    found = []
    for row, numbers in sorted(rows.items(), key=lambda pair: -len(set(pair[1].values()))):
        joints = set(numbers.values())
        if any(joints <= others for others in told):
            continue
        told.append(joints)
        found += list(_sentences(row, numbers, taken))
    return found


def _sentences(row: str, numbers: dict[int, int], taken: dict[int, _Taken]) -> Iterator[str]:
    sorts: dict[str, dict[str, list[int]]] = {}
    for number, index in sorted(numbers.items()):
        name, take = taken[index]
        sorts.setdefault(name, {}).setdefault(take, []).append(number)
    for name, takes in sorts.items():
        if len(takes) > 1:
            each = [f"{take} in {runs(which)}" for take, which in takes.items()]
            yield f"More than one length in a row: {row} takes of {name} {listed(each)}."
