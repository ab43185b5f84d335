"""A table kept in a spreadsheet and saved as CSV, as cells that know their line and column."""

from __future__ import annotations

import re
from dataclasses import dataclass

from seqviz.records.nodes import Items, Mapping, Scalar
from seqviz.records.source import Source

__all__ = ["Cell", "CellItems", "CellMapping", "Line", "lines_of"]

_SEPARATORS = (";", "\t", ",")
"""In this order: where decimals have a comma, spreadsheets put a semicolon between cells."""


@dataclass(slots=True, eq=False)
class Cell(Scalar):
    """A cell's text without blanks at its ends, and the file in which it stands."""

    file: str = ""


@dataclass(slots=True, eq=False)
class CellItems(Items):
    """A list made of cells."""

    file: str = ""


@dataclass(slots=True, eq=False)
class CellMapping(Mapping):
    """Words with cells as their values."""

    file: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Line:
    """The cells of one line; ``open_quote`` is one with a quote that does not end in the line."""

    cells: tuple[Cell, ...]
    open_quote: Cell | None = None


def lines_of(source: Source) -> list[Line]:
    """Return the lines that hold anything; those that begin with ``#`` are comments.

    Cells are told apart by semicolons, tabs or commas, whichever stands in the first line. A cell in double
    quotes may hold them too; a quote inside it is written twice.
    """
    written = [
        (number, text)
        for number, text in enumerate(source.lines, start=1)
        if text.strip(' ,;\t"') and not text.lstrip().startswith("#")
    ]
    if not written:
        return []
    told = re.fullmatch(r'"?sep=(.)"?', written[0][1].strip())
    if told is not None:
        # Some spreadsheets write the separator into a line of its own.
        return [_line(text, number, told[1], source.path) for number, text in written[1:]]
    separator = next((sign for sign in _SEPARATORS if sign in written[0][1]), ",")
    return [_line(text, number, separator, source.path) for number, text in written]


def _line(text: str, number: int, separator: str, file: str) -> Line:
    cells: list[Cell] = []
    open_quote = None
    quoted = re.compile(rf'\s*"((?:[^"]|"")*)"\s*(?={re.escape(separator)}|$)')
    start = 0
    while start <= len(text):
        found = quoted.match(text, start)
        end = found.end() if found else text.find(separator, start)
        end = len(text) if end < 0 else end
        raw = text[start:end]
        column = start + len(raw) - len(raw.lstrip()) + 1
        inside = found[1].replace('""', '"').strip() if found else raw.strip()
        cells.append(Cell(inside, number, column, file=file))
        if found is None and inside.startswith('"'):
            open_quote = cells[-1]
        start = end + 1
    while cells and not cells[-1].text:
        cells.pop()
    return Line(cells=tuple(cells), open_quote=open_quote)
