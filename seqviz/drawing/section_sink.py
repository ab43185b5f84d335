"""A flush head in a section: the cone that is cut out of the layers that it lies in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from seqviz.drawing.section import Section, SectionFastener
from seqviz.drawing.section_levels import Band, Levels
from seqviz.drawing.svg import Point

__all__ = ["Cone", "Segment", "Sink", "cut_by", "sink_of"]

Segment = tuple[Point, Point]

_SHORTEST = 0.05  # mm on the page: what is left of a line and is shorter is not drawn


@dataclass(frozen=True, slots=True, kw_only=True)
class Cone:
    """What is cut out of one layer about the axis at ``x``, mm on the page.

    From the level ``near``, where it is ``wide`` to each side, to the level ``far``, where it is ``narrow``.
    """

    x: float
    near: float
    far: float
    wide: float
    narrow: float

    def half(self, level: float) -> float:
        """Return how far its side is from the axis; beyond its end the same slope goes on."""
        return self.wide + (self.narrow - self.wide) * (level - self.near) / (self.far - self.near)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sink:
    """A flush head: the number of each layer that it lies in, from 0 at the top, with what it cuts there."""

    cones: tuple[tuple[int, Cone], ...]

    @property
    def end(self) -> float:
        """The level at which the shank begins."""
        return self.cones[-1][1].far

    @property
    def side(self) -> list[tuple[float, float]]:
        """One side of the head, (aside, level), from its face to the shank."""
        return [
            place for _, cone in self.cones for place in ((cone.wide, cone.near), (cone.narrow, cone.far))
        ]

    def cone(self, layer: int) -> Cone | None:
        """Return what is cut out of a layer, counted from 0 at the top."""
        return dict(self.cones).get(layer)


def sink_of(section: Section, levels: Levels, x: float) -> Sink | None:
    """Return the flush head about the axis at ``x``, or None: there is none."""
    fastener = section.fastener
    if fastener is None or not fastener.sunk:
        return None
    on_top = fastener.head_on_top
    bands = list(enumerate(levels.bands))
    cones: list[tuple[int, Cone]] = []
    depth = 0.0
    for k, band in bands if on_top else reversed(bands):
        part = min(fastener.sunk - depth, band.layer.thickness)
        near, far = _reach(band, part, levels.scale, on_top=on_top)
        wide, narrow = (_half(fastener, d) * levels.scale for d in (depth, depth + part))
        cones.append((k, Cone(x=x, near=near, far=far, wide=wide, narrow=narrow)))
        depth += part
        if depth >= fastener.sunk - 1e-9:
            break
    return Sink(cones=tuple(cones))


def _half(fastener: SectionFastener, depth: float) -> float:
    """Return half the width of the head at a depth, mm."""
    wide, narrow = fastener.head[0] / 2, fastener.diameter / 2
    return wide + (narrow - wide) * depth / fastener.sunk


def _reach(band: Band, part: float, scale: float, *, on_top: bool) -> tuple[float, float]:
    """Return the levels between which ``part`` mm of a layer lie, counted from the head's side."""
    top, bottom = band.parts[0 if on_top else -1]
    high = part * scale if band.broken else part / band.layer.thickness * (bottom - top)
    high = min(high, bottom - top)
    return (top, top + high) if on_top else (bottom, bottom - high)


def cut_by(cone: Cone | None, segments: Iterable[Segment]) -> list[Segment]:
    """Return what is left of lines beside the hole when the cone is cut away."""
    if cone is None:
        return list(segments)
    left = (_outside(cone, one) for one in segments)
    return [one for one in left if one is not None]


def _outside(cone: Cone, segment: Segment) -> Segment | None:
    (ax, ay), (bx, by) = segment
    side = 1.0 if (ax + bx) / 2 >= cone.x else -1.0
    a = side * (ax - cone.x) - cone.half(ay)
    b = side * (bx - cone.x) - cone.half(by)
    if a < 0.0 and b < 0.0:
        return None
    start = a / (a - b) if a < 0.0 else 0.0
    end = a / (a - b) if b < 0.0 else 1.0
    dx, dy = bx - ax, by - ay
    if (dx * dx + dy * dy) ** 0.5 * (end - start) < _SHORTEST:
        return None
    return (ax + dx * start, ay + dy * start), (ax + dx * end, ay + dy * end)
