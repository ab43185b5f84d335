"""Round tools and drill lines against convex pieces, exactly: no sampled directions, no tangency mistakes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.pose import Array, Pose, frames_along
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.geometry.solids import Solids

__all__ = [
    "Cylinder",
    "Cylinders",
    "cylinder_meets",
    "cylinders_meet",
    "line_spans",
    "met_pairs",
    "solid_spans",
]

_LIMIT = TOLERANCE + GUARD
_PAIRS_AT_ONCE = 2_000
_BOX_TESTS_AT_ONCE = 1_000_000

# A line that is inside a piece for less than this, mm, or nearer to a face than half of it, only touches it.
_GRAZING = 1e-6
# Lines this far round a line, mm, tell whether it runs in a seam between two pieces or along a face.
_ROUND = 1e-5
# A line whose angle with a face has a smaller sine than this runs along it: 1e-8 mm over 10 m.
_ALONG = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cylinder:
    """A round body or corridor.

    Attributes
    ----------
    start
        ``(3,)``, mm, the middle of its first end.
    axis
        ``(3,)`` unit vector from the first end to the other.
    length, radius
        mm.
    """

    start: Array
    axis: Array
    length: float
    radius: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cylinders:
    """Many cylinders in flat arrays, all in one frame, mm.

    Attributes
    ----------
    starts
        ``(k, 3)``.
    frames
        ``(k, 3, 3)`` rows: two unit vectors across the axis, and the axis.
    lengths, radii
        ``(k,)``.
    """

    starts: Array
    frames: Array
    lengths: Array
    radii: Array

    def __len__(self) -> int:
        return len(self.starts)

    @staticmethod
    def of(cylinders: Sequence[Cylinder]) -> Cylinders:
        """Return ``cylinders`` as arrays, in the same order."""
        return Cylinders(
            starts=np.array([one.start for one in cylinders]).reshape(-1, 3),
            frames=frames_along(np.array([one.axis for one in cylinders]).reshape(-1, 3)),
            lengths=np.array([one.length for one in cylinders]),
            radii=np.array([one.radius for one in cylinders]),
        )

    @staticmethod
    def joined(lists: Sequence[Cylinders]) -> Cylinders:
        """Return the cylinders of all ``lists``, one after the other; there is at least one list."""
        return Cylinders(
            starts=np.concatenate([one.starts for one in lists]),
            frames=np.concatenate([one.frames for one in lists]),
            lengths=np.concatenate([one.lengths for one in lists]),
            radii=np.concatenate([one.radii for one in lists]),
        )

    def moved(self, poses: Sequence[Pose]) -> Cylinders:
        """Return all of them carried by each pose, one pose after the other."""
        rotations = np.array([pose.rotation.T for pose in poses])
        origins = np.array([pose.translation for pose in poses])
        return Cylinders(
            starts=(self.starts @ rotations + origins[:, None]).reshape(-1, 3),
            frames=(self.frames @ rotations[:, None]).reshape(-1, 3, 3),
            lengths=np.tile(self.lengths, len(poses)),
            radii=np.tile(self.radii, len(poses)),
        )


def cylinder_meets(cylinder: Cylinder, solids: Solids) -> NDArray[np.bool_]:
    """Return ``(m,)``: does the cylinder penetrate each piece by more than the tolerance."""
    return np.asarray(cylinders_meet([cylinder], solids)[0])


def cylinders_meet(cylinders: Sequence[Cylinder], solids: Solids) -> NDArray[np.bool_]:
    """Return ``(k, m)``: does each cylinder penetrate each piece by more than the tolerance.

    What counts is the part of a piece between the cylinder's ends, the tolerance taken off at both; it is
    met where it comes nearer to the axis than the radius less the tolerance.
    """
    hits = np.zeros((len(cylinders), len(solids)), dtype=bool)
    if hits.size:
        i, j = met_pairs(Cylinders.of(cylinders), solids).T
        hits[i, j] = True
    return hits


def met_pairs(cylinders: Cylinders, solids: Solids) -> NDArray[np.intp]:
    """Return the ``(p, 2)`` cylinders and pieces of which one penetrates the other: see `cylinders_meet`."""
    pairs = _near(cylinders, solids)
    pairs = pairs[cylinders.lengths[pairs[:, 0]] > 2.0 * _LIMIT]
    cut = range(0, len(pairs), _PAIRS_AT_ONCE)
    met = [_met(cylinders, solids, pairs[first : first + _PAIRS_AT_ONCE]) for first in cut]
    return np.asarray(pairs[np.concatenate(met)]) if met else pairs


def _met(cylinders: Cylinders, solids: Solids, pairs: NDArray[np.intp]) -> NDArray[np.bool_]:
    """Tell of which pairs one penetrates the other: corners, faces, edges tell of most, few are measured."""
    i, j = pairs.T
    frames, ceiling, radii = cylinders.frames[i], cylinders.lengths[i] - _LIMIT, cylinders.radii[i] - _LIMIT
    local = _columns((solids.vertices[j] - cylinders.starts[i, None]) @ frames.transpose(0, 2, 1))
    low, high = local.min(axis=1), local.max(axis=1)
    apart = (high[2] <= _LIMIT) | (low[2] >= ceiling)
    apart |= (np.maximum(low, -high)[:2] >= radii).any(axis=0)
    level = (local[2] > _LIMIT) & (local[2] < ceiling)
    met = (level & (_across(local) < radii)).any(axis=0) & ~apart
    open_ = np.flatnonzero(~apart & ~met)
    normals = _columns(solids.normals[j[open_]] @ frames[open_].transpose(0, 2, 1))
    apart, met[open_] = _by_faces(local[..., open_], normals, ceiling[open_], radii[open_])
    open_ = open_[~apart & ~met[open_]]
    points, there = _clipped(local[..., open_], _LIMIT, ceiling[open_])
    met[open_] = _edge_distances(points, there) < radii[open_]
    left = ~met[open_]
    open_ = open_[left]
    if len(open_):
        k = j[open_]
        directions = (solids.edges[k], solids.normals[k])
        met[open_] = _distances(points[..., left], there[:, left], directions, frames[open_]) < radii[open_]
    return np.asarray(met)


def _columns(vectors: Array) -> Array:
    """Return ``(k, n, c)`` vectors as ``(c, n, k)``: long columns are much quicker than many short rows."""
    return np.ascontiguousarray(vectors.transpose(2, 1, 0))


def _across(columns: Array) -> Array:
    """Return ``(n, k)``: how long the columns are across the cylinders' axes; quicker than ``hypot``."""
    return np.asarray(np.sqrt(columns[0] * columns[0] + columns[1] * columns[1]))


