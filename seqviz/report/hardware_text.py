"""What to lay out or to order, as text, and as a table for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence

from seqviz.report.style import PLAIN, Style, columns, harmless, wrapped
from seqviz.scene.hardware_list import LEAST_SPARE, NOT_NAMED, HardwareList, HardwareRow
from seqviz.scene.phrases import counted, listed
from seqviz.trade.choice_words import plain, span

__all__ = ["CSV_HEAD", "hardware_csv", "hardware_text"]

_HEADS = ("fastener", "take", "grip", "needed", "spare", "in all")
_RIGHT = 3  # from this column on there are numbers

_COLUMNS = (
    "kind",
    "fastener",
    "take",
    "shank diameter mm",
    "length mm",
    "least grip mm",
    "greatest grip mm",
    "needed",
    "spare",
    "in all",
    "remark",
)
CSV_HEAD = ",".join(_COLUMNS)
"""The first line of the table: by it a file that we wrote is known again."""

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def hardware_text(wanted: HardwareList, units: str, steps: str | None = None, style: Style = PLAIN) -> str:
    """Return the whole text of ``seqviz stack --hardware``; ``steps``: as asked, ``4-9``."""
    if not wanted.rows:
        what = f"Steps {steps} set no fasteners." if steps else "No fasteners."
        return "\n".join([what, *_remarks(wanted, units, style.width)]) + "\n"
    blocks = ["\n".join(_table(wanted.rows, units)), "\n".join(_remarks(wanted, units, style.width))]
    head = f"{counted(wanted.fasteners, 'fastener')}{f' in steps {steps}' if steps else ''}."
    return "\n\n".join([*blocks[:1], "\n".join([head, blocks[1]])]) + "\n"


def hardware_csv(wanted: HardwareList) -> str:
    """Return the table: one row a sort, lengths in mm whatever the model is written in."""
    written = io.StringIO()
    table = csv.writer(written, lineterminator="\n")
    table.writerow(_COLUMNS)
    for row in wanted.rows:
        numbers = (row.diameter, row.length, *row.grips)
        table.writerow(
            [
                row.kind,
                _cell(row.name),
                _cell(row.take),
                *("" if value is None else f"{value:.3f}".rstrip("0").rstrip(".") for value in numbers),
                row.needed,
                row.spare,
                row.needed + row.spare,
                _cell(row.why),
            ]
        )
    return written.getvalue()


def _cell(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula."""
    tidy = harmless(text)
    return f"'{tidy}" if tidy.startswith(_FORMULA) else tidy


def _table(rows: Sequence[HardwareRow], units: str) -> Iterator[str]:
    cells = [_HEADS, *(_cells(row, units) for row in rows)]
    wide = [max(columns(row[k]) for row in cells) for k in range(len(_HEADS))]
    for row in cells:
        told = []
        for k, (cell, width) in enumerate(zip(row, wide, strict=True)):
            room = " " * (width - columns(cell))
            told.append(room + cell if k >= _RIGHT else cell + room)
        yield "  ".join(told).rstrip()


def _cells(row: HardwareRow, units: str) -> tuple[str, ...]:
    least, most = row.grips
    grip = plain(least, units) if most - least < 0.005 else span(least, most, units)
    return (
        harmless(_named(row, units)),
        row.take or ("" if row.kind in ("washer", "nut") else "no length"),
        grip,
        str(row.needed),
        str(row.spare),
        str(row.needed + row.spare),
    )


def _named(row: HardwareRow, units: str) -> str:
    if row.kind == NOT_NAMED:
        return f"what fits a hole of {plain(row.diameter, units)}"
    return row.name if row.kind in row.name else f"{row.name} ({row.kind})"


def _remarks(wanted: HardwareList, units: str, width: int) -> list[str]:
    out: list[str] = []
    for row in wanted.rows:
        if row.why:
            out += wrapped("", f"No length for {_named(row, units)}: {row.why}", width)
    for words in _sentences(wanted, units):
        out += wrapped("", words, width)
    return out


def _sentences(wanted: HardwareList, units: str) -> Iterator[str]:
    if wanted.again:
        yield f"{counted(wanted.again, 'fastener')} among them after one was drilled out of the same hole."
    if wanted.unset:
        yield f"{wanted.unset} of them for holes that no step fills yet."
    if wanted.later:
        yield f"Not counted: {counted(wanted.later, 'hole')} named under later."
    for one in wanted.inside:
        yield (
            f"Not counted: what is set inside {listed(one.placed)} before that comes here; its own list: "
            f'seqviz stack "{one.path}" --hardware. What goes through both is counted here.'
        )
    if wanted.rows and wanted.percent > 0:
        yield (
            f"Spares: {wanted.percent:g} % of each sort, rounded up, at least {LEAST_SPARE}; "
            "--spares says another share."
        )
    if wanted.rows and units == "mm":
        yield "Lengths in mm."
