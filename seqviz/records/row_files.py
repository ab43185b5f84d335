"""``rows from``: rows of holes kept in a spreadsheet join the parts as if they were written there."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from itertools import zip_longest

from seqviz.records.csv_cells import Cell, CellItems, CellMapping, Line, lines_of
from seqviz.records.hole_widths import says_a_width
from seqviz.records.kinds import Text
from seqviz.records.lists import ListOf
from seqviz.records.nodes import Items, Mapping, Node, Scalar, Spoiled
from seqviz.records.reading import Reading
from seqviz.records.source import Source, Unreadable, read_source
from seqviz.records.tables import Field
from seqviz.records.words import as_name, as_word, listed, meant
from seqviz.units import Slip, length

__all__ = ["ROWS_FROM", "join_rows"]

ROWS_FROM = Field(
    word="rows from",
    kind=ListOf(each=Text(), label="a CSV file or a list of them", alone=True),
    help="Rows of holes kept in a spreadsheet: the paths of CSV files, seen from this file.",
)
"""The word of the model; the files are read by `join_rows` before everything else."""

_COLUMNS: dict[str, tuple[str, ...]] = {
    "part": ("part name",),
    "row": ("row name", "hole row"),
    "flat": ("leg", "flange"),
    "edge": ("along", "along edge"),
    "from edge": ("in", "edge distance", "distance from edge", "off edge"),
    "first": ("first hole", "first at", "start"),
    "last": ("last hole", "last at", "end"),
    "last in": (),
    "count": ("holes", "number", "number of holes", "qty", "quantity", "n"),
    "pitch": ("spacing",),
    "spaces": (),
    "size": ("hole size", "diameter", "dia", "hole", "hole diameter"),
    "both sides": (),
}
"""Column -> what else it may be called."""

_NEEDED = ("part", "row", "from edge", "first", "size")
_REMARKS = ("note", "notes", "remark", "remarks", "comment", "comments")
_CALLED = {name: column for column, others in _COLUMNS.items() for name in (column, *others)}
_WHY = "The columns of a file of rows: part, row, from edge, first, last, count, size; also flat, edge, "
_WHY += "last in, pitch, spaces, both sides. A column called notes is passed over."
_SIDES = ("left", "right", "forward", "aft")


@dataclass(slots=True, kw_only=True, eq=False)
class _Table:
    """A file of rows while it is read: its columns, their units, the parts that may be meant."""

    reading: Reading
    columns: list[str | None]
    units: list[str]
    parts: dict[str, Mapping]
    sizes: frozenset[str]


def join_rows(reading: Reading, root: Mapping) -> dict[str, Source]:
    """Put the rows of the files named in ``rows from`` into the parts of a model that is not read yet.

    Mistakes in them stand in the CSV file. Where a file is no use at all, parts that have no holes of their
    own are spoiled, so that nothing is said about the rows they lack.

    Returns
    -------
    dict
        Path as shown in findings -> text of each file read.
    """
    sources: dict[str, Source] = {}
    for name in _written(root):
        path = os.path.normpath(os.path.join(os.path.dirname(reading.file), name.text.strip()))
        if path in sources:
            reading.duplicate(f"`{name.text.strip()}`", name, name)
            continue
        try:
            sources[path] = read_source(path)
        except Unreadable as trouble:
            reading.bad(
                name,
                f"The rows cannot be read: {trouble.message}",
                "`rows from` names a file of rows, saved as CSV, seen from the model's folder.",
                "Correct the path, or save the table as CSV in UTF-8.",
            )
            _spoil(root)
            continue
        if not _joined(reading, root, sources[path]):
            _spoil(root)
    return sources


def _written(root: Mapping) -> list[Scalar]:
    """Return the paths as far as they are texts; what else stands there is told in its turn."""
    node = _value(root, "rows from")
    items = node.items if isinstance(node, Items) else [node]
    return [item for item in items if isinstance(item, Scalar) and item.text.strip()]


def _value(root: Mapping, word: str) -> Node | None:
    return next((value for key, value in root.pairs if as_word(key.text) == word), None)


def _spoil(root: Mapping) -> None:
    parts = _value(root, "parts")
    if isinstance(parts, Mapping):
        for index, (key, value) in enumerate(parts.pairs):
            if isinstance(value, Mapping) and _value(value, "holes") is None:
                parts.pairs[index] = (key, Spoiled(value.line, value.column))


def _joined(reading: Reading, root: Mapping, source: Source) -> bool:
    """Join the rows of one file; say whether it could be understood at all."""
    lines = lines_of(source)
    columns = _columns(reading, lines, source)
    if columns is None:
        return False
    parts, sizes = _value(root, "parts"), _value(root, "sizes")
    table = _Table(
        reading=reading,
        columns=columns,
        units=[_unit(cell.text) for cell in lines[0].cells],
        parts={as_name(key.text): value for key, value in parts.pairs if isinstance(value, Mapping)}
        if isinstance(parts, Mapping)
        else {},
        sizes=frozenset(as_name(key.text) for key, _ in sizes.pairs)
        if isinstance(sizes, Mapping)
        else frozenset(),
    )
    for line in lines[1:]:
        _join(table, line)
    return True


def _columns(reading: Reading, lines: list[Line], source: Source) -> list[str | None] | None:
    """Return the column of each cell of the first line, None for remarks; None where they are no use."""
    if not lines:
        at = source.at(1, 1)
        reading.bad(at, "This file of rows is empty.", _WHY, "Write a line of columns, then the rows.")
        return None
    columns: list[str | None] = []
    wrong = False
    for cell in lines[0].cells:
        word = as_word(re.sub(r"[(\[].*?[)\]]|\.", "", cell.text))
        column = _CALLED.get(word)
        if column is None and word and word not in _REMARKS:
            near = meant(word, [name for name in _CALLED if _CALLED[name] not in columns])
            fix = f"Did you mean `{near}`?" if near else "Use one of these words, or call it notes."
            reading.report("unknown-word", cell, f"`{cell.text}` is no column of a file of rows.", _WHY, fix)
            wrong = True
        if column is not None and column in columns:
            reading.duplicate(f"The column `{column}`", cell, lines[0].cells[columns.index(column)])
            wrong = True
        columns.append(column)
    lacking = [] if wrong else [column for column in _NEEDED if column not in columns]
    if lacking:
        cell = lines[0].cells[0]
        shown = listed(f"`{column}`" for column in lacking).replace(" or ", " and ")
        verb = "is" if len(lacking) == 1 else "are"
        reading.report(
            "missing-word", cell, f"{shown} {verb} missing in the first line.", _WHY, "Add the columns."
        )
    return None if wrong or lacking else columns


def _unit(title: str) -> str:
    """Return the unit in brackets in a column's title: ``first (in)``."""
    found = re.search(r"[(\[]\s*(mm|cm|in|inch|inches)\.?\s*[)\]]", title.lower())
    return "" if found is None else found[1].replace("inches", "in").replace("inch", "in")


