"""How numbers and names are said in messages."""

from __future__ import annotations

from collections.abc import Iterable

from seqviz.build import Build
from seqviz.scene.phrases import counted, listed, runs
from seqviz.units import length_text

__all__ = ["counted", "length", "listed", "spans", "steps_named"]


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
    return listed(f"{row} {runs(sorted(numbers))}" for row, numbers in rows.items())


def steps_named(numbers: Iterable[int]) -> str:
    """Return ``step 3``, ``steps 3 and 5``; 0 is what was there before the first: ``the start``."""
    ordered = sorted(set(numbers))
    if ordered == [0]:
        return "the start"
    return f"step{'s' if len(ordered) > 1 else ''} {listed(map(str, ordered))}"
