"""The plane strips and convex pieces of rolled sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.polygons import anticlockwise, convex_pieces, facets
from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.geometry.prism import Piece, Prism, Prismoid
from seqviz.parts.part import Flat
from seqviz.parts.roll import Roll

__all__ = ["Facet", "facet_lines", "flat_of", "laid_facets", "pieces_of", "strips"]

_ON_LINE = 1e-6
"""mm: a corner nearer to the line between two facets lies on it."""

_STEEPEST = 50.0
"""An edge that runs along the line between two facets, more than this to one, is not cut to the bisector."""

_MOST = 6
"""Corners of a piece; a piece of a facet has many edges, and all of them are asked in every pair."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Facet:
    """A plane strip of rolled sheet.

    Attributes
    ----------
    frame
        In the middle of the sheet and of the strip, seen from the part: x along the line, z on the +z side.
    half, reach
        Half of what the sheet turns from one side of the strip to the other, radians; half its width, mm.
    outline, openings
        ``(n, 2)`` each, mm, in the frame.
    """

    frame: Pose
    half: float
    reach: float
    outline: Array
    openings: tuple[Array, ...]


def facet_lines(radius: float, thickness: float, start: float, end: float) -> Array:
    """Return the s, mm, at which the facets of an arc from ``start`` to ``end`` begin and end.

    ``radius`` is that of the inside. Both faces stay within 0.01 mm of the true ones.
    """
    turn = (end - start) / (radius + thickness / 2)
    return np.linspace(start, end, facets(radius + thickness, math.degrees(turn)) + 1)


def strips(roll: Roll, sheet: shapely.Geometry) -> Iterator[tuple[float, float, shapely.Polygon]]:
    """Yield where each facet begins and ends, s in mm, and its regions in (way along the line, s).

    ``sheet`` is the region of the pattern that there is.
    """
    turned = shapely.transform(sheet, roll.across)
    low, _, high, _ = turned.bounds
    first, last = roll.ends
    knots = np.concatenate([[first], roll.lines, [last]])
    cuts = shapely.box(low - 1.0, knots[:-1], high + 1.0, knots[1:])
    for start, end, region in zip(knots[:-1], knots[1:], shapely.intersection(turned, cuts), strict=True):
        for part in shapely.get_parts(region):
            if part.geom_type == "Polygon" and part.area > _ON_LINE:
                yield float(start), float(end), part


def laid_facets(roll: Roll, sheet: shapely.Geometry) -> tuple[Facet, ...]:
    """Return the facets of the rolled ``sheet`` one beside the other."""
    return tuple(_facet(roll, low, high, region) for low, high, region in strips(roll, sheet))


def pieces_of(facet: Facet, thickness: float) -> Iterator[Piece]:
    """Yield the convex pieces that fill a facet, part frame."""
    for polygon in convex_pieces(facet.outline, facet.openings, most=_MOST):
        yield _piece(polygon, thickness, facet)


def flat_of(facet: Facet, face: Flat) -> Flat:
    """Return a facet as a flat by the name of the ``face`` that it is a strip of."""
    return replace(
        face,
        frame=_lowered(facet.frame, face.thickness / 2),
        outline=frozen(facet.outline),
        openings=tuple(frozen(opening) for opening in facet.openings),
    )


def _facet(roll: Roll, low: float, high: float, region: shapely.Polygon) -> Facet:
    outline, openings = _rings(region)
    start, end = _within(low, high, outline)
    frame, half = roll.facet(start, end)
    shorter = float(np.sinc(half / math.pi))

    def local(ring: Array) -> Array:
        return np.column_stack([ring[:, 0], (ring[:, 1] - (start + end) / 2) * shorter])

    return Facet(
        frame=frame,
        half=half,
        reach=(end - start) * shorter / 2,
        outline=local(outline),
        openings=tuple(local(opening) for opening in openings),
    )


def _rings(region: shapely.Polygon) -> tuple[Array, list[Array]]:
    rings = [np.asarray(ring.coords)[:-1] for ring in (region.exterior, *region.interiors)]
    clean = [anticlockwise(ring[_fresh(ring)]) for ring in rings]
    return clean[0], clean[1:]


def _fresh(ring: Array) -> NDArray[np.bool_]:
    """Say of each corner whether it is another place than the one before."""
    return np.asarray(np.abs(ring - np.roll(ring, 1, axis=0)).max(axis=1) > _ON_LINE)


def _within(start: float, end: float, outline: Array) -> tuple[float, float]:
    """Return the ends of a strip; of one without an end that of its region."""
    low, high = float(outline[:, 1].min()), float(outline[:, 1].max())
    return (low if low - start > 1e5 else start), (high if end - high > 1e5 else end)


def _lowered(frame: Pose, depth: float) -> Pose:
    lower = frame.translation - frame.rotation[:, 2] * depth
    return Pose(rotation=frame.rotation, translation=frozen(lower))


def _piece(polygon: Array, thickness: float, facet: Facet) -> Piece:
    """Return the piece over a ``polygon`` of a facet; beside the next one it ends on the bisector."""
    frame, half = facet.frame, facet.half
    if abs(half) < 1e-12:
        return Prism(polygon=frozen(polygon), height=thickness, frame=_lowered(frame, thickness / 2))
    depth = thickness / 2 * math.cos(half)
    rings = [_to_bisectors(polygon, facet.reach, -level * math.tan(half)) for level in (-depth, depth)]
    if not all(_same_way(polygon, ring) for ring in rings):
        rings = [polygon, polygon]
    levels = (-depth, depth)
    ends = [np.column_stack([ring, np.full(len(ring), z)]) for ring, z in zip(rings, levels, strict=True)]
    return Prismoid(bottom=frozen(frame.points(ends[0])), top=frozen(frame.points(ends[1])))


def _to_bisectors(polygon: Array, reach: float, more: float) -> Array:
    """Carry the edges on the lines beside a facet outward by ``more`` mm; all others keep their lines."""
    moved = polygon.copy()
    count = len(polygon)
    side = np.where(np.abs(np.abs(polygon[:, 1]) - reach) < _ON_LINE, np.sign(polygon[:, 1]), 0.0)
    for k in range(count):
        before, after = (k - 1) % count, (k + 1) % count
        if side[k] == 0.0 or (side[before] == side[k]) == (side[after] == side[k]):
            continue
        step = polygon[k] - polygon[after if side[before] == side[k] else before]
        if abs(step[0]) <= _STEEPEST * abs(step[1]):
            moved[k] += step * (side[k] * more / step[1])
    return moved


def _same_way(polygon: Array, ring: Array) -> bool:
    """Say whether every edge of ``ring`` still runs as that of ``polygon``."""
    edges = [np.roll(points, -1, axis=0) - points for points in (polygon, ring)]
    return bool((np.einsum("kc,kc->k", *edges) > 0.0).all())
