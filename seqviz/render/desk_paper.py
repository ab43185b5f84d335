"""The paper beside the work: what to do in this step, what was picked, what is wrong in files, the keys."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from PIL import Image, ImageDraw

from seqviz.render.captions import wrapped
from seqviz.render.desk_state import KEYS
from seqviz.render.desk_words import shortened
from seqviz.render.ink import BLACK, PAPER, QUIET, SCALE, VERMILLION, font
from seqviz.render.symbols import MEANING, draw_symbol
from seqviz.scene.picture import MarkKind
from seqviz.scene.words import Words

__all__ = ["Colour", "Note", "draw_paper"]

Colour = tuple[int, int, int]

_SHADE = (236, 234, 228)  # of what does not change from step to step
_EDGE = 18.0
_TITLE, _TEXT, _SMALL = 12.5, 10.5, 9.5  # height of capitals, pixels
_LINE = 1.9  # of that
_SYMBOL = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """What stands on the paper.

    Attributes
    ----------
    words
        The step.
    progress
        Which step of how many, playing or not.
    picked
        What was picked, its name first; none: nothing was.
    wrong
        What is wrong in the files; none: nothing that stops.
    marks
        How many holes have which mark.
    shades
        What the colours of parts mean; none where they are plain.
    """

    words: Words
    progress: str
    picked: tuple[str, ...]
    wrong: tuple[str, ...]
    marks: Mapping[MarkKind, int]
    shades: tuple[tuple[Colour, str], ...]


class _Pen:
    """Writes downwards on a sheet drawn at `SCALE`, and stops at ``floor``."""

    def __init__(self, draw: ImageDraw.ImageDraw, width: int, floor: float) -> None:
        self.draw, self.width, self.floor = draw, width, floor
        self.y = _EDGE

    def write(self, text: str, cap: float, colour: Colour, *, bold: bool = False) -> None:
        """Write a paragraph; spaces at its start move all of it to the right."""
        inset = _EDGE + 7.0 * (len(text) - len(text.lstrip(" ")))
        lines = wrapped(text, cap * SCALE, (self.width - inset - _EDGE) * SCALE, bold=bold)
        for line in lines:
            if self.y + cap * _LINE > self.floor:
                self._dots()
                return
            self._line(line, inset, cap, colour, bold=bold)
            self.y += cap * _LINE

    def gap(self, high: float) -> None:
        """Leave room."""
        self.y += high

    def rule(self) -> None:
        """Draw a line across."""
        self.y += 8
        if self.y < self.floor:
            ends = (_EDGE * SCALE, self.y * SCALE, (self.width - _EDGE) * SCALE, self.y * SCALE)
            self.draw.line(ends, fill=QUIET, width=SCALE)
        self.y += 10

    def _line(self, line: str, inset: float, cap: float, colour: Colour, *, bold: bool) -> None:
        place = (inset * SCALE, (self.y + cap * _LINE / 2) * SCALE)
        self.draw.text(place, line, fill=colour, font=font(cap * SCALE, bold=bold), anchor="lm")

    def _dots(self) -> None:
        """Say once that there is more than there is room for."""
        if self.floor > 0:
            place = ((self.width - _EDGE) * SCALE, (self.floor - 4) * SCALE)
            self.draw.text(place, "…", fill=QUIET, font=font(_TEXT * SCALE, bold=True), anchor="rs")
            self.floor = 0.0


def draw_paper(note: Note, size: tuple[int, int]) -> Image.Image:
    """Return the paper, ``size`` (width, height) pixels."""
    width, height = size
    sheet = Image.new("RGB", (width * SCALE, height * SCALE), PAPER)
    draw = ImageDraw.Draw(sheet)
    rows = _legend_rows(note)
    floor = height - _EDGE - 1.9 * _SMALL * (len(KEYS) + 1) - 26.0 * len(rows) - 12.0
    draw.rectangle((0, floor * SCALE, *sheet.size), fill=_SHADE)
    _draw_foot(draw, note, rows, width, floor)
    pen = _Pen(draw, width, floor - 6)
    if note.wrong:
        _draw_wrong(pen, note.wrong, floor)
    pen.write(shortened(note.progress), _SMALL, QUIET)
    pen.gap(4)
    pen.write(shortened(note.words.title, 160), _TITLE, BLACK, bold=True)
    pen.gap(4)
    for line in note.words.lines:
        pen.write(shortened(line, 400), _TEXT, BLACK)
    if note.picked:
        pen.rule()
        pen.write(note.picked[0], _TEXT, BLACK, bold=True)
        for line in note.picked[1:]:
            pen.write(line, _TEXT, BLACK)
    elif note.words.holes:
        pen.gap(4)
        pen.write(shortened(note.words.holes, 400), _SMALL, QUIET)
    draw.line((sheet.width - 1, 0, sheet.width - 1, sheet.height), fill=QUIET, width=2 * SCALE)
    return sheet.reduce(SCALE)


def _draw_wrong(pen: _Pen, wrong: Sequence[str], floor: float) -> None:
    """Write what is wrong at the top, framed, on no more than two thirds of the paper."""
    kept, pen.floor = pen.floor, floor * 0.66
    pen.gap(4)
    top = pen.y - 12
    pen.write(wrong[0], _TEXT, VERMILLION, bold=True)
    for line in wrong[1:]:
        pen.write(line, _TEXT, BLACK)
    pen.floor = kept
    frame = (8 * SCALE, top * SCALE, (pen.width - 8) * SCALE, (pen.y + 8) * SCALE)
    pen.draw.rectangle(frame, outline=VERMILLION, width=2 * SCALE)
    pen.gap(22)


def _legend_rows(note: Note) -> list[MarkKind | tuple[Colour, str]]:
    return [*(kind for kind in MEANING if note.marks.get(kind)), *note.shades[:9]]


def _draw_foot(
    draw: ImageDraw.ImageDraw,
    note: Note,
    rows: Sequence[MarkKind | tuple[Colour, str]],
    width: int,
    top: float,
) -> None:
    """Write the key of marks and colours, then what to press, from ``top`` down."""
    face, y = font(_SMALL * SCALE), top + 22.0
    for row in rows:
        if isinstance(row, str):
            drop = {"pin in": 0.95, "pin out": 1.0}.get(row, 0.0) * _SYMBOL
            radius = _SYMBOL * (0.7 if row == "pin out" else 1.0) * SCALE
            draw_symbol(draw, row, ((_EDGE + _SYMBOL) * SCALE, (y + drop) * SCALE), radius)
            text = f"{MEANING[row]}: {note.marks[row]}"
        else:
            colour, text = row
            box = (_EDGE * SCALE, (y - 7) * SCALE, (_EDGE + 14) * SCALE, (y + 7) * SCALE)
            draw.rectangle(box, fill=colour, outline=QUIET, width=SCALE)
        draw.text(((_EDGE + 28) * SCALE, y * SCALE), text, fill=BLACK, font=face, anchor="lm")
        y += 26.0
    y += 2.0
    for key, does in KEYS:
        draw.text(
            (_EDGE * SCALE, y * SCALE), key, fill=BLACK, font=font(_SMALL * SCALE, bold=True), anchor="lm"
        )
        draw.text((width * 0.34 * SCALE, y * SCALE), does, fill=QUIET, font=face, anchor="lm")
        y += _SMALL * 1.9
