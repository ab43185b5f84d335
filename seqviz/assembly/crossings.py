"""Where straight lines cross the solid of the parts: the thicknesses that a hole's axis goes through."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.axes import Indices
from seqviz.assembly.structure import PlacedPart
from seqviz.geometry.pose import Array, frames_along
from seqviz.geometry.solids import Solids, joined
from seqviz.geometry.spans import solid_spans

__all__ = ["Span", "crossings"]

Span = tuple[str, float, float]
"""A placed part and where the line enters and leaves it, mm along the line."""

ADJOINING = 0.01
"""mm: pieces of one part that are nearer along the line are one thickness."""

GRAZE = 1e-6
"""mm: a shorter way through a piece is a touch, not a crossing."""

LINES_AT_ONCE = 2_000
"""More at once would only take more memory."""


def crossings(placed: Sequence[PlacedPart], points: Array, axes: Array) -> list[list[Span]]:
    """Return for each line the parts that it crosses.

    Parameters
    ----------
    placed
        All parts.
    points, axes
        ``(n, 3)``, mm, base frame, and unit vectors.
    """
    solids = joined([part.solids for part in placed])
    some = range(0, len(points), LINES_AT_ONCE)
    cut = [slice(first, first + LINES_AT_ONCE) for first in some]
    return [spans for each in cut for spans in _crossed(placed, solids, points[each], axes[each])]


def _crossed(placed: Sequence[PlacedPart], solids: Solids, points: Array, axes: Array) -> list[list[Span]]:
    found: list[list[Span]] = [[] for _ in points]
    lines, pieces, owners = _candidates(placed, solids, points, axes)
    start, end, seam = _spans(solids, pieces, points[lines], axes[lines])
    # A line along the face of one piece only is outside it; a seam lies between two.
    along = Counter(zip(lines[seam].tolist(), owners[seam].tolist(), strict=True))
    on_seam = {place for place, count in along.items() if count > 1}
    through = end - start > GRAZE
    each = (array[through].tolist() for array in (lines, owners, start, end))
    for line, part, low, high in zip(*each, strict=True):
        if (line, part) not in on_seam:
            found[line].append((placed[part].name, low, high))
    for line, part in sorted(on_seam):
        spans = solid_spans(points[line], axes[line], placed[part].solids)
        found[line] += [(placed[part].name, low, high) for low, high in spans.tolist()]
    return [_merged(spans) for spans in found]


def _candidates(
    placed: Sequence[PlacedPart], solids: Solids, points: Array, axes: Array
) -> tuple[Indices, Indices, Indices]:
    """Return ``(k,)`` lines, pieces and the pieces' parts whose boxes, seen along the line, touch it."""
    frames = frames_along(axes)[:, :2]
    counts = np.array([len(part.solids) for part in placed], dtype=np.intp)
    lines, owners = _near_parts([part.solids for part in placed], points, frames)
    each = counts[owners]
    first = (np.cumsum(counts) - counts)[owners]
    pieces = np.repeat(first - np.cumsum(each) + each, each) + np.arange(each.sum())
    lines, owners = np.repeat(lines, each), np.repeat(owners, each)
    middles, halves = (solids.low + solids.high) / 2, (solids.high - solids.low) / 2 + GRAZE
    away = np.abs(np.einsum("kac,kc->ka", frames[lines], middles[pieces] - points[lines]))
    close = (away <= np.einsum("kac,kc->ka", np.abs(frames)[lines], halves[pieces])).all(axis=1)
    lines, pieces, owners = lines[close], pieces[close], owners[close]
    seen = (solids.vertices[pieces] - points[lines, None]) @ frames[lines].transpose(0, 2, 1)
    touch = ((seen.min(axis=1) <= 0.0) & (seen.max(axis=1) >= 0.0)).all(axis=1)
    return lines[touch], pieces[touch], owners[touch]


def _near_parts(bodies: Sequence[Solids], points: Array, frames: Array) -> tuple[Indices, Indices]:
    """Return ``(k,)`` lines and bodies of which the line may cross the box around the whole body.

    ``frames`` are ``(n, 2, 3)`` unit vectors across the lines.
    """
    solid = np.array([k for k, body in enumerate(bodies) if len(body)], dtype=np.intp)
    low = np.array([bodies[k].low.min(axis=0) for k in solid]).reshape(-1, 3)
    high = np.array([bodies[k].high.max(axis=0) for k in solid]).reshape(-1, 3)
    middles, halves = (low + high) / 2, (high - low) / 2 + GRAZE
    away = np.abs(frames @ middles.T - np.einsum("kac,kc->ka", frames, points)[..., None])
    lines, near = np.nonzero((away <= np.abs(frames) @ halves.T).all(axis=1))
    return lines, solid[near]


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