def _join(table: _Table, line: Line) -> None:
    cells = _cells(table, line)
    part_cell, row_cell = cells.get("part"), cells.get("row")
    place = line.cells[0]
    for column, cell in (("part", part_cell), ("row", row_cell)):
        if cell is None:
            _missing(table, place, column)
    if part_cell is None or row_cell is None:
        return
    part = table.parts.get(as_name(part_cell.text))
    if part is None:
        _unknown_part(table, part_cell)
        return
    holes = _value(part, "holes")
    if holes is None:
        holes = CellMapping([], place.line, place.column, file=place.file)
        part.pairs.append((Cell("holes", place.line, place.column, file=place.file), holes))
    if isinstance(holes, Scalar) and holes.text.strip():
        # `holes: same as PART` in one line; with rows beside it the same, word by word.
        holes = _same_with_rows(part, holes)
    if isinstance(holes, Mapping):
        holes.pairs.append((row_cell, _row(table, cells, line)))


def _same_with_rows(part: Mapping, said: Scalar) -> Node:
    found = re.fullmatch(r"\s*same[\s_-]+as\s+(.+)", said.text)
    if found is None:
        return said
    key = Scalar("same as", said.line, said.column)
    holes = Mapping([(key, Scalar(found[1], said.line, said.column))], said.line, said.column)
    index = next(k for k, (_, value) in enumerate(part.pairs) if value is said)
    part.pairs[index] = (part.pairs[index][0], holes)
    return holes


def _cells(table: _Table, line: Line) -> dict[str, Cell]:
    """Return the cells of a line by column, empty ones left out, plain numbers with their column's unit."""
    found: dict[str, Cell] = {}
    for column, unit, cell in zip_longest(table.columns, table.units, line.cells):
        if column is not None and cell is not None and cell.text:
            text = f"{cell.text} {unit}" if unit and re.fullmatch(r"[\d.,+-]+", cell.text) else cell.text
            found[column] = Cell(text, cell.line, cell.column, file=cell.file)
    return found


