"""Triangles of tees and tubes, whose sections no single sheet folds up to."""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.parts.extrude import closed, triangulated
from seqviz.parts.part import Flat, Part
from seqviz.parts.weld import in_strips, rings_of, together, welded

__all__ = ["tee_triangles", "tube_triangles"]

_SAME = 1e-6  # mm


def tee_triangles(part: Part, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return vertices ``(n, 3)`` and triangles of a tee: two sheets, without the faces where they join."""
    flange, stem = part.flats["flange"], part.flats["stem"]
    half = stem.thickness / 2
    (left, low), (right, high) = flange.outline.min(axis=0), flange.outline.max(axis=0)
    strips = [shapely.box(left, a, right, b) for a, b in ((low, -half), (-half, half), (half, high))]
    lying = in_strips(strips, _holes(part, flange, segments))
    upright = triangulated(shapely.difference(shapely.Polygon(stem.outline), _holes(part, stem, segments)))
    slabs = [_slab(flat, *sheet) for flat, sheet in ((flange, lying), (stem, upright))]
    vertices = np.concatenate([points for points, _ in slabs])
    faces = np.concatenate([slabs[0][1], slabs[1][1] + len(slabs[0][0])])
    vertices, faces = welded(vertices, faces)
    return vertices, faces[~_in_the_joint(vertices, flange, half)[faces].all(axis=1)]


def tube_triangles(part: Part, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return vertices ``(n, 3)`` and triangles of a tube: a sheet rolled up; its holes run inward."""
    wall = part.flats["wall"]
    bore, outer = float(wall.frame.translation[2]), float(wall.frame.translation[2]) + wall.thickness
    length, around = float(wall.outline[:, 0].max()), 2 * math.pi * outer
    lines = np.linspace(-around / 2, around / 2, len(part.pieces) + 1)
    strips = shapely.box(0.0, lines[:-1], length, lines[1:])
    holes = _holes_around(part, outer, segments)
    # A hole on the seam is cut on both of its sides.
    once = np.array([0.0, around])
    points, triangles = in_strips(strips, together(np.concatenate([holes - once, holes, holes + once])))
    turns = lines / outer
    ways = np.column_stack([np.interp(points[:, 1], lines, f(turns)) for f in (np.sin, np.cos)])
    shell = np.column_stack([points[:, 0], outer * ways])
    shell, triangles = welded(shell, triangles)
    inside = shell * np.array([1.0, bore / outer, bore / outer])
    return np.concatenate([inside, shell]), closed(triangles, len(shell))


def _slab(flat: Flat, points: Array, triangles: NDArray[np.int64]) -> tuple[Array, NDArray[np.int64]]:
    low = np.column_stack([points, np.zeros(len(points))])
    high = np.column_stack([points, np.full(len(points), flat.thickness)])
    return flat.frame.points(np.concatenate([low, high])), closed(triangles, len(points))


def _holes(part: Part, flat: Flat, segments: int) -> shapely.Geometry:
    return together(rings_of(flat, [hole for hole in part.holes if hole.flat == flat.name], segments))


def _in_the_joint(vertices: Array, flange: Flat, half: float) -> NDArray[np.bool_]:
    """Say of each vertex whether it lies on the flange where the stem stands."""
    _, y, z = flange.frame.inverse().points(vertices).T
    return np.asarray((np.abs(z - flange.thickness) < _SAME) & (np.abs(y) < half + _SAME))


def _holes_around(part: Part, outer: float, segments: int) -> Array:
    """Return the holes as they are drawn on the unrolled outside, ``(k, segments, 2)``: x, and y round it."""
    centres = np.array([hole.centre for hole in part.holes]).reshape(-1, 3)
    turns = np.arange(segments) * (2 * math.pi / segments)
    radii = np.array([hole.diameter / 2 for hole in part.holes])[:, None]
    middle = outer * np.arctan2(centres[:, 1], centres[:, 2])[:, None]
    # Seen along its axis the hole is round; on the sheet it is a little longer around than along.
    around = middle + outer * np.arcsin(np.clip(radii * np.sin(turns) / outer, -1.0, 1.0))
    return np.stack([centres[:, :1] + radii * np.cos(turns), around], axis=-1)
