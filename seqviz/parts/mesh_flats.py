"""Flats that are declared on a mesh: the face of the surface that lies in their plane, and its thickness."""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.findings import Finding
from seqviz.geometry.pose import Array, Pose, cross, frozen
from seqviz.parts.chaining import closed_lines, region_of
from seqviz.parts.mistakes import bad_value, missing_word, plain
from seqviz.parts.part import Flat
from seqviz.parts.surface import Mesh
from seqviz.records.model import MeshFlat

__all__ = ["mesh_flat"]

Indices = NDArray[np.int64]

IN_PLANE = 0.05
"""mm: corners that are farther out of a flat's plane do not belong to it (the tolerance of contact)."""

_LOOKS = math.cos(math.radians(1.0))
_RAYS = 16
_AXES = {
    2: [[1, 0, 0], [0, 1, 0], [0, 0, 1]],  # x and y
    1: [[1, 0, 0], [0, 0, -1], [0, 1, 0]],  # x and z
    0: [[0, 0, 1], [1, 0, 0], [0, 1, 0]],  # y and z
}
"""Axis along which a flat looks -> the axes of its frame as columns, as on a block."""


def mesh_flat(record: MeshFlat, surface: Mesh) -> Flat | Finding:
    """Return the flat that is declared on a surface, or why there is none.

    Its outline and openings are those of the face in its plane that lies nearest to its point.
    """
    turned = _rotation(record)
    if isinstance(turned, Finding):
        return turned
    rotation, outside = turned
    normal = rotation[:, 2] * outside
    at = (surface.vertices - np.array(record.point)) @ rotation
    corners = at[surface.faces]
    looking = _looking(surface, normal)
    level = np.abs(corners[:, :, 2]).max(axis=1) <= IN_PLANE
    chosen = np.flatnonzero(looking & level)
    if not len(chosen):
        return _no_face(record, corners[looking][:, :, 2] * outside)
    region = _nearest(_outline(at, surface.faces[chosen]))
    if region is None:
        return _no_face(record, np.zeros((0, 3)))
    thickness = record.thickness or _thickness(corners, chosen, region, outside)
    if not isinstance(thickness, float):
        return _not_even(record, thickness)
    start = np.array(record.point) - (normal * thickness if outside > 0 else 0.0)
    rings = [np.asarray(ring.coords)[:-1, :2] for ring in (region.exterior, *region.interiors)]
    return Flat(
        name=record.name,
        frame=Pose(rotation=frozen(rotation), translation=frozen(start)),
        thickness=thickness,
        outside=outside,
        outline=frozen(rings[0]),
        openings=tuple(frozen(ring) for ring in rings[1:]),
    )


def _rotation(record: MeshFlat) -> tuple[Array, int] | Finding:
    """Return the axes of a flat's frame as columns, and whether its outside is towards its z (+1)."""
    normal = np.array(record.normal)
    if record.x_along is not None:
        x = np.array(record.x_along) - normal * float(normal @ np.array(record.x_along))
        x = x / np.linalg.norm(x)
        return np.column_stack([x, cross(normal, x), normal]), 1
    axis = int(np.argmax(np.abs(normal)))
    if abs(normal[axis]) < 1 - 1e-9:
        return missing_word(
            record.at,
            f"Flat {record.name} looks askew, and it is not said where its x points.",
            "A flat that looks along x, y or z has the coordinates of the file; any other wants a direction.",
            "Write x along.",
        )
    rotation = np.array(_AXES[axis], dtype=np.float64)
    return rotation, 1 if float(rotation[:, 2] @ normal) > 0 else -1


def _looking(surface: Mesh, normal: Array) -> NDArray[np.bool_]:
    a, b, c = (surface.vertices[surface.faces[:, k]] for k in range(3))
    doubled = np.cross(b - a, c - a)
    return np.asarray(doubled @ normal > _LOOKS * np.maximum(np.linalg.norm(doubled, axis=1), 1e-12))


