"""Flat outlines: which way they run, circles within a hair, and cutting into convex pieces."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely

from seqviz.geometry.merging import corners_of, merged
from seqviz.geometry.pose import Array

__all__ = ["anticlockwise", "circle", "convex_hull", "convex_pieces", "facets", "is_anticlockwise"]


def is_anticlockwise(outline: Array) -> bool:
    """Tell whether the ``(n, 2)`` outline runs anticlockwise."""
    x, y = (outline - outline[0]).T
    return bool((x * np.roll(y, -1) - np.roll(x, -1) * y).sum() > 0.0)


def anticlockwise(outline: Array) -> Array:
    """Return the ``(n, 2)`` outline running anticlockwise; turned round if need be, last point first."""
    return outline if is_anticlockwise(outline) else outline[::-1]


def facets(radius: float, degrees: float, sagitta: float = 0.01) -> int:
    """Return how many equal chords keep an arc of ``radius`` mm over ``degrees`` within ``sagitta`` mm."""
    if radius <= sagitta:
        return 1
    widest = 2.0 * math.acos(1.0 - sagitta / radius)
    return max(1, math.ceil(math.radians(abs(degrees)) / widest - 1e-9))


def circle(center: Array | Sequence[float], diameter: float, sagitta: float = 0.01) -> Array:
    """Return the circle as an ``(n, 2)`` anticlockwise polygon with its corners on it, mm.

    ``n`` is a multiple of 4 and the first corner lies towards +x, so a mirrored circle is the same polygon.
    """
    count = 4 * math.ceil(max(8, facets(diameter / 2.0, 360.0, sagitta)) / 4)
    angles = np.arange(count) * (2.0 * math.pi / count)
    spokes = np.column_stack([np.cos(angles), np.sin(angles)])
    return np.asarray(center, dtype=np.float64) + spokes * (diameter / 2.0)


def convex_hull(points: Array) -> Array:
    """Return the smallest convex polygon round ``(n, 2)`` points not in a line, anticlockwise."""
    ring = shapely.MultiPoint(points).convex_hull.exterior.coords
    return anticlockwise(np.array(ring[:-1], dtype=np.float64))


def convex_pieces(outline: Array, openings: Sequence[Array] = (), most: int = 8) -> list[Array]:
    """Cut ``outline`` without its ``openings`` into few convex pieces that cover it exactly.

    Parameters
    ----------
    outline
        ``(n, 2)``, mm, in either sense, not crossing itself.
    openings
        Each ``(n, 2)``, mm; they may cut the outline's edge or each other.
    most
        The largest number of corners of a piece.

    Returns
    -------
    pieces
        Anticlockwise ``(k, 2)`` polygons, 3 <= k <= ``most``. An outline that is such a polygon itself comes
        back as the only piece. Thin pieces are merged first.
    """
    turned = anticlockwise(outline)
    if not len(openings) and len(turned) <= most and len(corners_of(turned, convex=True)) == len(turned):
        return [turned]
    area = shapely.Polygon(outline, openings)
    if not area.is_valid:
        area = shapely.Polygon(outline)
        area = area.difference(shapely.union_all([shapely.Polygon(each) for each in openings]))
    triangles = shapely.constrained_delaunay_triangles(area)
    rings = [shapely.get_coordinates(one)[:3] for one in shapely.get_parts(triangles)]
    return merged([anticlockwise(ring) for ring in rings], most)
