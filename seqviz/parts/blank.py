"""What cut ends, end tabs and notches leave of the flats and bends of a long part, before it is kinked."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.affinity import scale

from seqviz.geometry.pose import Array

__all__ = ["Blank", "Spans", "apart", "polygons_of", "spans_at", "split_at"]

_SAME = 1e-6  # mm

Spans = tuple[tuple[float, float], ...]
"""From where to where on x, mm, in order."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Blank:
    """Regions of the flats, and where the bends are.

    Attributes
    ----------
    flats
        Flat -> what is left of it, mm, in its x and y.
    bends
        Of each bend, in order, the spans ``(low, high)`` on x in which it is there, mm.
    """

    flats: dict[str, shapely.Geometry]
    bends: tuple[Spans, ...]

    @property
    def other_hand(self) -> Blank:
        """The blank of the other hand: every y of its flats changes its sign."""
        turned = {name: scale(region, yfact=-1.0, origin=(0, 0)) for name, region in self.flats.items()}
        return Blank(flats=turned, bends=self.bends)

    @property
    def reach(self) -> tuple[float, float]:
        """From where to where it goes on x, mm."""
        bounds = [region.bounds for region in self.flats.values()]
        return min(b[0] for b in bounds), max(b[2] for b in bounds)

    def breaks(self, tangents: Iterable[tuple[str, float]]) -> list[float]:
        """Return the x, mm, at which a bend, or a flat at one of its ``tangents``, begins or ends."""
        spans = [span for bend in self.bends for span in bend]
        spans += [span for flat, y in tangents for span in spans_at(self.flats[flat], y)]
        return apart(x for span in spans for x in span)


def apart(values: Iterable[float]) -> list[float]:
    """Return values in order, those nearer than 0.000001 mm to the one before left out.

    They are not rounded: a line beside a corner would cut off a hair.
    """
    found: list[float] = []
    for value in sorted(values):
        if not found or value - found[-1] > _SAME:
            found.append(float(value))
    return found


def polygons_of(region: shapely.Geometry) -> list[shapely.Polygon]:
    """Return the pieces of a region from its start on, thinner than 0.000001 mm left out."""
    parts = [part for part in shapely.get_parts(region) if part.geom_type == "Polygon" and part.area > _SAME]
    return sorted(parts, key=lambda part: part.bounds)


def spans_at(region: shapely.Geometry, y: float) -> list[tuple[float, float]]:
    """Return from where to where on x a region reaches along the line at ``y``, its edge or within, mm."""
    left, _, right, _ = region.bounds
    line = shapely.LineString([(left - 1.0, y), (right + 1.0, y)])
    parts = shapely.get_parts(shapely.line_merge(shapely.intersection(region, line)))
    spans = [(part.bounds[0], part.bounds[2]) for part in parts if part.geom_type == "LineString"]
    return sorted(span for span in spans if span[1] - span[0] > _SAME)


def split_at(region: shapely.Geometry, lines: Iterable[float]) -> list[shapely.Polygon]:
    """Return the pieces of a region cut at ``lines`` across x."""
    left, low, right, high = region.bounds
    ends = np.array([left, *(x for x in sorted(lines) if left + _SAME < x < right - _SAME), right])
    strips: Array = shapely.box(ends[:-1], low, ends[1:], high)
    return [piece for strip in strips for piece in polygons_of(shapely.intersection(region, strip))]
