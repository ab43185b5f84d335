"""Convex pieces found in a surface: it is sliced along the axis along which it is most nearly prismatic.

Between two levels a slab is the region that its sections cover together. Where walls slope the slab is
halved, the roughest first, until it is true or there are enough of them.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from seqviz.geometry.polygons import anticlockwise, convex_pieces
from seqviz.geometry.pose import Array, Pose, any_across, cross, frozen, unit
from seqviz.geometry.prism import Prism
from seqviz.parts.slicing import Filled, Slices
from seqviz.parts.surface import Mesh
from seqviz.parts.welding import bodies_of

__all__ = ["MOST_PIECES", "Found", "pieces_in", "prismatic_axis"]

MOST_PIECES = 400
MOST_SLABS = 64
"""So that a mesh is as quick to check as any other part (project choice)."""

TRUE = 0.01
"""mm: sections that differ by less are one."""

_THIN = 0.2  # mm: no slab is thinner, but where the whole is
_JUST_INSIDE = 0.002  # mm from a level, so that the section is that of the walls and not of the step
_ALONG, _ACROSS = math.cos(math.radians(1.0)), math.sin(math.radians(1.0))
_ROUGHER = (TRUE, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Found:
    """Convex pieces, part frame, and how far they may be off the surface, mm."""

    pieces: tuple[Prism, ...]
    off: float


@dataclass(order=True, slots=True)
class _Slab:
    """Between two levels; the roughest comes first."""

    rough: float
    low: float
    high: float
    cover: BaseGeometry = field(compare=False)


def pieces_in(surface: Mesh, filled: tuple[Filled, ...], square: Sequence[Array] = ()) -> Found:
    """Return convex pieces that fill a surface; no pieces where it holds no solid.

    Parameters
    ----------
    surface
        mm; open edges are bridged straight across.
    filled
        Holes that are not cut out.
    square
        Normals of flats: the axis is chosen so that these come out exactly, if there is one.
    """
    axis = prismatic_axis(surface, square)
    across = any_across(axis)
    rotation = np.column_stack([across, cross(axis, across), axis])
    slices = Slices.of(surface, bodies_of(surface), rotation, filled)
    slabs = _slabs(slices, _levels(slices))
    rings, off = _convex(slabs)
    frame = frozen(rotation)
    pieces = tuple(
        Prism(
            polygon=frozen(ring),
            height=slab.high - slab.low,
            frame=Pose(rotation=frame, translation=frozen(axis * slab.low)),
        )
        for slab, rings_here in zip(slabs, rings, strict=True)
        for ring in rings_here
    )
    rough = max((-slab.rough for slab in slabs), default=0.0)
    return Found(pieces=pieces, off=(rough if rough > TRUE else 0.0) + off)


def prismatic_axis(surface: Mesh, square: Sequence[Array] = ()) -> Array:
    """Return the unit vector to which most of the surface, and all of ``square``, is parallel or square.

    Among equals the one along which there are fewest steps.
    """
    normals, areas = _normals(surface)
    candidates = [*np.eye(3), *square, *_frequent(normals, areas)]
    candidates += [
        unit(np.cross(a, b)) for a in square for b in square if np.linalg.norm(np.cross(a, b)) > 0.1
    ]
    best, best_worth = candidates[0], (-1.0, -1.0, 0.0)
    for axis in candidates:
        lean = np.abs(normals @ axis)
        flat = lean > _ALONG
        share = float(areas[flat | (lean < _ACROSS)].sum() / areas.sum())
        wanted = sum(abs(float(n @ axis)) > _ALONG or abs(float(n @ axis)) < _ACROSS for n in square)
        steps = len(_apart(surface.vertices[surface.faces[flat].ravel()] @ axis, _THIN))
        worth = (float(wanted), round(share, 2), -float(steps))
        if worth > best_worth:
            best, best_worth = axis, worth
    return np.asarray(unit(best))


def _normals(surface: Mesh) -> tuple[Array, Array]:
    a, b, c = (surface.vertices[surface.faces[:, k]] for k in range(3))
    doubled = np.cross(b - a, c - a)
    areas = np.linalg.norm(doubled, axis=1)
    return doubled / np.maximum(areas, 1e-300)[:, None], areas / 2


def _frequent(normals: Array, areas: Array, most: int = 6) -> list[Array]:
    """Return the directions in which most of the surface looks."""
    cells = np.rint(normals * 50).astype(np.int64) + 64
    keys, index = np.unique((cells[:, 0] << 16) | (cells[:, 1] << 8) | cells[:, 2], return_inverse=True)
    weight = np.bincount(index.reshape(-1), weights=areas, minlength=len(keys))
    order = np.argsort(-weight, kind="stable")[:most]
    sums = np.column_stack([np.bincount(index.reshape(-1), weights=areas * n) for n in normals.T])
    return [unit(sums[k]) for k in order if weight[k] > 0.0 and np.linalg.norm(sums[k]) > 0.0]


def _apart(levels: Array, gap: float) -> list[float]:
    """Return levels more than ``gap`` apart, the lowest and the highest among them."""
    if not len(levels):
        return []
    every = np.unique(np.round(levels, 3))
    kept = [float(levels.min())]
    for level in every.tolist():
        if level - kept[-1] > gap:
            kept.append(level)
    top = float(levels.max())
    if len(kept) > 1 and top - kept[-1] <= gap:
        kept.pop()
    return kept if top == kept[-1] else [*kept, top]


def _levels(slices: Slices) -> list[float]:
    """Return the levels between which the walls may be straight: those of the steps, and both ends."""
    z = slices.vertices[:, 2][slices.faces]
    flat = np.abs(_normals(Mesh(vertices=slices.vertices, faces=slices.faces))[0][:, 2]) > _ALONG
    used = z[flat].ravel()
    every = np.concatenate([used, [z.min(), z.max()]])
    levels = _apart(every, min(_THIN, float(z.max() - z.min()) / 2))
    if len(levels) <= MOST_SLABS // 2:
        return levels
    return [float(level) for level in np.linspace(levels[0], levels[-1], MOST_SLABS // 2 + 1)]


def _slabs(slices: Slices, levels: list[float]) -> list[_Slab]:
    steps = frozenset(levels)
    queue = [_slab(slices, low, high, steps) for low, high in pairwise(levels)]
    heapq.heapify(queue)
    done: list[_Slab] = []
    while queue:
        worst = heapq.heappop(queue)
        thin = worst.high - worst.low < 2 * _THIN
        if -worst.rough <= TRUE or len(queue) + len(done) + 1 >= MOST_SLABS:
            done += [worst, *queue]
            break
        if thin:
            done.append(worst)
            continue
        middle = (worst.low + worst.high) / 2
        for low, high in ((worst.low, middle), (middle, worst.high)):
            heapq.heappush(queue, _slab(slices, low, high, steps))
    return sorted((slab for slab in done if not slab.cover.is_empty), key=lambda slab: slab.low)


def _slab(slices: Slices, low: float, high: float, steps: frozenset[float]) -> _Slab:
    inside = min(_JUST_INSIDE, (high - low) / 10)
    # A level that only halves a slab serves the slabs on both sides of it.
    first, last = low + inside * (low in steps), high - inside * (high in steps)
    sections = [slices.at(level) for level in (first, (low + high) / 2, last)]
    # Whatever the sections do, the surface is never farther off than the slab is high.
    rough = min(high - low, max(_differ(sections[0], sections[1]), _differ(sections[1], sections[2])))
    cover = sections[1] if rough <= TRUE else shapely.union_all(sections)
    return _Slab(-rough, low, high, cover)


def _differ(one: BaseGeometry, other: BaseGeometry) -> float:
    """Return how far two sections are off each other, mm."""
    if one is other or (one.is_empty and other.is_empty):
        return 0.0
    if one.is_empty or other.is_empty:
        return max(math.dist(each.bounds[:2], each.bounds[2:]) for each in (one, other) if not each.is_empty)
    return float(shapely.hausdorff_distance(one, other))


def _convex(slabs: list[_Slab]) -> tuple[list[list[Array]], float]:
    """Return the convex rings of each slab, as many in all as are allowed, and how far they are off."""
    for rougher in _ROUGHER:
        regions = [_simpler(slab.cover, rougher) for slab in slabs]
        if sum(_least(region) for region in regions) > MOST_PIECES:
            continue
        rings = [_rings(region) for region in regions]
        if sum(len(each) for each in rings) <= MOST_PIECES:
            return rings, 0.0 if rougher == TRUE else rougher
    hulls = [slab.cover.convex_hull for slab in slabs]
    wide = max(math.dist(hull.bounds[:2], hull.bounds[2:]) for hull in hulls)
    off = max(
        float(shapely.hausdorff_distance(hull, slab.cover)) for hull, slab in zip(hulls, slabs, strict=True)
    )
    return [_rings(_simpler(hull, wide / 50)) for hull in hulls], off + wide / 50


def _simpler(region: BaseGeometry, within: float) -> list[shapely.Polygon]:
    """Return the polygons of a region that are no slivers, simplified."""
    parts = [part for part in shapely.get_parts(region.simplify(within)) if part.geom_type == "Polygon"]
    return [part for part in parts if part.is_valid and not part.buffer(-TRUE).is_empty]


def _least(region: list[shapely.Polygon]) -> int:
    """Return how many convex pieces of eight corners there are at least."""
    return sum(
        max(1, (sum(len(ring.coords) - 1 for ring in (one.exterior, *one.interiors)) - 2) // 6)
        for one in region
    )


def _rings(region: list[shapely.Polygon]) -> list[Array]:
    found: list[Array] = []
    for polygon in region:
        outline, *openings = (
            np.asarray(ring.coords)[:-1, :2] for ring in (polygon.exterior, *polygon.interiors)
        )
        found += convex_pieces(anticlockwise(outline), openings)
    return found
