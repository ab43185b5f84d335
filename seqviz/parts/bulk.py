"""How big a piece is, and how much metal it has."""

from __future__ import annotations

import math

import numpy as np

from seqviz.geometry.volume import corners_of, volume_of
from seqviz.parts.part import Hole, Part
from seqviz.parts.surface import Mesh

__all__ = ["box_of", "metal_of", "single_holes"]


def box_of(part: Part) -> tuple[float, float, float] | None:
    """Return length (x), width (y) and height (z) of the finished piece, mm; None: no shape yet."""
    if not part.pieces:
        return None
    corners = np.concatenate([ring for piece in part.pieces for ring in corners_of(piece)])
    long, wide, high = (corners.max(axis=0) - corners.min(axis=0)).tolist()
    return long, wide, high


def metal_of(part: Part) -> float | None:
    """Return the volume of a piece without its holes, mm3; None: no shape yet.

    Two holes at one place are one. Where holes cross each other inside a block, what they share goes off
    twice, and what pieces of a fitting share counts twice; that is left out. A mesh has what its surface
    encloses, with the holes that are in it; where it is open, what its pieces have.
    """
    if not part.pieces:
        return None
    if part.members:
        return sum(metal_of(member.part) or 0.0 for member in part.members)
    if part.surface is not None:
        inside = _enclosed(part.surface)
        return sum(map(volume_of, part.pieces)) if inside is None else inside
    drilled = sum(
        math.pi / 4 * hole.diameter**2 * part.flats[hole.flat].thickness
        for hole in single_holes(part)
        if hole.flat in part.flats
    )
    return sum(map(volume_of, part.pieces)) - drilled


def _enclosed(surface: Mesh) -> float | None:
    """Return the volume inside a surface, mm3; None where an edge has no second triangle."""
    faces = surface.faces
    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    there, back = edges @ [len(surface.vertices), 1], edges @ [1, len(surface.vertices)]
    if not np.array_equal(np.sort(there), np.sort(back)):
        return None
    a, b, c = (surface.vertices[faces[:, k]] for k in range(3))
    return abs(float(np.einsum("ij,ij->", a, np.cross(b, c)))) / 6


def single_holes(part: Part) -> tuple[Hole, ...]:
    """Return the holes of a part, each once: two holes at one place are one with two names."""
    found: dict[tuple[float, ...], Hole] = {}
    for hole in part.holes:
        place, axis = np.round(hole.centre, 3) + 0.0, np.round(np.abs(hole.axis), 3)
        found.setdefault((*place.tolist(), *axis.tolist()), hole)
    return tuple(found.values())
