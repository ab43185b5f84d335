"""Round tubes: drilled as a sheet as long as the way round the outside, then rolled up."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.polygons import facets
from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.geometry.prism import Prism
from seqviz.parts.body import NARROWEST, Body, too_narrow
from seqviz.parts.mistakes import bad_value, plain
from seqviz.parts.part import Flat, Hole, Part
from seqviz.records.model import TubeShape

__all__ = ["rolled_up", "tube_body"]

_ALONG_X = Pose(rotation=frozen([[0, 0, 1], [1, 0, 0], [0, 1, 0]]), translation=frozen(np.zeros(3)))
_TOUCH = 0.05
"""mm: what the line where a tube touches a flat may stray from the tube and still count as touching."""


def tube_body(name: str, shape: TubeShape, at: At) -> Body | Finding:
    """Return the body of a tube, or the first mistake in its description.

    Its middle line is the x axis from 0 to its length. Its one flat ``wall`` has x along the part, and y the
    way round the outside from the zero line at the top (z = diameter / 2), positive towards +y; -y goes the
    other way, and once round is pi x diameter. The outside is the outer face. Here ``wall`` is still flat,
    for its rows; `rolled_up` takes them round.
    """
    radius = shape.diameter / 2
    mistake = too_narrow(at, name, {"wall": shape.wall, "length": shape.length})
    mistake = mistake or _no_bore(name, shape, at)
    if mistake:
        return mistake
    turns = np.linspace(0.0, 2 * math.pi, 2 * facets(radius, 180.0) + 1)
    rays = np.column_stack([np.sin(turns), np.cos(turns)])
    rays[-1] = rays[0]
    bore = radius - shape.wall
    pieces = tuple(
        Prism(
            polygon=frozen([radius * b, radius * a, bore * a, bore * b]), height=shape.length, frame=_ALONG_X
        )
        for a, b in pairwise(rays)
    )
    wall = replace(_strip("wall", shape, 0.0), outline=_sheet(shape))
    return Body(flats={"wall": wall}, pieces=pieces, piece_flats=("wall",) * len(pieces))


def rolled_up(part: Part, shape: TubeShape) -> Part:
    """Return a tube whose holes were drilled in the sheet, with its holes where they belong.

    For each line with holes it has a flat, ``wall`` or ``wall at Y``: the strip along the line that a flat
    part can touch.
    """
    flats = {"wall": _strip("wall", shape, 0.0)}
    holes: list[Hole] = []
    for hole in part.holes:
        x, y = float(hole.centre[0]), float(hole.centre[1])
        name = "wall" if abs(y) < 1e-6 else f"wall at {plain(y)}"
        flat = flats.setdefault(name, _strip(name, shape, y))
        centre = flat.frame.points(np.array([x, 0.0, shape.wall / 2]))
        axis = frozen(flat.face_normal("outside"))
        holes.append(replace(hole, flat=name, centre=frozen(centre), axis=axis))
    return replace(part, flats=flats, holes=tuple(holes))


def _strip(name: str, shape: TubeShape, y: float) -> Flat:
    """Return the strip along the line at ``y`` that strays from the tube by less than a touch."""
    turn = y / (shape.diameter / 2)
    across, out = (
        np.array([0.0, math.cos(turn), -math.sin(turn)]),
        np.array([0.0, math.sin(turn), math.cos(turn)]),
    )
    frame = Pose(
        rotation=frozen(np.column_stack([[1.0, 0.0, 0.0], across, out])),
        translation=frozen(out * (shape.diameter / 2 - shape.wall)),
    )
    half = math.sqrt(_TOUCH * shape.diameter)
    outline = frozen([[0, -half], [shape.length, -half], [shape.length, half], [0, half]])
    return Flat(name=name, frame=frame, thickness=shape.wall, outside=1, outline=outline)


def _sheet(shape: TubeShape) -> Array:
    """Return the outline in which holes may be written: once round, either way."""
    round_it = math.pi * shape.diameter
    return frozen([[0, -round_it], [shape.length, -round_it], [shape.length, round_it], [0, round_it]])


def _no_bore(name: str, shape: TubeShape, at: At) -> Finding | None:
    if shape.diameter - 2 * shape.wall >= NARROWEST:
        return None
    return bad_value(
        at,
        f"{name}: a wall of {plain(shape.wall)} mm fills a tube of {plain(shape.diameter)} mm.",
        "The diameter is that of the outside; twice the wall goes off it.",
        "Correct diameter or wall.",
    )
