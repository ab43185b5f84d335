"""The sheet that lies beside a part while its bends are marked: a flat pattern as SVG, true to size."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

import numpy as np

from seqviz.drawing.dimensions import ACROSS, across, along, scale_line, x_arrow
from seqviz.drawing.flat_facts import FlatFacts
from seqviz.drawing.hole_marks import mark, mark_reach
from seqviz.drawing.label_room import LabelRoom
from seqviz.drawing.page import Page
from seqviz.drawing.svg import document, line, polygon, text, text_width
from seqviz.geometry.pose import Array
from seqviz.parts.flat_pattern import BendLine, PatternHole
from seqviz.units import length_text

__all__ = ["flat_sheet"]

_MARGIN, _GUTTER = 10.0, 9.0
_TITLE, _WORDS, _LABEL = 6.0, 3.4, 2.8  # heights of letters, mm
_LEADING = 1.45
_NARROWEST, _COLUMN = 150.0, 190.0  # mm: of the page, and of the lines of words on a wide one
_DASHED, _DOTTED = "4 1.5", "0.5 1"


def flat_sheet(facts: FlatFacts) -> str:
    """Return the SVG: the pattern at its true size with what a builder needs to cut, drill and bend it."""
    page, size = _page(facts)
    drawn = [*_heading(facts), *_body(facts, page), *_below(facts, page)]
    return document(size, f"Flat pattern of {facts.name}", drawn)


def _page(facts: FlatFacts) -> tuple[Page, tuple[float, float]]:
    """Return where the pattern lies, and the size of the whole."""
    long, wide = facts.pattern.size
    right = max([text_width(words, _LABEL) for words in facts.bends], default=0.0) + 8.0
    left = _MARGIN + ACROSS
    width = max(left + long + right + _MARGIN, _NARROWEST)
    top = _MARGIN + _height(_TITLE) + len(_wrapped(facts.lines, width)) * _height(_WORDS) + _GUTTER
    low = facts.pattern.outline.min(axis=0)
    page = Page(left=left, bottom=top + wide, low=(float(low[0]), float(low[1])), width=width)
    lines = len(_wrapped(facts.notes, width)) + len(facts.groups)
    height = page.bottom + _GUTTER + 28.0 + lines * _height(_WORDS) + _legend_extra(facts) + _MARGIN
    return page, (width, height)


def _heading(facts: FlatFacts) -> Iterator[str]:
    y = _MARGIN + _TITLE
    yield text(f"Flat pattern: {facts.name}", (_MARGIN, y), _TITLE, bold=True)
    for words in _wrapped(facts.lines, _page(facts)[1][0]):
        y += _height(_WORDS)
        yield text(words, (_MARGIN, y), _WORDS)


def _body(facts: FlatFacts, page: Page) -> Iterator[str]:
    """Yield the sheet, its bends and holes, then the words that found room between them."""
    pattern, room = facts.pattern, LabelRoom()
    for ring, width, part in (
        (pattern.outline, 0.35, "outline"),
        *((o, 0.3, "opening") for o in pattern.openings),
    ):
        points = page.points(ring)
        for start, end in zip(points, np.roll(points, -1, axis=0), strict=True):
            room.take_line(start, end)
        yield polygon(points, width, part=part)
    for bend in pattern.bend_lines:
        yield from _bend(bend, page, room)
    for number, group in enumerate(facts.groups):
        for hole in group.holes:
            centre = page.point(hole.centre)
            reach = mark_reach(number, hole.diameter) + 0.3
            room.take((*(centre - reach), *(centre + reach)))
            yield from mark(number, centre.tolist(), hole.diameter)
    yield from _words(facts, page, room)


def _bend(bend: BendLine, page: Page, room: LabelRoom) -> Iterator[str]:
    start, end = page.point(bend.start), page.point(bend.end)
    direction = (end - start) / max(float(np.linalg.norm(end - start)), 1e-9)
    aside = np.array([-direction[1], direction[0]]) * bend.allowance / 2
    for shift in (aside, -aside):
        yield line((start + shift).tolist(), (end + shift).tolist(), 0.18, _DOTTED, part="bend end")
        room.take_line(start + shift, end + shift)
    yield line(start.tolist(), end.tolist(), 0.4, _DASHED, part="bend")
    room.take_line(start, end)


def _words(facts: FlatFacts, page: Page, room: LabelRoom) -> Iterator[str]:
    for bend, words in zip(facts.pattern.bend_lines, facts.bends, strict=True):
        yield from _label(words, (page.point(bend.end), 1.5), room, "right")
    for ring, words in zip(facts.pattern.openings, facts.openings, strict=True):
        yield from _opening(words, page.points(ring), room)
    reaches = {
        hole.name: mark_reach(number, hole.diameter)
        for number, group in enumerate(facts.groups)
        for hole in group.holes
    }
    for hole, words in _numbered(facts.pattern.holes):
        thing = (page.point(hole.centre), reaches.get(hole.name, hole.diameter / 2))
        yield from _label(words, thing, room, "above")


def _opening(words: str, ring: Array, room: LabelRoom) -> Iterator[str]:
    """Yield the words of an opening, in its middle where they fit."""
    low, high = ring.min(axis=0), ring.max(axis=0)
    middle = (low + high) / 2
    inside = (
        text_width(words, _LABEL) < 0.9 * float(high[0] - low[0]) and float(high[1] - low[1]) > 3 * _LABEL
    )
    if inside:
        half = text_width(words, _LABEL) / 2
        room.take((middle[0] - half, middle[1] - _LABEL, middle[0] + half, middle[1] + _LABEL))
        yield text(words, (middle[0], middle[1] + _LABEL / 3), _LABEL, "middle")
    else:
        yield from _label(words, (middle, float((high - low).max()) / 2), room, "above")


def _label(words: str, thing: tuple[Array, float], room: LabelRoom, side: str) -> Iterator[str]:
    wide = text_width(words, _LABEL)
    spot = room.place(thing, (wide, _LABEL * 1.1), side)
    left, top, right, bottom = spot.box
    if spot.far:
        middle, radius = thing
        near = np.array([np.clip(middle[0], left, right), np.clip(middle[1], top, bottom)])
        way = (near - middle) / max(float(np.linalg.norm(near - middle)), 1e-9)
        yield line((middle + way * radius).tolist(), near.tolist(), 0.12, part="leader")
    yield text(words, (left, bottom - 0.25 * _LABEL), _LABEL)


def _numbered(holes: tuple[PatternHole, ...]) -> list[tuple[PatternHole, str]]:
    """Return the first and the last hole of every row with its name, and every tenth with its number."""
    rows: dict[str, list[PatternHole]] = {}
    for hole in holes:
        rows.setdefault(hole.name.rpartition(".")[0], []).append(hole)
    named = [(hole, hole.name) for row in rows.values() for hole in dict.fromkeys((row[0], row[-1]))]
    numbers = [(hole, hole.name.rpartition(".")[2]) for row in rows.values() for hole in row[1:-1]]
    return [*named, *((hole, number) for hole, number in numbers if number.endswith("0"))]


def _below(facts: FlatFacts, page: Page) -> Iterator[str]:
    """Yield dimensions, the arrow, the line to measure, the legend and the notes."""
    long, wide = facts.pattern.size
    bottom = page.bottom + _GUTTER
    yield from along((page.left, page.left + long), bottom, length_text(long, facts.units))
    yield from across(
        (page.bottom - wide, page.bottom), page.left, length_text(wide, facts.units), _levels(facts, page)
    )
    yield from x_arrow((page.left, bottom + 9.0))
    yield from scale_line((page.left + 28.0, bottom + 9.0))
    y = bottom + 18.0
    for number, group in enumerate(facts.groups):
        reach = mark_reach(number, group.diameter)
        y += max(_height(_WORDS), 2 * reach + 1.0)
        yield from mark(number, (_MARGIN + 8.0, y - _WORDS / 3), group.diameter)
        yield text(_group_words(facts, number), (_MARGIN + 18.0 + max(0.0, reach - 8.0), y), _WORDS)
    y += 4.0
    for words in _wrapped(facts.notes, page.width):
        y += _height(_WORDS)
        yield text(words, (_MARGIN, y), _WORDS)


def _levels(facts: FlatFacts, page: Page) -> list[tuple[float, str]]:
    """Return of every level bend line its y on the page, its name and its distance from the lower edge."""
    edge = float(facts.pattern.outline[:, 1].min())
    return [
        (
            float(page.point(bend.start)[1]),
            f"B{number} {length_text(float(bend.start[1]) - edge, facts.units)}",
        )
        for number, bend in enumerate(facts.pattern.bend_lines, start=1)
        if abs(bend.end[1] - bend.start[1]) < 1e-6
    ]


def _group_words(facts: FlatFacts, number: int) -> str:
    group = facts.groups[number]
    called = f" ({', '.join(group.sizes)})" if group.sizes else ""
    count = f"{len(group.holes)} hole{'s' * (len(group.holes) != 1)}"
    return f"{count} of diameter {length_text(group.diameter, facts.units)}{called}"


def _legend_extra(facts: FlatFacts) -> float:
    """Return how much higher than lines of words the legend is."""
    rows = [2 * mark_reach(number, group.diameter) + 1.0 for number, group in enumerate(facts.groups)]
    return sum(max(0.0, row - _height(_WORDS)) for row in rows)


def _wrapped(lines: tuple[str, ...], width: float) -> list[str]:
    letters = int(min(width - 2 * _MARGIN, _COLUMN) / text_width("x", _WORDS))
    return [piece for words in lines for piece in textwrap.wrap(words, letters, break_on_hyphens=False)]


def _height(letters: float) -> float:
    return letters * _LEADING
