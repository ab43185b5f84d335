"""A sequence file as plain lists and dictionaries, read without the program's own reader."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from seqviz.assembly.structure import Assembly
from tests.mutations.bench import names_of

__all__ = ["Entry", "Line", "dumped", "holes_of", "lines_of", "listed", "read"]

Entry = dict[str, Any]
"""A step as written: action word -> value, and the words beside it."""


@dataclass(frozen=True)
class Line:
    """A numbered step, the work on which it is done, and the ``apart`` entry around it."""

    number: int
    entry: Entry
    work: str | None
    around: Entry | None


def read(path: Path) -> Entry:
    """Return the whole file; every value is text, as it was written."""
    found: Entry = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    return found


def dumped(file: Entry) -> str:
    """Return the file as text again, without comments."""
    return yaml.safe_dump(file, sort_keys=False, width=100_000)


def lines_of(file: Entry) -> list[Line]:
    """Return the steps in reading order; an ``apart`` line has no number of its own."""
    return [
        Line(number, entry, around["apart"] if around else None, around)
        for number, (entry, around) in enumerate(_flat(file["steps"], None), start=1)
    ]


def _flat(steps: list[Entry], around: Entry | None) -> Iterator[tuple[Entry, Entry | None]]:
    for entry in steps:
        if "apart" in entry:
            yield from _flat(entry["steps"], entry)
        else:
            yield entry, around


def listed(value: Any) -> list[str]:
    return [value] if isinstance(value, str) else list(value or ())


def holes_of(assembly: Assembly, value: Any) -> list[int]:
    """Return the stacks of ``PLACED.ROW``, ``PLACED.ROW.N``, ``PLACED.ROW.N-M``, one or a list."""
    found: dict[int, None] = {}
    for name in listed(value):
        placed, row, *rest = name.split(".")
        low, high = 1, 10_000
        if rest:
            ends = [int(n) for n in rest[0].split("-")]
            low, high = min(ends), max(ends)
        for part in names_of(assembly, placed):
            holes = assembly.placed[part].holes
            rows = [row] if any(h.row == row for h in holes) else [f"{row} left", f"{row} right"]
            for one in rows:
                numbers = sorted(h.number for h in holes if h.row == one and low <= h.number <= high)
                stacks = (assembly.stack_of.get(f"{part}.{one}.{n}") for n in numbers)
                found.update({k: None for k in stacks if k is not None})
    return list(found)
