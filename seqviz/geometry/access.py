"""Round tools against convex pieces, exactly: no sampled directions, no tangency mistakes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.pose import Array, Pose, frames_along
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.geometry.solids import Solids, by_corners
from seqviz.geometry.spans import GRAZING, clip

__all__ = [
    "Cylinder",
    "Cylinders",
    "Grouped",
    "cylinder_meets",
    "cylinders_meet",
    "groups_met",
]

_LIMIT = TOLERANCE + GUARD
_PAIRS_AT_ONCE = 2_000
_BOX_TESTS_AT_ONCE = 1_000_000


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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Grouped:
    """Convex pieces in groups, prepared for being asked many times.

    Attributes
    ----------
    lots
        The pieces, those with few corners apart from those with many.
    groups
        How many groups there are.
    """

    lots: tuple[_Lot, ...]
    groups: int

    @staticmethod
    def of(solids: Solids, groups: NDArray[np.intp]) -> Grouped:
        """Prepare ``solids``; ``groups`` holds for each piece the number of its group, ``(m,)``."""
        lots = tuple(_lot(some, groups[numbers]) for numbers, some in by_corners(solids))
        return Grouped(lots=lots, groups=int(groups.max(initial=-1)) + 1)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Lot:
    """Pieces with alike many corners; all but the boxes as columns, ``(3, .., m)``.

    ``middles``: a point inside each; ``reach``: how far its corners are from there, ``(m,)`` mm.
    """

    groups: NDArray[np.intp]
    low: Array
    high: Array
    corners: Array
    normals: Array
    edges: Array
    middles: Array
    reach: Array


def _lot(solids: Solids, groups: NDArray[np.intp]) -> _Lot:
    corners = _columns(solids.vertices)
    middles = corners.mean(axis=1)
    away = corners - middles[:, None]
    return _Lot(
        groups=groups,
        low=solids.low,
        high=solids.high,
        corners=corners,
        normals=_columns(solids.normals),
        edges=_columns(solids.edges),
        middles=middles,
        reach=np.sqrt((away * away).sum(axis=0).max(axis=0, initial=0.0)),
    )


def cylinder_meets(cylinder: Cylinder, solids: Solids) -> NDArray[np.bool_]:
    """Return ``(m,)``: does the cylinder penetrate each piece by more than the tolerance."""
    return np.asarray(cylinders_meet([cylinder], solids)[0])


def cylinders_meet(cylinders: Sequence[Cylinder], solids: Solids) -> NDArray[np.bool_]:
    """Return ``(k, m)``: does each cylinder penetrate each piece by more than the tolerance.

    What counts is the part of a piece between the cylinder's ends, the tolerance taken off at both; it is
    met where it comes nearer to the axis than the radius less the tolerance.
    """
    if not len(cylinders):
        return np.zeros((0, len(solids)), dtype=bool)
    return groups_met(Cylinders.of(cylinders), Grouped.of(solids, np.arange(len(solids))))


def groups_met(cylinders: Cylinders, grouped: Grouped) -> NDArray[np.bool_]:
    """Return ``(k, g)``: does each cylinder penetrate a piece of each group; see `cylinders_meet`.

    One piece of a group is enough: once one is known to be met the others are not measured.
    """
    met = np.zeros((len(cylinders), grouped.groups), dtype=bool)
    for lot in grouped.lots:
        pairs = _near(cylinders, lot)
        pairs = pairs[cylinders.lengths[pairs[:, 0]] > 2.0 * _LIMIT]
        pairs = pairs[_by_middles(cylinders, lot, pairs, met)]
        for first in range(0, len(pairs), _PAIRS_AT_ONCE):
            _note_met(cylinders, lot, pairs[first : first + _PAIRS_AT_ONCE], met)
    return met


def _by_middles(
    cylinders: Cylinders, lot: _Lot, pairs: NDArray[np.intp], met: NDArray[np.bool_]
) -> NDArray[np.bool_]:
    """Note groups ``met`` in the middle of a piece; tell which pairs are still to be asked: not far away."""
    i, j = pairs.T
    away = lot.middles[:, j] - cylinders.starts.T[:, i]
    x, y, z = _seen(away, cylinders.frames.transpose(1, 2, 0)[..., i])
    across = np.sqrt(x * x + y * y)
    ceiling, radii, reach = cylinders.lengths[i] - _LIMIT, cylinders.radii[i] - _LIMIT, lot.reach[j]
    inside = (z > _LIMIT) & (z < ceiling) & (across < radii)
    met[i[inside], lot.groups[j[inside]]] = True
    far = (across >= radii + reach) | (z + reach <= _LIMIT) | (z - reach >= ceiling)
    return np.asarray(~far & ~met[i, lot.groups[j]])


def _note_met(cylinders: Cylinders, lot: _Lot, pairs: NDArray[np.intp], met: NDArray[np.bool_]) -> None:
    """Note the groups ``met`` by pairs: corners, faces and edges tell of most, few are measured."""
    i, j = pairs.T
    owners = lot.groups[j]
    frames = cylinders.frames.transpose(1, 2, 0)[..., i]
    ceiling, radii = cylinders.lengths[i] - _LIMIT, cylinders.radii[i] - _LIMIT
    local = _seen(lot.corners[..., j] - cylinders.starts.T[:, None, i], frames[:, :, None])
    low, high = local.min(axis=1), local.max(axis=1)
    apart = (high[2] <= _LIMIT) | (low[2] >= ceiling)
    apart |= (np.maximum(low, -high)[:2] >= radii).any(axis=0)
    inside = ((local[2] > _LIMIT) & (local[2] < ceiling) & (_across(local) < radii)).any(axis=0)
    met[i[inside], owners[inside]] = True
    open_ = np.flatnonzero(~apart & ~met[i, owners])
    normals = _seen(lot.normals[..., j[open_]], frames[:, :, None, open_])
    apart, inside = _by_faces(local[..., open_], normals, ceiling[open_], radii[open_])
    met[i[open_[inside]], owners[open_[inside]]] = True
    open_ = open_[~apart & ~met[i[open_], owners[open_]]]
    points, there = _clipped(local[..., open_], _LIMIT, ceiling[open_])
    inside = _edge_distances(points, there) < radii[open_]
    met[i[open_[inside]], owners[open_[inside]]] = True
    left = ~met[i[open_], owners[open_]]
    open_ = open_[left]
    if len(open_):
        across = frames[:2, :, None, open_]
        directions = (_seen(lot.edges[..., j[open_]], across), _seen(lot.normals[..., j[open_]], across))
        inside = _distances(points[..., left], there[:, left], directions) < radii[open_]
        met[i[open_[inside]], owners[open_[inside]]] = True


def _seen(vectors: Array, frames: Array) -> Array:
    """Return ``(3, .., k)`` vectors along the axes of as many frames, ``(f, 3, .., k)``: ``(f, .., k)``."""
    return np.stack([x * vectors[0] + y * vectors[1] + z * vectors[2] for x, y, z in frames])


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
    enter, leave = clip(low.T, high.T, lean.T)
    inside = np.minimum(leave, ceiling) - np.maximum(enter, _LIMIT) > GRAZING
    outside = apart.any(axis=0)
    return outside, inside & ~outside


def _near(cylinders: Cylinders, lot: _Lot) -> NDArray[np.intp]:
    """Return ``(p, 2)`` cylinder and piece whose boxes overlap by more than the tolerance."""
    starts, axes = cylinders.starts, cylinders.frames[:, 2]
    ends = starts + axes * cylinders.lengths[:, None]
    wide = cylinders.radii[:, None] * np.sqrt(np.clip(1.0 - axes**2, 0.0, 1.0)) - TOLERANCE
    low, high = np.minimum(starts, ends) - wide, np.maximum(starts, ends) + wide
    if not len(starts):
        return np.zeros((0, 2), dtype=np.intp)
    least, most = low.min(axis=0), high.max(axis=0)
    within = np.ones(len(lot.low), dtype=bool)
    for k in range(3):
        within &= (lot.low[:, k] < most[k]) & (lot.high[:, k] > least[k])
    about = np.flatnonzero(within)
    rows = max(1, _BOX_TESTS_AT_ONCE // max(1, len(about)))
    found = []
    for first in range(0, len(starts), rows):
        near = np.ones((len(low[first : first + rows]), len(about)), dtype=bool)
        for k in range(3):
            near &= low[first : first + rows, k, None] < lot.high[about, k]
            near &= high[first : first + rows, k, None] > lot.low[about, k]
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


def _distances(points: Array, there: NDArray[np.bool_], directions: tuple[Array, Array]) -> Array:
    """Return ``(k,)`` mm from each axis to its piece between the ends: <= 0 inside, inf if none is there.

    ``points`` is what `_clipped` leaves, ``directions`` the pieces' edges and normals, without z.
    """
    reach = np.where(there, _across(points), np.inf)
    nearest = np.take_along_axis(points, reach.argmin(axis=0)[None, None], axis=1)
    along, normals = directions
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