def _outline(at: Array, faces: Indices) -> shapely.Geometry:
    """Return the region that triangles in the plane cover: what lies inside their outer edges."""
    ends = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    keys = ends.min(axis=1) * len(at) + ends.max(axis=1)
    _, index, times = np.unique(keys, return_index=True, return_counts=True)
    border = ends[np.sort(index[times % 2 == 1])]
    return region_of([at[line, :2] for line in closed_lines(border)], IN_PLANE / 10)


def _nearest(region: shapely.Geometry) -> shapely.Polygon | None:
    """Return the polygon nearest to x = y = 0, of several the largest; anticlockwise."""
    here = shapely.Point(0.0, 0.0)
    parts = [part for part in shapely.get_parts(region) if part.geom_type == "Polygon" and part.area > 0]
    if not parts:
        return None
    nearest = min(parts, key=lambda part: (round(part.distance(here), 3), -part.area))
    return shapely.orient_polygons(nearest)


def _thickness(
    corners: Array, chosen: Indices, region: shapely.Polygon, outside: int
) -> float | tuple[float, float] | None:
    """Return how deep the solid is under a face, mm: one figure, from and to, or None where it has no end.

    ``corners`` (m, 3, 3) are those of all triangles in the flat's axes, z = 0 in its outside.
    """
    middles = corners[chosen].mean(axis=1)[:, :2]
    here = np.flatnonzero(shapely.contains_xy(region, middles[:, 0], middles[:, 1]))
    spots = middles[here[np.unique(np.linspace(0, len(here) - 1, _RAYS).astype(int))]] if len(here) else []
    depths = [depth for spot in spots if (depth := _depth(corners, spot, outside)) is not None]
    if not depths or len(depths) < len(spots):
        return None
    low, high = min(depths), max(depths)
    return float(np.median(depths)) if high - low <= IN_PLANE else (low, high)


def _depth(corners: Array, spot: Array, outside: int) -> float | None:
    """Return how far under its outside the surface is met again at ``spot`` (2,), mm."""
    flat = corners[:, :, :2]
    near = (flat.min(axis=1) <= spot).all(axis=1) & (flat.max(axis=1) >= spot).all(axis=1)
    a, b, c = corners[near].transpose(1, 0, 2)
    (x1, y1), (x2, y2), (x, y) = ((b - a)[:, :2].T, (c - a)[:, :2].T, (spot - a[:, :2]).T)
    double = x1 * y2 - x2 * y1
    with np.errstate(divide="ignore", invalid="ignore"):
        u, v = (x * y2 - x2 * y) / double, (x1 * y - x * y1) / double
        levels = a[:, 2] + u * (b - a)[:, 2] + v * (c - a)[:, 2]
        hit = (np.abs(double) > 1e-12) & (u >= -1e-9) & (v >= -1e-9) & (u + v <= 1 + 1e-9)
    below = -levels[hit] * outside
    below = below[below > IN_PLANE]
    return float(below.min()) if len(below) else None


def _no_face(record: MeshFlat, levels: Array) -> Finding:
    """Return the finding for a flat without a face; ``levels`` are those of faces that look its way, mm."""
    fix = "Correct at or normal, in the coordinates of the file."
    if len(levels):
        even = levels[np.ptp(levels, axis=1) <= IN_PLANE].mean(axis=1)
        if len(even):
            off = float(even[np.argmin(np.abs(even))])
            way = "out" if off > 0 else "in"
            fix = f"The nearest face that looks this way lies {plain(abs(off))} mm farther {way}. " + fix
    return bad_value(
        record.at,
        f"Flat {record.name}: no face of the mesh lies there.",
        "A flat is a face of the mesh: in the plane through at, looking the way of normal.",
        fix,
    )


def _not_even(record: MeshFlat, found: tuple[float, float] | None) -> Finding:
    said = "the mesh has no other side there" if found is None else ""
    if found is not None:
        said = f"the mesh is {plain(found[0])} to {plain(found[1])} mm thick there"
    return missing_word(
        record.at,
        f"Flat {record.name} has no thickness: {said}.",
        "What is clamped at its holes must be known for the grip.",
        "Write thickness: as it is at the holes.",
    )
