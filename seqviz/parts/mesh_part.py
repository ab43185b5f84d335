"""Meshes: a file of triangles becomes a part with flats, holes and convex pieces."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely

from seqviz.findings import Finding
from seqviz.geometry.pose import Array, frozen
from seqviz.parts.body import NARROWEST, Body
from seqviz.parts.fitting import PartOf, fitting_body
from seqviz.parts.mesh_file import mesh_triangles
from seqviz.parts.mesh_flats import mesh_flat
from seqviz.parts.mistakes import bad_value, missing_word, plain
from seqviz.parts.part import Flat, Part
from seqviz.parts.slabs import pieces_in
from seqviz.parts.slicing import Filled
from seqviz.parts.surface import Mesh
from seqviz.parts.welding import open_edges, surface_of
from seqviz.records.model import MeshShape
from seqviz.units import Slip

__all__ = ["mesh_body", "solid_of", "without_openings"]

_UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
_SHORTEST, _LONGEST = 1.0, 20_000.0
"""mm: a part beyond these has its unit wrong (project choice)."""

_TOLD = 0.05
"""mm: pieces that stay nearer to the surface than a touch need no word."""

_PLUG = 0.1
"""mm by which a declared hole is filled wider than it is, so that nothing of the one in the mesh is left."""


def mesh_body(name: str, shape: MeshShape) -> Body | Finding:
    """Return surface and flats of a mesh, or the first mistake; its pieces come once its holes are known."""
    read = mesh_triangles(shape.file)
    if isinstance(read, Slip):
        return bad_value(shape.file.at, f"{name}: {read.message}", read.why, read.fix)
    triangles, kind = read
    unit = shape.unit or ("m" if kind in ("gltf", "glb") else None)
    size = np.ptp(triangles.reshape(-1, 3), axis=0)
    mistake = _unit_mistake(name, shape, unit, size)
    if mistake or unit is None:
        return mistake or Body(flats={}, pieces=(), piece_flats=())
    surface = surface_of(triangles * _UNITS[unit])
    mistake = _thin(name, shape, size * _UNITS[unit]) or _open(name, shape, surface)
    if mistake:
        return mistake
    flats: dict[str, Flat] = {}
    for record in shape.flats:
        flat = mesh_flat(record, surface)
        if isinstance(flat, Finding):
            return flat
        flats[flat.name] = flat
    return Body(flats=flats, pieces=(), piece_flats=(), surface=surface)


def without_openings(flats: dict[str, Flat]) -> dict[str, Flat]:
    """Return the flats for rows to be drilled in: a hole of the part may be one of the mesh already."""
    return {name: replace(flat, openings=()) for name, flat in flats.items()}


def solid_of(part: Part, shape: MeshShape, part_of: PartOf) -> tuple[Part | None, list[Finding]]:
    """Return a drilled mesh with its convex pieces, and what was noticed; None without any."""
    surface = part.surface
    assert surface is not None
    part = replace(part, flats={name: _with_holes(flat, part) for name, flat in part.flats.items()})
    if shape.pieces is not None:
        body = fitting_body(part.name, shape.pieces, part.at, part_of)
        if isinstance(body, Finding):
            return None, [body]
        return replace(part, pieces=body.pieces, piece_flats=("solid",) * len(body.pieces)), []
    normals = [flat.frame.rotation[:, 2] for flat in part.flats.values()]
    found = pieces_in(surface, _filled(part), normals)
    if not found.pieces:
        return None, [_no_solid(part.name, shape)]
    solid = replace(part, pieces=found.pieces, piece_flats=("solid",) * len(found.pieces))
    return solid, [_roughly(part.name, shape, found.off)] if found.off > _TOLD else []


def _filled(part: Part) -> tuple[Filled, ...]:
    return tuple(
        Filled(
            centre=hole.centre,
            axis=hole.axis,
            radius=hole.diameter / 2 + _PLUG,
            half=part.flats[hole.flat].thickness / 2,
        )
        for hole in part.holes
    )


def _with_holes(flat: Flat, part: Part) -> Flat:
    """Return a flat whose openings are those of the mesh in which none of the part's holes lies."""
    back = flat.frame.inverse()
    centres = np.array([back.points(hole.centre)[:2] for hole in part.holes if hole.flat == flat.name])
    points = shapely.points(centres) if len(centres) else []
    kept = [
        ring for ring in flat.openings if not shapely.Polygon(ring).intersects(shapely.MultiPoint(points))
    ]
    return replace(flat, openings=tuple(frozen(ring) for ring in kept))


