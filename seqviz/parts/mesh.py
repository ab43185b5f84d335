"""Watertight meshes of parts, holes and openings cut, for pictures and export."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.geometry.pose import Array, Pose
from seqviz.geometry.prism import Piece
from seqviz.parts.extrude import closed, triangulated
from seqviz.parts.fold import fold_of, folded
from seqviz.parts.formed import FORMED
from seqviz.parts.frame_mesh import frame_triangles
from seqviz.parts.part import Flat, Part
from seqviz.parts.rod import rod_triangles
from seqviz.parts.roll_mesh import rolled_triangles
from seqviz.parts.sections import tee_triangles, tube_triangles
from seqviz.parts.surface import Mesh
from seqviz.parts.weld import in_strips, rings_of, together, welded
from seqviz.parts.worked_mesh import worked_triangles

__all__ = ["Mesh", "mesh_of"]


def mesh_of(part: Part, segments: int = 16) -> Mesh:
    """Return the surface of ``part``; each hole is a regular polygon of ``segments`` corners on its circle.

    A skin or plate is triangulated flat and pulled up to its thickness; a rolled one in strips, then it is
    rolled. An angle, channel, zed or hat is
    triangulated as a flat pattern in strips cut at the bend lines, welded, pulled up and folded; a tube is
    such a pattern rolled up; a tee is two sheets joined. Of a bar or block only the holes that go one way are
    cut, those of the flats with most holes: crossing holes are left to the marks drawn on top. A fitting is
    the surfaces of its pieces, each closed, one beside or in the other; another model as one piece also those
    of the heads and tails that came set in it. A mesh is drawn as it is in its file.
    """
    if part.surface is not None:
        return part.surface
    if part.members:
        stood = [_stood(mesh_of(one.part, segments), one.pose) for one in part.members]
        return _beside_each_other([*stood, *(_head(piece) for piece in _own_heads(part))])
    if part.roll is not None:
        vertices, faces = rolled_triangles(part, part.roll, segments)
    elif part.worked is not None:
        vertices, faces = worked_triangles(part.worked, segments)
    elif part.shape in FORMED.values():
        vertices, faces = _formed(part, segments)
    elif part.shape == "frame":
        vertices, faces = frame_triangles(part, segments)
    elif part.shape == "tee":
        vertices, faces = tee_triangles(part, segments)
    elif part.shape == "rod":
        vertices, faces = rod_triangles(part.pieces)
    elif part.shape == "tube":
        vertices, faces = tube_triangles(part, segments)
    else:
        vertices, faces = _straight(part, segments)
    return Mesh(vertices=vertices, faces=_outside_out(vertices, faces))


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


def _stood(mesh: Mesh, pose: Pose) -> Mesh:
    return Mesh(vertices=pose.points(mesh.vertices), faces=mesh.faces)


def _own_heads(part: Part) -> tuple[Piece, ...]:
    """Return the heads and tails set in a whole; those that its members brought are drawn with them."""
    brought = sum(member.part.heads for member in part.members)
    return part.pieces[len(part.pieces) - part.heads + brought :]


def _head(piece: Piece) -> Mesh:
    vertices, faces = rod_triangles((piece,))
    return Mesh(vertices=vertices, faces=_outside_out(vertices, faces))


def _beside_each_other(meshes: list[Mesh]) -> Mesh:
    starts = np.cumsum([0, *(len(mesh.vertices) for mesh in meshes)])
    return Mesh(
        vertices=np.concatenate([mesh.vertices for mesh in meshes]),
        faces=np.concatenate([mesh.faces + start for mesh, start in zip(meshes, starts, strict=False)]),
    )


def _outside_out(vertices: Array, faces: NDArray[np.int64]) -> NDArray[np.int64]:
    """Turn all triangles round where they enclose a negative volume."""
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    volume = np.einsum("ij,ij->", a, np.cross(b, c))
    return faces if volume >= 0 else faces[:, ::-1]
