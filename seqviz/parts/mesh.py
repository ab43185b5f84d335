"""Watertight meshes of parts, holes and openings cut, for pictures and export."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.parts.extrude import closed, triangulated
from seqviz.parts.fold import fold_of, folded
from seqviz.parts.formed import FORMED
from seqviz.parts.part import Flat, Part
from seqviz.parts.sections import tee_triangles, tube_triangles
from seqviz.parts.weld import in_strips, rings_of, together, welded

__all__ = ["Mesh", "mesh_of"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """Triangles of a closed surface.

    Attributes
    ----------
    vertices
        ``(n, 3)`` float64, mm, part frame.
    faces
        ``(m, 3)`` int64, vertices of each triangle, anticlockwise seen from outside.
    """

    vertices: Array
    faces: NDArray[np.int64]


def mesh_of(part: Part, segments: int = 16) -> Mesh:
    """Return the surface of ``part``; each hole is a regular polygon of ``segments`` corners on its circle.

    A skin or plate is triangulated flat and pulled up to its thickness. An angle, channel, zed or hat is
    triangulated as a flat pattern in strips cut at the bend lines, welded, pulled up and folded; a tube is
    such a pattern rolled up; a tee is two sheets joined. Of a bar or block only the holes that go one way are
    cut, those of the flats with most holes: crossing holes are left to the marks drawn on top.
    """
    if part.members:
        vertices, faces = _joined(part, segments)
        return Mesh(vertices=vertices, faces=faces)
    if part.shape in FORMED.values():
        vertices, faces = _formed(part, segments)
    elif part.shape == "tee":
        vertices, faces = tee_triangles(part, segments)
    elif part.shape == "tube":
        vertices, faces = tube_triangles(part, segments)
    else:
        vertices, faces = _straight(part, segments)
    return Mesh(vertices=vertices, faces=_outside_out(vertices, faces))


def _joined(part: Part, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return another model as one piece: the surfaces of its parts."""
    meshes = [mesh_of(member.part, segments) for member in part.members]
    firsts = np.cumsum([0, *(len(mesh.vertices) for mesh in meshes)])
    vertices = [member.pose.points(mesh.vertices) for member, mesh in zip(part.members, meshes, strict=True)]
    faces = [mesh.faces + first for mesh, first in zip(meshes, firsts[:-1], strict=True)]
    return np.concatenate(vertices), np.concatenate(faces)


def _straight(part: Part, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return a part that is one outline pulled along its normal."""
    flat = _busiest(part)
    through = [hole for hole in part.holes if abs(hole.axis @ flat.frame.rotation[:, 2]) > 0.5]
    holes = together(rings_of(flat, through, segments))
    sheet = shapely.Polygon(flat.outline, flat.openings)
    points, triangles = triangulated(shapely.difference(sheet, holes))
    low = np.column_stack([points, np.zeros(len(points))])
    high = np.column_stack([points, np.full(len(points), flat.thickness)])
    return flat.frame.points(np.concatenate([low, high])), closed(triangles, len(points))


def _busiest(part: Part) -> Flat:
    """Return the flat across which most holes go; opposite flats count together."""
    flats = list(part.flats.values())
    axes = np.array([hole.axis for hole in part.holes]).reshape(-1, 3)
    counts = [int((np.abs(axes @ flat.frame.rotation[:, 2]) > 0.5).sum()) for flat in flats]
    return flats[int(np.argmax(counts))]


def _formed(part: Part, segments: int) -> tuple[Array, NDArray[np.int64]]:
    """Return a part that is a flat pattern folded along x."""
    fold = fold_of(part)
    on = {name: [hole for hole in part.holes if hole.flat == name] for name in part.flats}
    rings = [fold.unrolled(n)(rings_of(part.flats[n], on[n], segments)) for n in part.flats]
    holes = together(np.concatenate(rings))
    points, triangles = in_strips(fold.regions(part), holes)
    vertices = np.concatenate([folded(fold, points, 0.0), folded(fold, points, 1.0)])
    # Of a bend that is sharp inside all inner lines come to lie on one.
    return welded(vertices, closed(triangles, len(points)))


def _outside_out(vertices: Array, faces: NDArray[np.int64]) -> NDArray[np.int64]:
    """Turn all triangles round where they enclose a negative volume."""
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    volume = np.einsum("ij,ij->", a, np.cross(b, c))
    return faces if volume >= 0 else faces[:, ::-1]
