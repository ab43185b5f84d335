"""The published tables: one csv file in ``data`` each, one row one value as printed, its source beside it.

A table is read when it is first asked for. Nothing is guessed: a cell that is empty has no number, and no
table is stretched past its ends. `seqviz.trade.pages` writes the page of each.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from seqviz.units import UNITS

__all__ = ["INCH", "KNOWN", "Row", "citations", "rows", "same_size", "table_names", "value_of"]

INCH = UNITS["in"]

KNOWN: dict[str, str] = {
    "read": "",
    "secondary": " (secondary)",
    "memory": ", from memory",
    "custom": "",
    "computed": ", computed",
}
"""How well a row is known -> what a citation adds to its source.

``read`` in a copy of the source, ``secondary`` in a text that quotes it, ``memory``: not read, ``custom``:
common practice, ``computed`` by a formula or from a series that the source names.
"""

_SAME_SIZE = 0.02  # mm: a metric writing of an inch size (3.18 for 1/8 in) is that size


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Row:
    """One row of the table ``table``: the text of every cell by the name of its column."""

    table: str
    cells: Mapping[str, str]

    @property
    def source(self) -> str:
        """Title, edition, paragraph or table; or ``common practice, no source``."""
        return self.cells["source"]

    @property
    def known(self) -> str:
        """How well: a key of `KNOWN`."""
        return self.cells["known"]

    @property
    def citation(self) -> str:
        """The source as a finding names it: ``MS20470, from memory``."""
        return self.source + KNOWN[self.known]

    def text(self, column: str) -> str:
        """Return a cell as printed; KeyError where the table has no such column."""
        return self.cells[column]

    def has(self, column: str) -> bool:
        """Say whether a cell holds anything."""
        return bool(self.cells[column])

    def number(self, column: str) -> float:
        """Return a cell as a number in the unit of its column; ValueError where it is empty."""
        return value_of(self.cells[column])

    def mm(self, column: str) -> float:
        """Return the length in ``COLUMN in``, ``COLUMN mm``, or ``COLUMN`` of the row's ``unit``, in mm."""
        for unit in ("in", "mm"):
            if f"{column} {unit}" in self.cells:
                return self.number(f"{column} {unit}") * UNITS[unit]
        return self.number(column) * UNITS[self.cells["unit"]]


@cache
def value_of(text: str) -> float:
    """Return the number that ``.128``, ``3/32`` or ``1 1/2`` says; ValueError where it says none."""
    if not text:
        raise ValueError("the cell is empty")
    return float(sum(Fraction(piece) for piece in text.split()))


def same_size(one: float, other: float) -> bool:
    """Say whether two diameters, mm, are one nominal size: 3.18 mm is 1/8 in, 3.2 mm is not."""
    return abs(one - other) <= _SAME_SIZE


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Return the rows of the table ``name`` in the order of its file."""
    import csv
    from importlib.resources import files

    text = (files("seqviz.trade") / "data" / f"{name}.csv").read_text(encoding="utf-8")
    return tuple(Row(table=name, cells=cells) for cells in csv.DictReader(text.splitlines()))


@cache
def table_names() -> tuple[str, ...]:
    """Return the names of all tables, in alphabetical order."""
    from importlib.resources import files

    found = (entry.name for entry in (files("seqviz.trade") / "data").iterdir())
    return tuple(sorted(name.removesuffix(".csv") for name in found if name.endswith(".csv")))


def citations(found: tuple[Row, ...]) -> str:
    """Return the sources of some rows, each once: ``A; B, from memory``."""
    return "; ".join(dict.fromkeys(row.citation for row in found))
