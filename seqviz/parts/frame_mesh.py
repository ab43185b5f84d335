"""Triangles of frames: the flat sheet with its holes, bent leaf by leaf, and the lips."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.geometry.prism import Prismoid
from seqviz.parts.extrude import closed, triangulated
from seqviz.parts.frame_blank import Leaf, leaves_of, lips_of
from seqviz.parts.part import Part
from seqviz.parts.weld import rings_of, together, welded

__all__ = ["frame_triangles"]

_SAME = 1e-6  # mm

_Layers = tuple[Array, Array, NDArray[np.int64]]
"""Corners (n, 3) on both faces of the sheet, and triangles between them."""


def frame_triangles(part: Part, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return vertices ``(n, 3)`` and triangles of a frame, its holes cut."""
    leaves = leaves_of(part)
    holes = _holes(part, leaves, segments)
    layers = [_web(part, leaves, holes)]
    layers += [_strip(leaf, strip, holes) for leaf in leaves for strip in leaf.strips()]
    layers += [quad for lip in lips_of(part) for quad in _quads(lip, mirrored=part.mirrored)]
    offsets = np.cumsum([0] + [len(low) for low, _, _ in layers])
    both = np.concatenate([np.hstack([low, high]) for low, high, _ in layers])
    triangles = np.concatenate([t + start for (_, _, t), start in zip(layers, offsets, strict=False)])
    # Neighbours share corners that lie together on both faces; relieved ends may touch on one only.
    both, triangles = welded(both, triangles)
    # Of a bend that is sharp inside all inner lines come to lie on one.
    return welded(np.concatenate([both[:, :3], both[:, 3:]]), closed(triangles, len(both)))


def _holes(part: Part, leaves: list[Leaf], segments: int) -> shapely.Geometry:
    """Return the rivet holes on the flat sheet."""
    by_flat = {leaf.flat.name: leaf for leaf in leaves}
    rings = [np.zeros((0, segments, 2))]
    for name, flat in part.flats.items():
        on_flat = rings_of(flat, [hole for hole in part.holes if hole.flat == name], segments)
        if name in by_flat:
            on_flat = by_flat[name].unrolled(on_flat.reshape(-1, 2)).reshape(on_flat.shape)
        rings.append(on_flat)
    return together(np.concatenate(rings))


def _web(part: Part, leaves: list[Leaf], holes: shapely.Geometry) -> _Layers:
    web = part.flats["web"]
    sheet = triangulated(shapely.difference(shapely.Polygon(web.outline, web.openings), holes))
    for leaf in leaves:
        for end in leaf.reach:
            sheet = _with_corner(*sheet, leaf.on_sheet(np.array([end]), np.zeros(1))[0])
    points, triangles = sheet
    low = np.column_stack([points, np.zeros(len(points))])
    return low, low + np.array([0.0, 0.0, web.thickness]), triangles


def _with_corner(
    points: Array, triangles: NDArray[np.int64], corner: Array
) -> tuple[Array, NDArray[np.int64]]:
    """Return the triangles with a corner at a point of their border, where a bend begins."""
    if np.linalg.norm(points[triangles].reshape(-1, 2) - corner, axis=1).min() < _SAME:
        return points, triangles
    starts = points[triangles]
    sides = np.roll(starts, -1, axis=1) - starts
    share = np.clip(((corner - starts) * sides).sum(axis=2) / (sides**2).sum(axis=2), 0.0, 1.0)
    away = np.linalg.norm(starts + share[..., None] * sides - corner, axis=2)
    # Thin triangles have more than one edge there; it must be on the border.
    there, back = triangles, np.roll(triangles, -1, axis=1)
    inner = np.isin(there * len(points) + back, back * len(points) + there)
    split, side = np.unravel_index(np.argmin(np.where(inner, np.inf, away)), away.shape)
    if away[split, side] > _SAME:
        # A hole is cut there.
        return points, triangles
    first, second, third = np.roll(triangles[split], -int(side))
    halves = [[first, len(points), third], [len(points), second, third]]
    return np.vstack([points, corner]), np.vstack([np.delete(triangles, split, axis=0), halves])


def _strip(leaf: Leaf, strip: shapely.Polygon, holes: shapely.Geometry) -> _Layers:
    points, triangles = triangulated(shapely.difference(strip, holes))
    return *leaf.bent(points), triangles


def _quads(lip: list[Prismoid], *, mirrored: bool) -> list[_Layers]:
    """Return the facets of a lip: outer faces have corners 0 and 1 of both ends, inner faces 3 and 2."""
    triangles = np.array([[0, 1, 2], [0, 2, 3]])
    # A mirrored lip is walked round the other way.
    triangles = triangles[:, ::-1] if mirrored else triangles
    below, above = ((0, 1), (3, 2)) if lip[0].bottom[0][2] < lip[0].bottom[3][2] else ((3, 2), (0, 1))
    return [(_face(piece, below), _face(piece, above), triangles) for piece in lip]


def _face(piece: Prismoid, corners: tuple[int, int]) -> Array:
    one, other = corners
    return np.array([piece.bottom[one], piece.top[one], piece.top[other], piece.bottom[other]])