def _by_faces(
    local: Array, normals: Array, ceiling: Array, radii: Array
) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Tell what the faces of the pieces can tell: which pairs are apart, and of which the axis goes inside.

    ``local`` holds ``(3, P, k)`` corners, ``normals`` the ``(3, N, k)`` faces' normals, both seen from the
    cylinders.
    """
    heights = sum(corner * normal[:, None] for corner, normal in zip(local, normals, strict=True))
    low, high = np.min(heights, axis=1), np.max(heights, axis=1)
    lean = normals[2]
    first, last = _LIMIT * lean, ceiling * lean
    reach = radii * _across(normals)
    apart = (np.maximum(first, last) + reach <= low) | (np.minimum(first, last) - reach >= high)
    enter, leave = _clip(low.T, high.T, lean.T)
    inside = np.minimum(leave, ceiling) - np.maximum(enter, _LIMIT) > _GRAZING
    outside = apart.any(axis=0)
    return outside, inside & ~outside


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
    enter, leave = _clip(low[0], high[0], slope)
    inner, outer = _clip(low[0] + _GRAZING / 2.0, high[0] - _GRAZING / 2.0, slope)
    inside = (inner < outer) & (leave - enter >= _GRAZING)
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
    widened = np.where(np.abs(slope) < _ALONG, _GRAZING, 0.0)
    common: list[tuple[float, float]] = [(-np.inf, np.inf)]
    for ends in np.stack(_clip(low - widened, high + widened, slope), axis=2):
        both = [(max(a, c), min(b, d)) for a, b in common for c, d in _joined(ends)]
        common = [(enter, leave) for enter, leave in both if leave - enter > _GRAZING]
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
    for enter, leave in sorted((float(a), float(b)) for a, b in spans if a < b - _GRAZING):
        if whole and enter <= whole[-1][1] + _GRAZING:
            whole[-1] = (whole[-1][0], max(leave, whole[-1][1]))
        else:
            whole.append((enter, leave))
    return whole


def _clip(low: Array, high: Array, slope: Array) -> tuple[Array, Array]:
    """Return ``(..., m)`` twice: where ``t * slope`` comes and stops being between ``low`` and ``high``."""
    along = np.abs(slope) < _ALONG
    safe = np.where(along, 1.0, slope)
    one, other = low / safe, high / safe
    never = along & ((low >= 0.0) | (high <= 0.0))
    enter = np.where(along, np.where(never, np.inf, -np.inf), np.minimum(one, other))
    leave = np.where(along, np.where(never, -np.inf, np.inf), np.maximum(one, other))
    return enter.max(axis=-1), leave.min(axis=-1)


def _near(cylinders: Cylinders, solids: Solids) -> NDArray[np.intp]:
    """Return ``(p, 2)`` cylinder and piece whose boxes overlap by more than the tolerance."""
    starts, axes = cylinders.starts, cylinders.frames[:, 2]
    ends = starts + axes * cylinders.lengths[:, None]
    wide = cylinders.radii[:, None] * np.sqrt(np.clip(1.0 - axes**2, 0.0, 1.0)) - TOLERANCE
    low, high = np.minimum(starts, ends) - wide, np.maximum(starts, ends) + wide
    if not len(starts):
        return np.zeros((0, 2), dtype=np.intp)
    least, most = low.min(axis=0), high.max(axis=0)
    within = np.ones(len(solids), dtype=bool)
    for k in range(3):
        within &= (solids.low[:, k] < most[k]) & (solids.high[:, k] > least[k])
    about = np.flatnonzero(within)
    rows = max(1, _BOX_TESTS_AT_ONCE // max(1, len(about)))
    found = []
    for first in range(0, len(starts), rows):
        near = np.ones((len(low[first : first + rows]), len(about)), dtype=bool)
        for k in range(3):
            near &= low[first : first + rows, k, None] < solids.high[about, k]
            near &= high[first : first + rows, k, None] > solids.low[about, k]
        i, j = np.nonzero(near)
        found.append(np.column_stack([i + first, about[j]]))
    return np.concatenate(found)


def _edge_distances(points: Array, there: NDArray[np.bool_]) -> Array:
    """Return ``(k,)`` mm from each axis to the nearest of what `_clipped` leaves of the edges."""
    begin, end = np.split(points, 2, axis=1)
    way = end - begin
    length = (way * way).sum(axis=0)
    share = np.clip(-(begin * way).sum(axis=0) / np.where(length > 0.0, length, 1.0), 0.0, 1.0)
    nearest = begin + way * share
    edges = there[: len(there) // 2]
    reach = np.where(edges, _across(nearest), np.inf)
    return np.asarray(reach.min(axis=0))


def _distances(
    points: Array, there: NDArray[np.bool_], directions: tuple[Array, Array], frames: Array
) -> Array:
    """Return ``(k,)`` mm from each axis to its piece between the ends: <= 0 inside, inf if none is there.

    ``points`` is what `_clipped` leaves, ``directions`` the pieces' edges and normals.
    """
    reach = np.where(there, _across(points), np.inf)
    nearest = np.take_along_axis(points, reach.argmin(axis=0)[None, None], axis=1)
    along, normals = (_columns(one @ frames[:, :2].transpose(0, 2, 1)) for one in directions)
    axes = np.concatenate([np.stack([along[1], -along[0]]), normals, nearest], axis=1)
    size = _across(axes)
    # An edge along the axis, or a corner on it, has no direction across: any other axis serves as well.
    axes = np.where(size > 1e-9, axes / np.where(size > 1e-9, size, 1.0), [[[1.0]], [[0.0]]])
    values = axes[0][:, None] * points[0] + axes[1][:, None] * points[1]
    low = np.where(there, values, np.inf).min(axis=1)
    high = np.where(there, values, -np.inf).max(axis=1)
    return np.asarray(np.maximum(low, -high).max(axis=0))


def _clipped(local: Array, floor: float, ceiling: Array) -> tuple[Array, NDArray[np.bool_]]:
    """Cut the prisms' edges off below ``floor`` and above ``ceiling`` in z.

    Returns ``(2, P, k)`` ends of what is left of them, without z, and ``(P, k)`` whether anything is left.
    """
    ring, opposite = local[:, 0::2], local[:, 1::2]
    begin = np.concatenate([ring, opposite, ring], axis=1)
    end = np.concatenate([np.roll(ring, -1, axis=1), np.roll(opposite, -1, axis=1), opposite], axis=1)
    way = end - begin
    level = np.abs(way[2]) < 1e-12
    safe = np.where(level, 1.0, way[2])
    to_floor, to_ceiling = (floor - begin[2]) / safe, (ceiling - begin[2]) / safe
    between = (begin[2] > floor) & (begin[2] < ceiling)
    first = np.where(level, 0.0, np.maximum(np.minimum(to_floor, to_ceiling), 0.0))
    last = np.where(level, 1.0, np.minimum(np.maximum(to_floor, to_ceiling), 1.0))
    left = np.where(level, between, first < last)
    ends = [begin[:2] + way[:2] * share for share in (first, last)]
    return np.concatenate(ends, axis=1), np.concatenate([left, left])
