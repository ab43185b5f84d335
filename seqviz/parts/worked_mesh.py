"""The flat pattern and the triangles of a long part that is cut, kinked or joggled."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.parts.blank import apart, split_at
from seqviz.parts.extrude import closed
from seqviz.parts.fold import Fold, fold_of, folded
from seqviz.parts.part import Worked
from seqviz.parts.weld import in_strips, rings_of, together, welded

__all__ = ["blank_regions", "worked_triangles"]


def blank_regions(worked: Worked, fold: Fold) -> list[shapely.Geometry]:
    """Return what is left of the flats, and of the facets of the bends, in the straight part's pattern."""
    flats = [shapely.transform(region, fold.unrolled(name)) for name, region in worked.blank.flats.items()]
    facets = [
        shapely.box(left, low, right, high)
        for (first, last), spans in zip(fold.bends, worked.blank.bends, strict=True)
        for left, right in spans
        for low, high in pairwise(fold.lines[first : last + 1])
    ]
    return [*flats, *facets]


def worked_triangles(worked: Worked, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return vertices ``(n, 3)`` and triangles: the pattern is cut where anything changes, folded and led.

    On the lines where a kink or a ramp begins all corners come to lie where both sides meet.
    """
    straight = worked.straight
    fold = fold_of(straight)
    on = {name: [hole for hole in straight.holes if hole.flat == name] for name in straight.flats}
    rings = [fold.unrolled(name)(rings_of(flat, on[name], segments)) for name, flat in straight.flats.items()]
    ends = [(name, y) for name, flat in straight.flats.items() for y in _ends(flat.outline)]
    lines = [*worked.blank.breaks(ends), *worked.spine.stations]
    strips = [cell for region in blank_regions(worked, fold) for cell in _cells(region, lines)]
    points, triangles = in_strips(strips, together(np.concatenate(rings)))
    vertices = np.concatenate([folded(fold, points, 0.0), folded(fold, points, 1.0)])
    vertices, faces = welded(vertices, closed(triangles, len(points)))
    return worked.spine.carried(vertices), faces


def _cells(region: shapely.Geometry, lines: list[float]) -> list[shapely.Geometry]:
    """Cut a region at ``lines`` across x, and along x where a notch or a tab has a corner.

    A corner on one of the lines is then a corner of the cells on both sides of it.
    """
    rows = split_at(_turned(region), apart(shapely.get_coordinates(region)[:, 1]))
    return [cell for row in rows for cell in split_at(_turned(row), lines)]


def _turned(region: shapely.Geometry) -> shapely.Geometry:
    """Return the region with x and s exchanged."""
    return shapely.transform(region, lambda points: points[:, ::-1])


def _ends(outline: Array) -> tuple[float, float]:
    return float(outline[:, 1].min()), float(outline[:, 1].max())