def _row(table: _Table, cells: dict[str, Cell], line: Line) -> Node:
    """Return the row as it would be written in the model; spoiled where a mistake was noted."""
    place = line.cells[0]
    spoiled = Spoiled(place.line, place.column)
    if len(line.cells) > len(table.columns) or line.open_quote is not None:
        table.reading.bad(
            line.open_quote or line.cells[len(table.columns)],
            "A quote has no end in this line."
            if line.open_quote is not None
            else f"This line has {len(line.cells)} cells, the first one {len(table.columns)}.",
            "Every cell belongs to a column. A decimal comma would split a number in two.",
            "Write decimals with a point; put a text that holds a comma in double quotes.",
        )
        return spoiled
    lacking = [column for column in _NEEDED if column not in cells]
    for column in lacking:
        _missing(table, place, column)
    if lacking:
        return spoiled
    pairs = _along_edge(table, cells) if "edge" in cells else _straight(table, cells)
    if pairs is None:
        return spoiled
    pairs += [(word, cells[word]) for word in ("flat", "both sides") if word in cells]
    size = cells["size"]
    plain = as_name(size.text) not in table.sizes
    wide = plain and says_a_width(size.text, table.reading.units)
    pairs.append(("diameter" if wide else "size", size))
    keys = [(Cell(word, node.line, node.column, file=place.file), node) for word, node in pairs]
    return CellMapping(list(keys), place.line, place.column, file=place.file)


def _straight(table: _Table, cells: dict[str, Cell]) -> list[tuple[str, Node]]:
    """Return from and to: x is first and last, y is from edge; one hole where last is empty."""
    first, inset = cells["first"], cells["from edge"]
    spacing: list[tuple[str, Node]] = [
        (word, cells[word]) for word in ("count", "pitch", "spaces") if word in cells
    ]
    last = cells.get("last")
    if last is None:
        alone = [(word, node) for word, node in spacing if not isinstance(node, Scalar) or node.text != "1"]
        return [("at", _items([first, inset])), *alone, *_if_written(cells, "last in")]
    # A slip in the one cell that serves both ends is told once.
    told = isinstance(length(inset.text, table.reading.units), Slip)
    again = Cell(inset.text, inset.line, inset.column, lost=told, file=inset.file)
    return [("from", _items([first, inset])), ("to", _items([last, again])), *spacing]


def _along_edge(table: _Table, cells: dict[str, Cell]) -> list[tuple[str, Node]] | None:
    """Return a row along an edge: first and last are measured from the edge's start."""
    edge = cells["edge"]
    if as_word(edge.text) in _SIDES:
        edge = Cell(f"{as_word(edge.text)} edge", edge.line, edge.column, file=edge.file)
    pairs: list[tuple[str, Node]] = [("along", edge), ("in", cells["from edge"]), ("first", cells["first"])]
    pairs += _if_written(cells, "last in", "count", "pitch", "spaces")
    last = cells.get("last")
    if last is None:
        return pairs
    count = cells.get("count")
    if count is None or not count.text.isdigit() or int(count.text) < 2:
        table.reading.report(
            "missing-word",
            count or last,
            "A row along an edge with `last` needs a count of 2 or more.",
            "First and last are measured from the edge's aft or right end; the count fills what is between.",
            "Fill the cell of the count, or write `last in`, the distance from the edge's other end.",
        )
        return None
    return [*pairs, ("pitch", _pitch(table, cells["first"], last, int(count.text) - 1))]


def _pitch(table: _Table, first: Cell, last: Cell, spaces: int) -> Cell:
    """Return the pitch between first and last, which a row along an edge wants in the place of last."""
    start, end = (length(cell.text, table.reading.units) for cell in (first, last))
    if isinstance(start, Slip) or isinstance(end, Slip):
        # Handed on as it is written, so that the slip is told where it stands.
        return last
    return Cell(f"{(end - start) / spaces!r} mm", last.line, last.column, file=last.file)


def _if_written(cells: dict[str, Cell], *words: str) -> list[tuple[str, Node]]:
    return [(word, cells[word]) for word in words if word in cells]


def _items(cells: list[Cell]) -> CellItems:
    first = cells[0]
    return CellItems(list(cells), first.line, first.column, file=first.file)


def _missing(table: _Table, place: Cell, column: str) -> None:
    table.reading.report(
        "missing-word",
        place,
        f"`{column}` is empty in this line.",
        "A row of holes has a part, a name, a distance from the edge, a first hole and a size.",
        "Fill the cell, or delete the line.",
    )


def _unknown_part(table: _Table, cell: Cell) -> None:
    near = meant(cell.text, table.parts)
    table.reading.report(
        "unknown-name",
        cell,
        f"There is no part `{cell.text}`.",
        f"There is {listed(table.parts)}." if table.parts else "None is written in the model.",
        f"Did you mean `{near}`?"
        if near
        else "Write one of the names that are there, or add it to the model.",
    )
