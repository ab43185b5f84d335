"""Names of holes, and how many of them are said in one breath."""

from __future__ import annotations

from collections.abc import Iterable

__all__ = ["number_ranges", "split_hole"]


def split_hole(name: str) -> tuple[str, int]:
    """Return ``PLACED.ROW`` and the number of the hole ``PLACED.ROW.N``."""
    row, _, number = name.rpartition(".")
    return row, int(number)


def number_ranges(numbers: Iterable[int]) -> str:
    """Return numbers in rising order with runs of them drawn together: ``1-3, 5, 8-30``."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in runs)
