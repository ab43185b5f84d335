"""The solids of one tool in one posture, seen from the end of a stack: pieces of its body, arms, swings."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from seqviz.geometry.access import Cylinder
from seqviz.geometry.polygons import convex_hull, facets
from seqviz.geometry.pose import Array, Pose, frozen, turn_about
from seqviz.geometry.prism import Prism
from seqviz.records.steps import BodyPiece, Tool

__all__ = [
    "arms",
    "middle_pieces",
    "nose_radius",
    "offset_pieces",
    "square_pieces",
    "stands_beside",
    "turns",
    "turns_that_differ",
]

_X, _Y, _Z = np.eye(3)

_SLIP = 0.02
"""mm by which what a swing sweeps may be too small: less than the tolerance of touching."""


def turns(tool: Tool) -> list[float]:
    """Return the angles, degrees from x, at which the tool can stand."""
    count = max(1, tool.turns)
    return [360.0 * k / count for k in range(count)]


def turns_that_differ(tool: Tool) -> list[float]:
    """Leave out turns that change nothing: all but one of a round tool, half of those of a square one."""
    every = turns(tool)
    if any(piece.offset for piece in tool.body):
        return every
    if all(piece.box is None for piece in tool.body):
        return every[:1]
    return [turn for turn in every if turn < 180.0 or (turn - 180.0) not in every]


def nose_radius(tool: Tool) -> float:
    """Return how far from the axis the rim is on which the tool stands, mm."""
    first = min(piece.start for piece in tool.body)
    return max(_radius(piece) + piece.offset for piece in tool.body if piece.start <= first + 1e-9)


def _radius(piece: BodyPiece) -> float:
    if piece.diameter is not None:
        return piece.diameter / 2
    return float(np.hypot(*piece.box)) / 2 if piece.box else 0.0


def middle_pieces(tool: Tool, axis: Array, lift: float) -> Iterator[Cylinder]:
    """Yield the round pieces on the axis: the same at every turn."""
    for piece in tool.body:
        if piece.diameter is not None and not piece.offset:
            start = axis * (lift + piece.start)
            yield Cylinder(start=start, axis=axis, length=piece.end - piece.start, radius=piece.diameter / 2)


def offset_pieces(tool: Tool, rotation: Array, lift: float, swing: float) -> Iterator[Cylinder]:
    """Yield the round pieces beside the axis; of one that swings so many that nothing slips between them."""
    for piece in tool.body:
        if piece.diameter is None or not piece.offset:
            continue
        radius = piece.diameter / 2
        # Two circles a chord apart leave out a notch of chord^2 / (8 radius) between them.
        chord = float(np.sqrt(8.0 * radius * _SLIP))
        count = int(np.ceil(np.radians(swing) * piece.offset / chord)) + 1
        for angle in np.linspace(0.0, swing, count):
            turned = rotation @ turn_about(_Z, float(angle))
            start = turned @ (_X * piece.offset + _Z * (lift + piece.start))
            yield Cylinder(start=start, axis=turned @ _Z, length=piece.end - piece.start, radius=radius)


def square_pieces(tool: Tool, rotation: Array, lift: float, swing: float) -> Iterator[Prism]:
    """Yield the square pieces, or what they sweep in a swing of so many degrees from there."""
    for piece in tool.body:
        if piece.box is not None:
            origin = rotation @ _Z * (lift + piece.start)
            frame = Pose(rotation=frozen(rotation), translation=frozen(origin))
            for polygon in _swept(piece.offset, piece.box, swing):
                yield Prism(polygon=frozen(polygon), height=piece.end - piece.start, frame=frame)


def _swept(offset: float, box: tuple[float, float], swing: float) -> Iterator[Array]:
    """Yield convex polygons, ``(n, 2)``, that together are what a box sweeps about the axis.

    Each is the hull of the box at two angles; only arcs are cut short, by less than the slip. A box that
    reaches past the axis on both sides is cut there: the hull of the whole would fill the corners between.
    """
    near, far = offset - box[0] / 2, offset + box[0] / 2
    cuts = [near, 0.0, far] if swing and near < 0.0 < far else [near, far]
    for low, high in pairwise(cuts):
        corners = np.array([[low, -1.0], [high, -1.0], [high, 1.0], [low, 1.0]]) * [1.0, box[1] / 2]
        count = facets(float(np.hypot(corners[:, 0], corners[:, 1]).max()), swing, _SLIP)
        boxes = [corners @ _flat_turn(float(angle)).T for angle in np.linspace(0.0, swing, count + 1)]
        if not swing:
            yield corners
            continue
        for one, other in pairwise(boxes):
            yield convex_hull(np.concatenate([one, other]))


def _flat_turn(degrees: float) -> Array:
    return np.asarray(turn_about(_Z, degrees)[:2, :2])


def stands_beside(tool: Tool) -> bool:
    """Say whether hand and arm begin beside the axis."""
    return _back(tool).offset > 0.0


def _back(tool: Tool) -> BodyPiece:
    """Return the piece at whose end hand and arm begin: of those farthest from the axis the last."""
    return max(tool.body, key=lambda piece: (piece.offset, piece.end))


def arms(tool: Tool, lean: Array, turn: float, lift: float) -> Iterator[Cylinder]:
    """Yield the corridors of hand and arm from the back end of the body.

    One across lies no lower than the tool stands: on the work. Where the back end is beside the axis the hand
    holds its outer end, and one across comes from that side.
    """
    piece, reach = _back(tool), tool.reach
    rotation = lean @ turn_about(_Z, turn)
    radius = reach.diameter / 2
    # A handle is held at its outer end.
    half = (piece.box[0] if piece.box else piece.diameter or 0.0) / 2
    held = piece.offset + max(0.0, half - radius) if piece.offset else 0.0
    back = rotation @ (_X * held + _Z * (lift + piece.end))
    if reach.along in ("axis", "any"):
        yield Cylinder(start=back, axis=lean @ _Z, length=reach.length, radius=radius)
    if reach.along in ("across", "any"):
        foot = min(one.start for one in tool.body)
        raised = back + lean @ _Z * max(0.0, foot + radius - piece.end)
        sides = [turn] if piece.offset else turns(tool)
        for side in sides:
            way = lean @ turn_about(_Z, side) @ _X
            yield Cylinder(start=raised, axis=way, length=reach.length, radius=radius)