def _unit_mistake(name: str, shape: MeshShape, unit: str | None, size: Array) -> Finding | None:
    """Return the finding for a unit that is missing or makes a part of no sensible size."""
    longest = float(size.max())
    likely = [one for one in ("mm", "in", "m") if _SHORTEST <= longest * _UNITS[one] <= _LONGEST]
    sizes = "; ".join(f"{one}: {_size(size * _UNITS[one])}" for one in likely)
    if unit is None:
        return missing_word(
            shape.file.at,
            f"{name}: `unit` is missing. The part would measure, with its numbers in {sizes or 'mm: 0'}.",
            "An STL or OBJ file holds numbers and does not say what they count.",
            "Compare with the part itself, and write unit: mm, cm, m or in.",
        )
    if _SHORTEST <= longest * _UNITS[unit] <= _LONGEST:
        return None
    word = "glTF counts in m; another unit may be written" if shape.unit is None else f"It says unit: {unit}"
    return bad_value(
        shape.file.at,
        f"{name} is {_size(size * _UNITS[unit])} large. Is that its unit?",
        f"{word}. Parts are from {plain(_SHORTEST)} mm to {plain(_LONGEST / 1000)} m long (project choice).",
        f"Write the unit that fits. {sizes[0].upper() + sizes[1:]}." if sizes else "Look at the file.",
    )


def _size(size: Array) -> str:
    return " x ".join(f"{one:.4g}" if one < 1 else plain(round(float(one), 1)) for one in size) + " mm"


def _thin(name: str, shape: MeshShape, size: Array) -> Finding | None:
    return None if float(size.min()) >= NARROWEST else _no_solid(name, shape)


def _no_solid(name: str, shape: MeshShape) -> Finding:
    return bad_value(
        shape.file.at,
        f"{name}: the mesh encloses no solid.",
        "What is checked is solid; a surface without thickness is not.",
        "Give the part its thickness where it is drawn, or describe it as a plate, or give its pieces.",
    )


def _open(name: str, shape: MeshShape, surface: Mesh) -> Finding | None:
    """Return the finding for a surface that has open edges although nobody says so."""
    edges = np.zeros((0, 2)) if shape.open else open_edges(surface)
    if not len(edges):
        return None
    x, y, z = surface.vertices[edges[0]].mean(axis=0)
    count = "1 edge" if len(edges) == 1 else f"{len(edges):,} edges"
    return bad_value(
        shape.file.at,
        f"{name}: the mesh is open: {count} with a triangle on one side only, the "
        f"first at [{plain(x)}, {plain(y)}, {plain(z)}] mm.",
        "Of an open surface it is not sure what is solid.",
        "Close it where it was drawn; or write open: yes, and gaps are closed straight across.",
    )


def _roughly(name: str, shape: MeshShape, off: float) -> Finding:
    return Finding(
        kind="meshed-roughly",
        severity="note",
        at=shape.file.at,
        message=f"{name}: the solid that is checked may be up to {plain(round(off, 2))} mm off the mesh.",
        why="It is made of convex pieces; curved and sloping walls are stepped (project choice: 64 steps and "
        "400 pieces at most). Declared flats are exact where one axis is along or square to all of them.",
        fix="Look at what it is said to meet. Where it matters, give its pieces.",
        figure=round(off, 4),
    )
