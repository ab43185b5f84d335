"""Drill lines against convex pieces: where an endless line is inside, and where a solid of several is."""

from __future__ import annotations

import numpy as np

from seqviz.geometry.pose import Array, frames_along
from seqviz.geometry.solids import Solids

__all__ = ["GRAZING", "clip", "line_spans", "solid_spans"]

GRAZING = 1e-6
"""A line inside a piece for less than this, mm, or nearer to a face than half of it, only touches it."""

# Lines this far round a line, mm, tell whether it runs in a seam between two pieces or along a face.
_ROUND = 1e-5
# A line whose angle with a face has a smaller sine than this runs along it: 1e-8 mm over 10 m.
_ALONG = 1e-12


def line_spans(point: Array, axis: Array, solids: Solids) -> Array:
    """Return ``(m, 2)``: where the endless line enters and leaves each piece.

    Parameters
    ----------
    point, axis
        ``(3,)`` mm, and a unit vector: the line, in the frame of ``solids``.

    Returns
    -------
    spans
        mm along ``axis`` from ``point``; nan, nan where the line misses the piece or only touches it.
    """
    low, high, slope = _shadows(point[None], axis, solids)
    enter, leave = clip(low[0], high[0], slope)
    inner, outer = clip(low[0] + GRAZING / 2.0, high[0] - GRAZING / 2.0, slope)
    inside = (inner < outer) & (leave - enter >= GRAZING)
    return np.where(inside[:, None], np.stack([enter, leave], axis=1), np.nan)


def solid_spans(point: Array, axis: Array, solids: Solids) -> Array:
    """Return ``(s, 2)``: where the endless line is inside ``solids`` taken together, in order.

    A line in the seam between two pieces only touches each of them, but it is inside what they fill together:
    where all lines close round it are inside, so is it. Ends are exact for lines square to the faces, else
    within 1e-5 mm.

    Parameters
    ----------
    point, axis
        ``(3,)`` mm, and a unit vector: the line, in the frame of ``solids``.
    """
    across = frames_along(axis[None])[0, :2]
    turns = 0.3 + np.arange(6) * (np.pi / 3.0)
    offsets = _ROUND * np.column_stack([np.cos(turns), np.sin(turns)]) @ across
    low, high, slope = _shadows(point + offsets, axis, solids)
    # Along a face counts as inside here: others of the lines tell on which side the solid is.
    widened = np.where(np.abs(slope) < _ALONG, GRAZING, 0.0)
    common: list[tuple[float, float]] = [(-np.inf, np.inf)]
    for ends in np.stack(clip(low - widened, high + widened, slope), axis=2):
        both = [(max(a, c), min(b, d)) for a, b in common for c, d in _joined(ends)]
        common = [(enter, leave) for enter, leave in both if leave - enter > GRAZING]
    return np.array(common, dtype=np.float64).reshape(-1, 2)


def _shadows(points: Array, axis: Array, solids: Solids) -> tuple[Array, Array, Array]:
    """Return how high each piece reaches over each of ``(p, 3)`` points, and the line's slope.

    ``(p, m, N)`` lowest and highest, mm, and ``(m, N)`` mm for each mm along ``axis``.
    """
    heights = solids.vertices @ solids.normals.transpose(0, 2, 1)
    at = np.moveaxis(solids.normals @ points.T, 2, 0)
    return heights.min(axis=1) - at, heights.max(axis=1) - at, solids.normals @ axis


def _joined(spans: Array) -> list[tuple[float, float]]:
    """Return the spans in order, those that touch or overlap made one, misses left out."""
    whole: list[tuple[float, float]] = []
    for enter, leave in sorted((float(a), float(b)) for a, b in spans if a < b - GRAZING):
        if whole and enter <= whole[-1][1] + GRAZING:
            whole[-1] = (whole[-1][0], max(leave, whole[-1][1]))
        else:
            whole.append((enter, leave))
    return whole


def clip(low: Array, high: Array, slope: Array) -> tuple[Array, Array]:
    """Return where ``t * slope`` comes and stops being between ``low`` and ``high``, all of the last axis.

    Parameters
    ----------
    low, high, slope
        ``(..., N)``: mm at ``t = 0``, and mm for each mm of ``t``.

    Returns
    -------
    enter, leave
        ``(...)`` mm; where they never all are, ``enter`` is the greater one.
    """
    along = np.abs(slope) < _ALONG
    safe = np.where(along, 1.0, slope)
    one, other = low / safe, high / safe
    never = along & ((low >= 0.0) | (high <= 0.0))
    enter = np.where(along, np.where(never, np.inf, -np.inf), np.minimum(one, other))
    leave = np.where(along, np.where(never, -np.inf, np.inf), np.maximum(one, other))
    return enter.max(axis=-1), leave.min(axis=-1)
