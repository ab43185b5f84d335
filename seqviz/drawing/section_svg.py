"""A section through a hole stack as SVG: what lies on what, how thick, and what holds it together."""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.drawing.dimensions import upright
from seqviz.drawing.hatching import hatching
from seqviz.drawing.lettering import fitted, moved_apart, shortened
from seqviz.drawing.section import Section
from seqviz.drawing.section_fastener import fastener_lines, middle_of_hole
from seqviz.drawing.section_labels import LEADING, LETTERS, MARGIN, WIDTH, Label, label_lines, labels_of
from seqviz.drawing.section_levels import CENTRE, LEFT, RIGHT, Band, Levels, levels_of
from seqviz.drawing.section_sink import Cone, cut_by, sink_of
from seqviz.drawing.section_words import lines_below, side_words
from seqviz.drawing.svg import document, inset, line, path, strokes, text
from seqviz.units import length_text

__all__ = ["section_svg"]

_FACE, _WALL, _HATCH, _THIN = 0.4, 0.25, 0.13, 0.15
_BETWEEN = 1.6  # mm between the drawing and the words above and below


def section_svg(section: Section, *, standalone: bool) -> str:
    """Return the drawing.

    Parameters
    ----------
    section
        From `seqviz.drawing.section.section_of`.
    standalone
        True: a file, black on white, with the names of the hole above. False: to stand within a page, in the
        colour of its text; equal sections are drawn as equal strings.
    """
    heading = _heading(section) if standalone else []
    start = MARGIN + len(heading) * LEADING * 1.2
    body, bottom = _body(section, start)
    drawn = [*_lines(heading, start - len(heading) * LEADING * 1.2, bold=True), *body]
    size = (WIDTH, bottom + MARGIN)
    if standalone:
        return document(size, f"Section through {heading[0] if heading else 'a hole'}", drawn)
    return inset(size, _title(section), drawn)


def _heading(section: Section) -> list[str]:
    first = fitted(section.holes[0], WIDTH - 2 * MARGIN, LETTERS * 1.1, 2)
    others = ", ".join(section.holes[1:])
    return [*first, *(fitted(f"= {others}", WIDTH - 2 * MARGIN, LETTERS * 1.1, 2) if others else [])]


def _title(section: Section) -> str:
    units = section.units
    layers = [
        f"{layer.number} {shortened(layer.name, 200.0, LETTERS)} {length_text(layer.thickness, units)}"
        for layer in section.layers
    ]
    grip = f"; grip {length_text(section.grip, units)}" if section.joins else ""
    return f"Section: {', '.join(layers)}{grip}"


def _body(section: Section, start: float) -> tuple[list[str], float]:
    """Return what is drawn under ``start``, and where it ends."""
    top, bottom = side_words(section)
    above = LEADING if top else 0.0
    levels, labels = _placed(section, start + above + _BETWEEN)
    low = max([levels.bottom + levels.below, *(y + label.high / 2 for label, y in labels)])
    drawn = [*_side(top, start, section.bench == "top", -1)]
    drawn += _layers(section, levels)
    drawn += fastener_lines(section, levels, middle_of_hole(section, CENTRE, levels.scale))
    drawn += _axis(section, levels)
    drawn += _grip(section, levels)
    for label, y in labels:
        drawn += label_lines(label, y)
    low += _BETWEEN
    drawn += _side(bottom, low, section.bench == "bottom", 1)
    low += (LEADING if bottom else 0.0) + _BETWEEN
    told = [
        piece
        for words in lines_below(section, levels.untrue)
        for piece in fitted(words, WIDTH - 2 * MARGIN, LETTERS, 3)
    ]
    return [*drawn, *_lines(told, low)], low + len(told) * LEADING


def _placed(section: Section, start: float) -> tuple[Levels, list[tuple[Label, float]]]:
    """Return where layers and words lie so that nothing is above ``start``."""
    levels = levels_of(section, start)
    labels = labels_of(section, levels)
    middles = moved_apart([label.at[1] for label in labels], [label.high for label in labels])
    over = max([0.0, *(start - (y - label.high / 2) for label, y in zip(labels, middles, strict=True))])
    levels = levels_of(section, start + over)
    return levels, [(label, y + over) for label, y in zip(labels_of(section, levels), middles, strict=True)]


def _layers(section: Section, levels: Levels) -> Iterator[str]:
    sink = (
        sink_of(section, levels, middle_of_hole(section, CENTRE, levels.scale)) if section.fastener else None
    )
    for k, band in enumerate(levels.bands):
        boxes = band.boxes(levels.scale, CENTRE)
        cone = sink.cone(k) if sink else None
        lines = [each for box in boxes for each in hatching(box, band.layer.number - 1)]
        yield strokes(cut_by(cone, lines), _HATCH, part="hatching")
        yield from _faces(band, levels.scale, cone, empty=section.fastener is None)
        yield from _inside(band, levels.scale)
        if band.broken:
            yield from _break(band)


