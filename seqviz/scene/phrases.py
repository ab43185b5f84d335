"""Small pieces of plain language: counts, lists, runs of hole numbers, lengths."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import numpy as np

__all__ = ["counted", "listed", "ranges", "runs", "sentence"]


def counted(number: int, thing: str) -> str:
    """Return ``1 hole``, ``24 rivets``."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def listed(names: Iterable[str], joint: str = "and") -> str:
    """Return ``a``, ``a and b``, ``a, b and c``."""
    *head, last = list(names) or [""]
    return f"{', '.join(head)} {joint} {last}" if head else last


def ranges(holes: Iterable[str]) -> str:
    """Return hole names with their numbers run together: ``rail.foot 1, 4-27``; rows in the order met."""
    rows: dict[str, list[int]] = {}
    for hole in holes:
        row, _, number = hole.rpartition(".")
        rows.setdefault(row, []).append(int(number))
    return ", ".join(f"{row} {runs(sorted(set(numbers)))}" for row, numbers in rows.items())


def sentence(text: str) -> str:
    """Return ``text`` on one line, with a capital at its start and a stop at its end."""
    tidy = " ".join(text.split())
    tidy = tidy[:1].upper() + tidy[1:]
    return tidy if tidy.endswith((".", "!", "?", ":")) else f"{tidy}."


def runs(numbers: list[int]) -> str:
    """Return ``1-3, 7`` for 1, 2, 3, 7."""
    cuts = [0, *(np.flatnonzero(np.diff(numbers) != 1) + 1).tolist(), len(numbers)]
    ends = [(numbers[a], numbers[b - 1]) for a, b in pairwise(cuts)]
    return ", ".join(f"{first}" if first == last else f"{first}-{last}" for first, last in ends)
