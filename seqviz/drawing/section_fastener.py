"""The fastener of a section, as it is once it is set: head, shank, and what forms or is screwed on."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from seqviz.drawing.section import Section, SectionFastener
from seqviz.drawing.section_levels import Levels
from seqviz.drawing.section_sink import Sink, sink_of
from seqviz.drawing.svg import line, polygon, strokes
from seqviz.trade.fasteners import BOLT, SOLID_RIVET

__all__ = ["end_words", "fastener_lines", "middle_of_hole"]

_BOLD, _FINE = 0.4, 0.2
_DASHED = "1.6 1"
_FLAT = math.cos(math.pi / 6)  # of a hexagon: across its flats to across its corners
# (share of the height, share of the width beyond the shank) of a pulled rivet's tail, from the sheet out.
_BULB = (
    (0.0, 0.55),
    (0.04, 0.8),
    (0.1, 0.95),
    (0.18, 1.0),
    (0.36, 1.0),
    (0.46, 0.95),
    (0.56, 0.78),
    (0.66, 0.45),
    (0.74, 0.18),
    (0.8, 0.05),
    (0.86, 0.0),
)
_BARREL = ((0.0, 0.85), (0.2, 0.97), (0.5, 1.0), (0.8, 0.97), (1.0, 0.85))
_STEM = 0.55  # of the shank's diameter: the stem left in a pulled rivet


@dataclass(frozen=True, slots=True, kw_only=True)
class _End:
    """One end of the stack on the page: middle and level of its face, +1 where out is down, else -1."""

    x: float
    face: float
    out: int

    def at(self, aside: float, height: float) -> tuple[float, float]:
        """Return the place that far aside and out, mm on the page."""
        return self.x + aside, self.face + self.out * height

    def shape(self, half: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
        """Return the ring of a shape from one half of it, (aside, height)."""
        right = list(half)
        return [self.at(x, h) for x, h in right] + [self.at(-x, h) for x, h in reversed(right)]


def middle_of_hole(section: Section, centre: float, scale: float) -> float:
    """Return where the axis of what goes in lies: in the middle of the room that all holes leave."""
    holes = [layer for layer in section.layers if layer.hole is not None]
    left = max(layer.aside - (layer.hole or 0.0) / 2 for layer in holes)
    right = min(layer.aside + (layer.hole or 0.0) / 2 for layer in holes)
    return centre + (left + right) / 2 * scale


def end_words(fastener: SectionFastener) -> tuple[str, str]:
    """Return what the manufactured head and the other end are called."""
    tails = {SOLID_RIVET: "formed head", BOLT: _nut_words(len(fastener.washers))}
    head = "bolt head" if fastener.kind == BOLT else "manufactured head"
    return f"{head}, flush" if fastener.sunk else head, tails.get(fastener.kind, "tail")


def _nut_words(washers: int) -> str:
    """Return ``nut on a washer``, ``nut on 2 washers``."""
    if not washers:
        return "nut"
    return f"nut on {'a washer' if washers == 1 else f'{washers} washers'}"


def fastener_lines(section: Section, levels: Levels, x: float) -> Iterator[str]:
    """Yield the fastener about the axis at ``x``; dashed where it does not go through all layers."""
    fastener = section.fastener
    if fastener is None:
        return
    top, bottom = _End(x=x, face=levels.top, out=-1), _End(x=x, face=levels.bottom, out=1)
    head, tail = (top, bottom) if fastener.head_on_top else (bottom, top)
    dash = "" if section.goes_in else _DASHED
    sink = sink_of(section, levels, x)
    yield from _shank(fastener, levels, x, (sink, dash))
    yield from _head(fastener, levels, head, dash) if sink is None else _flush(sink, x, dash)
    yield from _tail(fastener, levels, tail, dash)


def _shank(
    fastener: SectionFastener, levels: Levels, x: float, how: tuple[Sink | None, str]
) -> Iterator[str]:
    """Yield its two sides, below a flush head, and the stem in it."""
    sink, dash = how
    half = fastener.diameter / 2 * levels.scale
    for top, bottom in _drawn(levels):
        start = max(top, sink.end) if sink and fastener.head_on_top else top
        end = min(bottom, sink.end) if sink and not fastener.head_on_top else bottom
        for side in (-half, half):
            if end > start:
                yield line((x + side, start), (x + side, end), _BOLD, dash, part="shank")
        if fastener.kind not in (SOLID_RIVET, BOLT) and not dash:
            stem = half * _STEM
            yield strokes(
                [((x + side, top), (x + side, bottom)) for side in (-stem, stem)], _FINE, part="stem"
            )


def _drawn(levels: Levels) -> list[tuple[float, float]]:
    """Return (top, bottom) of what is drawn of the shank: all but the breaks."""
    found = [(levels.top, levels.bottom)]
    for band in levels.bands:
        if band.broken:
            (_, cut), (again, _) = band.parts
            found[-1:] = [(found[-1][0], cut), (again, levels.bottom)]
    return found


def _flush(sink: Sink, x: float, dash: str) -> Iterator[str]:
    """Yield a flush head: its face, and its two sides down to the shank."""
    right = [(x + aside, level) for aside, level in sink.side]
    left = [(x - aside, level) for aside, level in sink.side]
    for start, end in (
        (left[0], right[0]),
        *pairwise(right),
        *pairwise(left),
    ):
        if start != end:
            yield line(start, end, _BOLD, dash, part="head")


def _head(fastener: SectionFastener, levels: Levels, end: _End, dash: str) -> Iterator[str]:
    half, high = fastener.head[0] / 2 * levels.scale, levels.high(fastener.head[1])
    if fastener.kind == BOLT:
        yield _ring(end.shape([(half, 0.0), (half, high)]), dash, "head")
        yield strokes([(end.at(x, 0.0), end.at(x, high)) for x in (-half / 2, half / 2)], _FINE)
        return
    turns = [math.pi / 2 * k / 8 for k in range(9)]
    dome = [(half * math.cos(turn) ** 0.6, high * math.sin(turn)) for turn in turns]
    yield _ring(end.shape([(half, 0.0), *dome]), dash, "head")
    if fastener.kind != SOLID_RIVET and not dash:
        stem = fastener.diameter / 2 * levels.scale * _STEM
        yield strokes([(end.at(x, 0.0), end.at(x, high * 0.9)) for x in (-stem, stem)], _FINE, part="stem")


def _tail(fastener: SectionFastener, levels: Levels, end: _End, dash: str) -> Iterator[str]:
    shank = fastener.diameter / 2 * levels.scale
    half, high = fastener.tail[0] / 2 * levels.scale, levels.high(fastener.tail[1])
    if fastener.kind == BOLT:
        yield from _nut(fastener, levels, end, dash)
    elif fastener.kind == SOLID_RIVET:
        yield _ring(end.shape([(half * share, high * up) for up, share in _BARREL]), dash, "tail")
    else:
        bulb = [(shank + (half - shank) * share, high * up) for up, share in _BULB]
        stem = shank * _STEM
        yield _ring(end.shape(bulb), dash, "tail")
        if not dash:
            yield strokes(
                [(end.at(x, 0.0), end.at(x, high * 0.86)) for x in (-stem, stem)], _FINE, part="stem"
            )
        ball = [(shank * 0.9, high * 0.86), (shank * 0.9, high * 0.95), (shank * 0.5, high)]
        yield _ring(end.shape(ball), dash, "stem head")


def _nut(fastener: SectionFastener, levels: Levels, end: _End, dash: str) -> Iterator[str]:
    """Yield washers and nut, seen on the flats of its six sides, and the end of the bolt beyond it."""
    half = fastener.tail[0] / 2 * levels.scale
    high = levels.high(fastener.tail[1] + fastener.end)
    part = high / (fastener.tail[1] + fastener.end)
    washer, nut = 0.0, fastener.tail[1] * part
    for thickness in fastener.washers:
        yield _ring(end.shape([(half, washer), (half, washer + thickness * part)]), dash, "washer")
        washer += thickness * part
    yield _ring(end.shape([(half * _FLAT, washer), (half * _FLAT, nut)]), dash, "tail")
    yield strokes([(end.at(0.0, washer), end.at(0.0, nut))], _FINE)
    if fastener.end:
        shank = fastener.diameter / 2 * levels.scale
        tip = [(shank, nut), (shank, max(nut, high - 0.6)), (shank * 0.85, high)]
        yield _ring(end.shape(tip), dash, "bolt end")


def _ring(points: list[tuple[float, float]], dash: str, part: str) -> str:
    return polygon(points, _BOLD, part=part, dash=dash)
