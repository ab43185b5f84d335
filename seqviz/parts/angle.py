"""Angles: two legs and the bend between them."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.polygons import facets
from seqviz.geometry.pose import IDENTITY, Array, Pose, frozen
from seqviz.geometry.prism import Prism
from seqviz.parts.body import NARROWEST, Body, too_narrow
from seqviz.parts.mistakes import bad_value, plain
from seqviz.parts.part import Flat
from seqviz.records.model import AngleShape

__all__ = ["angle_body", "setback"]

# A cross section (y, z) extruded along x: the prism's x, y, z axes are the part's y, z, x axes.
_ALONG_X = Pose(rotation=frozen([[0, 0, 1], [1, 0, 0], [0, 1, 0]]), translation=frozen(np.zeros(3)))


def setback(thickness: float, radius: float, degrees: float) -> float:
    """Return the distance from the mould line to the bend tangent: K (R + T), K = tan(angle / 2).

    FAA AC 43.13-1B, chapter 4, section 4, page 4-14. ``radius`` is the inside radius in the unit of
    ``thickness``, ``degrees`` the bend's angle.
    """
    return math.tan(math.radians(degrees) / 2) * (radius + thickness)


def angle_body(name: str, shape: AngleShape, at: At) -> Body | Finding:
    """Return the body of an angle, or the first mistake in its description.

    Leg 1 lies in 0 <= z <= thickness, x along the part from 0 to its length, y from the outer corner
    (the mould line, where the outer faces would meet). Leg 2 runs from that corner along (-cos A, sin A)
    in (y, z), A the bend's angle. The flats ``leg 1``, ``leg 2`` have x along the part and y away from
    the outer corner; their outlines begin at the bend tangent. The inside is the hollow of the bend.
    """
    mistake = too_narrow(at, name, {"thickness": shape.thickness, "length": shape.length})
    mistake = mistake or _bend_mistake(name, shape, at)
    if mistake:
        return mistake
    turn = math.radians(shape.angle)
    away = np.array([0.0, -math.cos(turn), math.sin(turn)])
    outward = np.array([0.0, -math.sin(turn), -math.cos(turn)])
    frame = Pose(
        rotation=frozen(np.column_stack([[1.0, 0.0, 0.0], away, outward])),
        translation=frozen(-shape.thickness * outward),
    )
    flats = (_leg("leg 1", shape, IDENTITY, -1), _leg("leg 2", shape, frame, 1))
    legs = [Prism(polygon=flat.outline, height=flat.thickness, frame=flat.frame) for flat in flats]
    bend = _bend_pieces(shape)
    return Body(
        flats={flat.name: flat for flat in flats},
        pieces=(legs[0], *bend, legs[1]),
        piece_flats=("leg 1", *(None for _ in bend), "leg 2"),
    )


def _leg(name: str, shape: AngleShape, frame: Pose, outside: int) -> Flat:
    tangent = setback(shape.thickness, shape.bend_radius, shape.angle)
    edge = shape.legs[0 if name == "leg 1" else 1]
    outline = [[0, tangent], [shape.length, tangent], [shape.length, edge], [0, edge]]
    return Flat(name=name, frame=frame, thickness=shape.thickness, outside=outside, outline=frozen(outline))


def _bend_pieces(shape: AngleShape) -> list[Prism]:
    """Return the facets of the bend; their corners lie on the true surfaces."""
    inner, outer = shape.bend_radius, shape.bend_radius + shape.thickness
    turns = np.linspace(0.0, math.radians(shape.angle), facets(outer, shape.angle) + 1)
    middle = np.array([setback(shape.thickness, inner, shape.angle), outer])
    rays = np.column_stack([-np.sin(turns), -np.cos(turns)])
    return [
        Prism(polygon=frozen(_facet(middle, a, b, (inner, outer))), height=shape.length, frame=_ALONG_X)
        for a, b in pairwise(rays)
    ]


def _facet(middle: Array, first: Array, second: Array, radii: tuple[float, float]) -> Array:
    """Return the anticlockwise cross section of one facet; a sharp inside bend gives a triangle."""
    inner, outer = radii
    corners = [middle + outer * second, middle + outer * first]
    inside = [middle + inner * first, middle + inner * second] if inner > 0 else [middle]
    return np.array(corners + inside)


def _bend_mistake(name: str, shape: AngleShape, at: At) -> Finding | None:
    if not 0 < shape.angle < 180:
        return bad_value(
            at,
            f"{name}: a bend of {plain(shape.angle)} degrees is not possible here.",
            "The angle is that of the bend: 90 stands square, 10 is nearly flat, 180 is folded back.",
            "Write an angle between 0 and 180.",
        )
    if shape.bend_radius < 0:
        return bad_value(
            at,
            f"{name}: the bend radius is less than 0.",
            "The bend radius is that of the inside of the bend.",
            "Write 0 for a sharp bend, or leave it out for 1.5 x thickness.",
        )
    tangent = setback(shape.thickness, shape.bend_radius, shape.angle)
    for number, leg in enumerate(shape.legs, start=1):
        if leg - tangent < NARROWEST:
            return bad_value(
                at,
                f"{name}: leg {number} of {plain(leg)} mm ends in the bend, "
                f"which takes {plain(tangent)} mm of it.",
                "Setback = tan(angle / 2) x (bend radius + thickness), FAA AC 43.13-1B page 4-14; "
                "legs are outside dimensions.",
                "Make the leg longer or the bend radius smaller.",
            )
    return None
