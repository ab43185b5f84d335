"""Triangles of rolled sheet: its flat pattern in strips, rolled up."""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.parts.extrude import closed
from seqviz.parts.facets import strips
from seqviz.parts.part import Part
from seqviz.parts.roll import Roll
from seqviz.parts.weld import in_strips, together

__all__ = ["rolled_triangles"]


def rolled_triangles(part: Part, roll: Roll, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return vertices ``(n, 3)`` and triangles of a rolled skin; its holes are round in the flat pattern."""
    (face,) = part.flats.values()
    sheet = shapely.Polygon(face.outline, face.openings)
    holes = together(_rings(part, roll, segments))
    points, triangles = in_strips([region for _, _, region in strips(roll, sheet)], holes)
    pattern = roll.origin + points @ np.stack([roll.along, roll.left])
    faces = [roll.on_facets(pattern, level) for level in (0.0, roll.thickness)]
    return np.concatenate(faces), closed(triangles, len(points))


def _rings(part: Part, roll: Roll, segments: int) -> Array:
    """Return the holes as ``(k, segments, 2)`` polygons in (way along the line, s)."""
    centres = np.array([hole.centre for hole in part.holes]).reshape(-1, 3)
    middles = roll.across(roll.unrolled(centres))[:, None]
    turns = np.arange(segments) * (2 * math.pi / segments)
    radii = np.array([hole.diameter / 2 for hole in part.holes])[:, None, None]
    return np.asarray(middles + radii * np.column_stack([np.cos(turns), np.sin(turns)]))
