"""The page of each table: a hand-written text on what it is for and its doubts, and the rows of its file."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from seqviz.trade.tables import INCH, KNOWN, Row, rows, table_names, value_of

__all__ = ["INDEX", "index", "page", "write_pages"]

INDEX = "README.md"

_HOW = {
    "read": "read in a copy of the source",
    "secondary": "read in a text that quotes or restates the source",
    "memory": "from memory, not read: look it up before you rely on it",
    "custom": "common practice, no published source",
    "computed": "computed by a formula, or taken from a series that the source names",
}
_INTRODUCTION = """# Tables

Published values of the trade as seqviz uses them: as printed, in the unit of their source, each row with
where it comes from. Where sources disagree each has its row. The designer's drawings and the fastener maker's
data govern and go before every table; these values are for cross-checking.

How well a row is known stands in its last column:

"""


def page(name: str) -> str:
    """Return the page of the table ``name`` as markdown: its text, then its rows."""
    return f"{_text(name)}\n\n{_table(rows(name))}\n"


def index() -> str:
    """Return the list of all tables with the first sentence of each page, as markdown."""
    how = "\n".join(f"- {known}: {_HOW[known]}" for known in KNOWN)
    lines = []
    for name in table_names():
        title, _, first = _text(name).partition("\n\n")
        sentence = " ".join(first.split("\n\n")[0].split()).split(". ")[0].rstrip(".")
        lines.append(f"- [{title.removeprefix('# ')}]({name}.md): {sentence}")
    return f"{_INTRODUCTION}{how}\n\n" + "\n".join(lines) + "\n"


def write_pages(folder: str) -> None:
    """Write every page and the list of them into ``folder``."""
    target = Path(folder)
    target.mkdir(parents=True, exist_ok=True)
    (target / INDEX).write_text(index(), encoding="utf-8")
    for name in table_names():
        (target / f"{name}.md").write_text(page(name), encoding="utf-8")


def _text(name: str) -> str:
    written = files("seqviz.trade") / "data" / f"{name}.md"
    return written.read_text(encoding="utf-8").strip()


def _table(found: tuple[Row, ...]) -> str:
    columns = list(found[0].cells)
    shown = [(column, metric) for column in columns for metric in _ways(column)]
    lines = [_line([f"{column[:-3]} mm" if metric else column for column, metric in shown])]
    lines.append(_line(["---"] * len(shown)))
    lines += [_line([_cell(row.cells[column], metric) for column, metric in shown]) for row in found]
    return "\n".join(lines)


def _ways(column: str) -> tuple[bool, ...]:
    """Return whether a column is shown as printed, and in mm beside it: lengths in inches are."""
    return (False, True) if column.endswith(" in") else (False,)


def _cell(text: str, metric: bool) -> str:
    return f"{value_of(text) * INCH:.3f}" if metric and text else text


def _line(cells: list[str]) -> str:
    return "| " + " | ".join(cells) + " |"
