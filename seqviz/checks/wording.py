"""How numbers and names are said in messages."""

from __future__ import annotations

from collections.abc import Iterable

from seqviz.build import Build
from seqviz.units import length_text

__all__ = ["counted", "length", "listed", "spans"]


def listed(names: Iterable[str], joint: str = "and") -> str:
    """Return ``a, b and c``."""
    *head, last = list(names) or [""]
    return f"{', '.join(head)} {joint} {last}" if head else last


def counted(number: int, thing: str) -> str:
    """Return ``1 hole``, ``2 holes``."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def length(build: Build, value: float) -> str:
    """Return ``value``, mm, in the units of the model: ``0.35 mm``, ``0.0138 in``."""
    return length_text(value, build.model.units)


def spans(holes: Iterable[str]) -> str:
    """Return hole names in short: ``rail left.foot 4-27, 29 and rail right.foot 4``.

    Rows come in the order in which they are first named, numbers are counted up.
    """
    rows: dict[str, set[int]] = {}
    for hole in holes:
        row, _, number = hole.rpartition(".")
        rows.setdefault(row, set()).add(int(number))
    return listed(f"{row} {_runs(sorted(numbers))}" for row, numbers in rows.items())


def _runs(numbers: list[int]) -> str:
    """Return ``1-3, 7`` for 1, 2, 3, 7."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(str(first) if first == last else f"{first}-{last}" for first, last in runs)
