"""The plane strips and convex pieces of rolled sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.polygons import anticlockwise, convex_pieces, facets
from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.geometry.prism import Piece, Prism, Prismoid
from seqviz.parts.part import Flat
from seqviz.parts.roll import Roll

__all__ = ["facet_lines", "facets_of", "pieces_of", "strips"]

_ON_LINE = 1e-6
"""mm: a corner nearer to the line between two facets lies on it."""

_STEEPEST = 50.0
"""An edge that runs along the line between two facets, more than this to one, is not cut to the bisector."""

_MOST = 6
"""Corners of a piece; a piece of a facet has many edges, and all of them are asked in every pair."""


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


def pieces_of(roll: Roll, sheet: shapely.Geometry) -> tuple[Piece, ...]:
    """Return the convex pieces that fill the rolled sheet, part frame."""
    found: list[Piece] = []
    for low, high, region in strips(roll, sheet):
        outline, openings = _rings(region)
        start, end = _within(low, high, outline)
        frame, half = roll.facet(start, end)
        for polygon in convex_pieces(outline, openings, most=_MOST):
            local = _on_facet(polygon, start, end, half)
            found.append(_piece(local, roll.thickness, frame, (half, _chord(start, end, half) / 2)))
    return tuple(found)


def facets_of(roll: Roll, sheet: shapely.Geometry, face: Flat) -> tuple[Flat, ...]:
    """Return the plane strips of a rolled ``face`` where they lie, part frame; all have its name."""
    found: list[Flat] = []
    for low, high, region in strips(roll, sheet):
        outline, openings = _rings(region)
        start, end = _within(low, high, outline)
        frame, half = roll.facet(start, end)
        rings = [frozen(_on_facet(ring, start, end, half)) for ring in (outline, *openings)]
        found.append(
            Flat(
                name=face.name,
                frame=_lowered(frame, roll.thickness / 2),
                thickness=roll.thickness,
                outside=face.outside,
                outline=rings[0],
                openings=tuple(rings[1:]),
            )
        )
    return tuple(found)


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


def _chord(start: float, end: float, half: float) -> float:
    return (end - start) * float(np.sinc(half / math.pi))


def _on_facet(ring: Array, start: float, end: float, half: float) -> Array:
    """Return a ``(n, 2)`` ring in the coordinates of its facet, middle of the sheet."""
    shorter = _chord(start, end, half) / (end - start)
    return np.column_stack([ring[:, 0], (ring[:, 1] - (start + end) / 2) * shorter])


def _lowered(frame: Pose, depth: float) -> Pose:
    lower = frame.translation - frame.rotation[:, 2] * depth
    return Pose(rotation=frame.rotation, translation=frozen(lower))


def _piece(polygon: Array, thickness: float, frame: Pose, bend: tuple[float, float]) -> Piece:
    """Return the piece over ``polygon`` of a facet; ``bend``: half its turn, radians, and half its width."""
    half, reach = bend
    if abs(half) < 1e-12:
        return Prism(polygon=frozen(polygon), height=thickness, frame=_lowered(frame, thickness / 2))
    depth = thickness / 2 * math.cos(half)
    rings = [_to_bisectors(polygon, reach, -level * math.tan(half)) for level in (-depth, depth)]
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
