"""Where straight lines cross the solid of the parts: the thicknesses that a hole's axis goes through."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.assembly.axes import Indices, direction_groups
from seqviz.assembly.structure import PlacedPart
from seqviz.geometry.access import solid_spans
from seqviz.geometry.pose import Array, any_across, cross
from seqviz.geometry.solids import Solids, joined

__all__ = ["Span", "crossings"]

Span = tuple[str, float, float]
"""A placed part and where the line enters and leaves it, mm along the line."""

ADJOINING = 0.01
"""mm: pieces of one part that are nearer along the line are one thickness."""

GRAZE = 1e-6
"""mm: a shorter way through a piece is a touch, not a crossing."""


def crossings(placed: Sequence[PlacedPart], points: Array, axes: Array) -> list[list[Span]]:
    """Return for each line the parts that it crosses.

    Parameters
    ----------
    placed
        All parts.
    points, axes
        ``(n, 3)``, mm, base frame, and unit vectors.
    """
    found: list[list[Span]] = [[] for _ in points]
    solids = joined([part.solids for part in placed])
    owner = np.repeat(np.arange(len(placed)), [len(part.solids) for part in placed])
    done = np.zeros(len(points), dtype=bool)
    for axis, members in direction_groups(axes):
        fresh = members[~done[members]]
        done[fresh] = True
        lines, pieces = _candidates(solids, points[fresh], axis)
        start, end, seam = _spans(solids, pieces, points[fresh][lines], axes[fresh][lines])
        on_seam = {(int(fresh[lines[k]]), int(owner[pieces[k]])) for k in np.flatnonzero(seam)}
        for k in np.flatnonzero(end - start > GRAZE):
            line, part = int(fresh[lines[k]]), int(owner[pieces[k]])
            if (line, part) not in on_seam:
                found[line].append((placed[part].name, float(start[k]), float(end[k])))
        for line, part in sorted(on_seam):
            spans = solid_spans(points[line], axes[line], placed[part].solids)
            found[line] += [(placed[part].name, float(low), float(high)) for low, high in spans]
    return [_merged(spans) for spans in found]


def _candidates(solids: Solids, points: Array, axis: Array) -> tuple[Indices, Indices]:
    """Return line and piece indices whose boxes, seen along ``axis``, touch."""
    across = any_across(axis)
    frame = np.column_stack([across, cross(axis, across)])
    corners = solids.vertices @ frame
    low, high = corners.min(axis=1), corners.max(axis=1)
    tree = shapely.STRtree(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
    lines, pieces = tree.query(shapely.points(points @ frame), predicate="intersects")
    return lines, pieces


def _spans(
    solids: Solids, pieces: Indices, points: Array, axes: Array
) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Return ``(k,)`` starts and ends of the lines inside their pieces; end before start where they miss.

    Last comes whether a line runs along a face of its piece: on the outside, or in the seam between two.
    """
    normals, vertices = solids.normals[pieces], solids.vertices[pieces]
    heights = np.einsum("knc,kvc->knv", normals, vertices)
    low = heights.min(axis=2) - np.einsum("knc,kc->kn", normals, points)
    high = heights.max(axis=2) - np.einsum("knc,kc->kn", normals, points)
    slope = np.einsum("knc,kc->kn", normals, axes)
    level = np.abs(slope) < 1e-12
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        ends = np.sort(np.stack([low / slope, high / slope]), axis=0)
    inside = (low < -GRAZE) & (high > GRAZE)
    start = np.where(level, np.where(inside, -np.inf, np.inf), ends[0])
    end = np.where(level, np.where(inside, np.inf, -np.inf), ends[1])
    along = level & ~inside & (low <= GRAZE) & (high >= -GRAZE)
    return start.max(axis=1), end.min(axis=1), along.any(axis=1)


def _merged(spans: list[Span]) -> list[Span]:
    """Join adjoining pieces of one part."""
    merged: list[Span] = []
    for part, low, high in sorted(spans):
        if merged and merged[-1][0] == part and low - merged[-1][2] <= ADJOINING:
            merged[-1] = (part, merged[-1][1], max(high, merged[-1][2]))
        else:
            merged.append((part, low, high))
    return merged