def _faces(band: Band, scale: float, cone: Cone | None, *, empty: bool) -> Iterator[str]:
    """Yield top and bottom of a layer and the walls of its hole; its ends stay open: the part goes on.

    ``cone``: what a flush head takes away; ``empty``: the far rim of the hole is seen.
    """
    spans = [(LEFT, RIGHT)]
    if band.layer.hole is not None:
        left, right = band.hole(scale, CENTRE)
        spans = [(LEFT, left), (right, RIGHT)]
        walls = [((x, top), (x, bottom)) for top, bottom in band.parts for x in (left, right)]
        yield strokes(cut_by(cone, walls), _WALL, part="hole")
        if empty:
            yield strokes([((left, y), (right, y)) for y in (band.top, band.bottom)], _THIN, part="rim")
    faces = [((a, y), (b, y)) for y in (band.top, band.bottom) for a, b in spans if b > a]
    yield strokes(cut_by(cone, faces), _FACE, part="face")


def _inside(band: Band, scale: float) -> Iterator[str]:
    """Yield where the layers of another model part."""
    levels, y = [], band.top
    for _, thickness in band.layer.inside[:-1]:
        y += thickness / band.layer.thickness * (band.bottom - band.top)
        levels.append(y)
    left, right = band.hole(scale, CENTRE)
    if levels:
        yield strokes([((a, y), (b, y)) for y in levels for a, b in ((LEFT, left), (right, RIGHT))], _WALL)


def _break(band: Band) -> Iterator[str]:
    """Yield the two lines between which a piece is left out."""
    (_, upper), (lower, _) = band.parts
    for y in (upper, lower):
        jags = [
            (x + dx, y + dy)
            for x in (LEFT + 3, RIGHT - 3)
            for dx, dy in ((-1, 0), (-0.4, -1), (0.4, 1), (1, 0))
        ]
        yield path([(LEFT - 1, y), *jags, (RIGHT + 1, y)], _THIN, part="break")


def _axis(section: Section, levels: Levels) -> Iterator[str]:
    x = middle_of_hole(section, CENTRE, levels.scale)
    ends = ((x, levels.top - levels.above - 1.5), (x, levels.bottom + levels.below + 1.5))
    yield line(*ends, _THIN, "3 0.8 0.6 0.8", part="axis")


def _grip(section: Section, levels: Levels) -> Iterator[str]:
    """Yield the grip beside the layers; a gap that stays open is left out of it."""
    if not section.joins:
        return
    runs: list[tuple[float, float]] = []
    for band in levels.bands:
        if runs and band.top - runs[-1][1] < 1e-6:
            runs[-1] = (runs[-1][0], band.bottom)
        else:
            runs.append((band.top, band.bottom))
    for run in runs:
        yield from upright(run, (LEFT - 3.5, LEFT))
    middle = (levels.top + levels.bottom) / 2 + LETTERS / 3
    for words, y in (
        ("grip", middle - LEADING / 2),
        (length_text(section.grip, section.units), middle + LEADING / 2),
    ):
        yield text(words, (LEFT - 5.5, y), LETTERS, "end")


def _side(words: str, top: float, up: bool, out: int) -> Iterator[str]:
    """Yield the line above (``out`` -1) or below the drawing, with an arrow where it faces up."""
    if not words:
        return
    middle = top + LEADING / 2
    if up:
        tip, foot = middle + out * 2.0, middle - out * 2.0
        yield line((MARGIN + 1.5, foot), (MARGIN + 1.5, tip), _FACE, part="up")
        yield path(
            [(MARGIN + x, tip - out * 1.6) if x != 1.5 else (MARGIN + x, tip) for x in (0.3, 1.5, 2.7)],
            _FACE,
        )
    told = shortened(words, WIDTH - 3 * MARGIN - 3.0, LETTERS)
    yield text(told, (MARGIN + (4.5 if up else 0.0), middle + LETTERS / 3), LETTERS, bold=True)


def _lines(words: list[str], top: float, bold: bool = False) -> Iterator[str]:
    leading = LEADING * (1.2 if bold else 1.0)
    for k, told in enumerate(words):
        y = top + k * leading + leading / 2 + LETTERS / 3
        yield text(told, (MARGIN, y), LETTERS * (1.1 if bold else 1.0), bold=bold)
