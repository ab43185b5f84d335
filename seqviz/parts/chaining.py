"""Loose segments become closed lines, and closed lines regions."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from seqviz.geometry.pose import Array

__all__ = ["closed_lines", "region_of"]

Indices = NDArray[np.int64]


def closed_lines(segments: Indices) -> list[Indices]:
    """Return the lines that ``(k, 2)`` segments between numbered points form, each as its points in order.

    Every line is meant closed: the last point joins the first, also where the segments leave a gap.
    """
    if not len(segments):
        return []
    # Half 2 k is the start of segment k, half 2 k + 1 its end; partner is the half at the same point.
    ends = segments.reshape(-1)
    order = np.argsort(ends, kind="stable")
    partner = np.full(len(ends), -1)
    group = ends[order]
    first = np.flatnonzero(np.concatenate([[True], group[1:] != group[:-1]]))
    rank = np.arange(len(ends)) - np.repeat(first, np.diff(np.concatenate([first, [len(ends)]])))
    pairs = np.flatnonzero((rank[1:] % 2 == 1) & (group[1:] == group[:-1]))
    partner[order[pairs]] = order[pairs + 1]
    partner[order[pairs + 1]] = order[pairs]
    return _walked(ends.tolist(), partner.tolist())


def _walked(ends: list[int], partner: list[int]) -> list[Indices]:
    done = [False] * (len(ends) // 2)
    lines: list[Indices] = []
    # Lines with loose ends are walked from one of them.
    loose = [half for half, other in enumerate(partner) if other < 0]
    for begin in (*loose, *range(0, len(ends), 2)):
        if done[begin // 2]:
            continue
        half, line = begin, [ends[begin]]
        while half >= 0 and not done[half // 2]:
            done[half // 2] = True
            half ^= 1
            line.append(ends[half])
            half = partner[half]
        lines.append(np.array(line, dtype=np.int64))
    return lines


def region_of(lines: list[Array], within: float) -> BaseGeometry:
    """Return the region that closed lines, each ``(n, 2)`` mm, bound: inside an odd number of them.

    Corners that stray from a straight line by less than ``within`` mm are left out.
    """
    rings = [np.concatenate([line, line[:1]]) for line in lines if len(line) > 2]
    rings = [ring for ring in rings if np.ptp(ring, axis=0).min() > 0.0]
    if not rings:
        return shapely.Polygon()
    if len(rings) == 1:
        region = shapely.Polygon(rings[0])
        region = region if region.is_valid else shapely.make_valid(region)
    else:
        region = shapely.build_area(shapely.MultiLineString(rings))
    return _areas(_simplified(region, within))


def _simplified(region: BaseGeometry, within: float) -> BaseGeometry:
    quick = shapely.simplify(region, within, preserve_topology=False)
    if quick.is_valid and len(shapely.get_parts(quick)) == len(shapely.get_parts(region)):
        return quick
    return shapely.simplify(region, within)


def _areas(region: BaseGeometry) -> BaseGeometry:
    """Return the polygons of a region only."""
    parts = [part for part in shapely.get_parts(region) if part.geom_type in ("Polygon", "MultiPolygon")]
    return parts[0] if len(parts) == 1 else shapely.union_all(parts)
