"""Sections of a surface across one axis."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from seqviz.geometry.polygons import circle
from seqviz.geometry.pose import Array, unit
from seqviz.parts.chaining import closed_lines, region_of
from seqviz.parts.surface import Mesh

__all__ = ["Filled", "Slices"]

Indices = NDArray[np.int64]

STRAIGHT = 0.005
"""mm: corners of a section that stray less from a straight line are left out."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Filled:
    """A hole that is not cut out of the solid: ``centre`` and ``axis`` (3,), ``radius``, half its depth."""

    centre: Array
    axis: Array
    radius: float
    half: float


@dataclass(slots=True, kw_only=True, eq=False)
class Slices:
    """A surface seen along z; sections are kept.

    Attributes
    ----------
    vertices
        ``(n, 3)``, mm, z is the axis that is sliced across.
    faces, bodies
        ``(m, 3)`` corners, and the body, of each triangle.
    filled
        Holes in the frame of ``vertices``.
    """

    vertices: Array
    faces: Indices
    bodies: Indices
    filled: tuple[Filled, ...] = ()
    _kept: dict[float, BaseGeometry] = field(default_factory=dict)
    _low: Array = field(init=False)
    _high: Array = field(init=False)

    def __post_init__(self) -> None:
        levels = [self.vertices[:, 2][self.faces[:, k]] for k in range(3)]
        self._low, self._high = np.minimum.reduce(levels), np.maximum.reduce(levels)

    @staticmethod
    def of(surface: Mesh, bodies: Indices, rotation: Array, filled: tuple[Filled, ...]) -> Slices:
        """Return a surface as seen in the frame of which ``rotation`` (3, 3) holds the axes as columns."""
        turned = tuple(
            Filled(centre=one.centre @ rotation, axis=one.axis @ rotation, radius=one.radius, half=one.half)
            for one in filled
        )
        return Slices(vertices=surface.vertices @ rotation, faces=surface.faces, bodies=bodies, filled=turned)

    def at(self, level: float) -> BaseGeometry:
        """Return the solid's section at ``level`` mm."""
        if level not in self._kept:
            self._kept[level] = self._with_holes_filled(self._cut(level), level)
        return self._kept[level]

    def _cut(self, level: float) -> BaseGeometry:
        crossed = np.flatnonzero((self._low < level) & (self._high >= level))
        if not len(crossed):
            return shapely.Polygon()
        faces = self.faces[crossed]
        # A corner on the level counts as above it, so that every triangle is cut on two of its edges.
        above = self.vertices[:, 2][faces] >= level
        # The corner that is alone on its side; both edges from it are cut.
        single = np.argmax(above == (above.sum(axis=1) == 1)[:, None], axis=1)
        rows = np.arange(len(faces))
        alone = faces[rows, single]
        ends = np.stack([faces[rows, (single + 1) % 3], faces[rows, (single + 2) % 3]], axis=1)
        count = len(self.vertices)
        low, high = np.minimum(alone[:, None], ends), np.maximum(alone[:, None], ends)
        keys, segments = np.unique(low * count + high, return_inverse=True)
        points = self._points(keys // count, keys % count, level)
        return self._regions(points, segments.reshape(-1, 2), self.bodies[crossed])

    def _points(self, a: Indices, b: Indices, level: float) -> Array:
        """Return the ``(k, 2)`` points where edges from ``a`` to ``b`` go through ``level``."""
        start, end = self.vertices[a], self.vertices[b]
        share = (level - start[:, 2]) / (end[:, 2] - start[:, 2])
        return np.asarray(start[:, :2] + share[:, None] * (end[:, :2] - start[:, :2]))

    def _regions(self, points: Array, segments: Indices, bodies: Indices) -> BaseGeometry:
        regions = []
        for body in np.unique(bodies):
            lines = closed_lines(segments[bodies == body])
            regions.append(region_of([points[line] for line in lines], STRAIGHT))
        return regions[0] if len(regions) == 1 else shapely.union_all(regions)

    def _with_holes_filled(self, section: BaseGeometry, level: float) -> BaseGeometry:
        plugs = [plug for hole in self.filled if (plug := _plug(hole, level)) is not None]
        near = [plug for plug in plugs if plug.intersects(section)]
        return shapely.union_all([section, *near]) if near else section


def _plug(hole: Filled, level: float) -> BaseGeometry | None:
    """Return the section of a hole's room at ``level``; None where there is none or it runs askew."""
    off, lean = abs(level - float(hole.centre[2])), abs(float(hole.axis[2]))
    middle = hole.centre[:2]
    if lean > 0.9999:
        return shapely.Polygon(circle(middle, 2 * hole.radius)) if off <= hole.half else None
    if lean > 0.01 or off >= hole.radius:
        return None
    along = unit(hole.axis[:2])
    reach, wide = along * hole.half, np.array([-along[1], along[0]]) * hole.radius
    return shapely.Polygon(
        [middle + reach + wide, middle - reach + wide, middle - reach - wide, middle + reach - wide]
    )
