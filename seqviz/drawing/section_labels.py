"""The words beside a section: which layer, how thick, what is special about it, which end is which."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seqviz.drawing.lettering import fitted, shortened
from seqviz.drawing.section import Section
from seqviz.drawing.section_fastener import end_words, middle_of_hole
from seqviz.drawing.section_levels import CENTRE, RIGHT, Band, Levels
from seqviz.drawing.section_words import gap_words, layer_words
from seqviz.drawing.svg import circle, group, line, path, text, text_width
from seqviz.units import length_text

__all__ = ["LEADING", "LETTERS", "MARGIN", "WIDTH", "Label", "label_lines", "labels_of"]

WIDTH = 108.0
"""mm; shown 360 points wide the letters are 11 points high."""

MARGIN, LETTERS, LEADING = 2.0, 3.4, 4.5
_NAMES = RIGHT + 10.0  # x of the words
_ROOM = WIDTH - MARGIN - _NAMES
_RING, _THIN = 0.25, 0.15
_BETWEEN = 1.6  # mm between the words of two things


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words beside the drawing.

    Attributes
    ----------
    at
        Where its line starts, mm on the page.
    number
        In a ring; None: a thing without a number.
    lines, title
        The words, and the whole name where it was shortened.
    """

    at: tuple[float, float]
    number: int | None
    lines: tuple[str, ...]
    title: str = ""

    @property
    def high(self) -> float:
        """How high its words are with the clear space around, mm on the page."""
        return len(self.lines) * LEADING + _BETWEEN


def labels_of(section: Section, levels: Levels) -> list[Label]:
    """Return the words of layers, gaps and ends, from the top down."""
    found = [_layer_label(band, section) for band in levels.bands]
    for one, other in zip(levels.bands, levels.bands[1:], strict=False):
        if one.layer.gap:
            place = (RIGHT, (one.bottom + other.top) / 2)
            told = fitted(gap_words(one.layer, section.units), _ROOM, LETTERS, 2)
            found.append(Label(at=place, number=None, lines=tuple(told)))
    if section.fastener:
        x = middle_of_hole(section, CENTRE, levels.scale)
        head, tail = end_words(section.fastener)
        ends = [(head, section.fastener.head[0]), (tail, section.fastener.tail[0])]
        upper, lower = ends if section.fastener.head_on_top else ends[::-1]
        for (words, wide), y in (
            (upper, levels.top - levels.above / 2),
            (lower, levels.bottom + levels.below / 2),
        ):
            place = (x + wide * levels.scale * 0.42, y)
            found.append(Label(at=place, number=None, lines=tuple(fitted(words, _ROOM, LETTERS, 2))))
    return sorted(found, key=lambda label: label.at[1])


def _layer_label(band: Band, section: Section) -> Label:
    layer = band.layer
    thick = length_text(layer.thickness, section.units)
    lines = [f"{' '.join(layer.name.split())}, {thick}"]
    if text_width(lines[0], LETTERS) > _ROOM:
        lines = [*fitted(layer.name, _ROOM, LETTERS, 2), thick]
    for words in layer_words(layer, section):
        lines += fitted(words, _ROOM, LETTERS, 1)
    title = layer.name if "…" in "".join(lines) else ""
    return Label(at=(RIGHT, band.middle), number=layer.number, lines=tuple(lines), title=title)


def label_lines(label: Label, middle: float) -> Iterator[str]:
    """Yield the words about the level ``middle``, with a line to what they are about."""
    x, y = label.at
    top = middle - len(label.lines) * LEADING / 2
    beside = top + LEADING / 2
    told = [path(((x, y), (RIGHT + 1.0, y), (RIGHT + 4.0, beside)), _THIN, part="leader")]
    if label.number is not None:
        told.append(circle((RIGHT + 6.6, beside), 4.6, _RING))
        told.append(text(str(label.number), (RIGHT + 6.6, beside + LETTERS / 3), LETTERS, "middle", True))
    else:
        told.append(line((RIGHT + 4.0, beside), (RIGHT + 9.0, beside), _THIN))
    for k, words in enumerate(label.lines):
        told.append(text(words, (_NAMES, beside + LETTERS / 3 + k * LEADING), LETTERS))
    yield group(shortened(label.title, 200.0, LETTERS), told) if label.title else "\n".join(told)
