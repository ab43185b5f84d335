"""A tool standing on one end of a stack: its postures, and the solids of body, hand and arm in each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from seqviz.geometry.access import Cylinder
from seqviz.geometry.pose import Array, Pose, frozen, turn_about
from seqviz.geometry.prism import Prism
from seqviz.records.steps import BodyPiece, Tool

__all__ = ["Posture", "StandingTool", "standing"]

_X, _Y, _Z = np.eye(3)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Posture:
    """How a tool stands in the frame of the stack's end (z out of the stack, x along its first turn).

    Attributes
    ----------
    lean
        ``(3, 3)`` rotation that tilts it; the identity where it stands upright.
    turn
        Degrees about its own axis.
    lift
        mm along its axis by which a tilted tool is raised so that it stands on the stack.
    """

    lean: Array
    turn: float
    lift: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StandingTool:
    """The solids of a tool in one posture, base frame: round and square pieces, and arms to choose from."""

    axis: Array
    cylinders: tuple[Cylinder, ...]
    boxes: tuple[Prism, ...]
    arms: tuple[Cylinder, ...]


def postures(tool: Tool) -> tuple[list[Posture], list[Posture]]:
    """Return the upright postures of a tool and the tilted ones."""
    step = 360.0 / max(1, tool.turns)
    turns = [step * k for k in range(max(1, tool.turns))]
    upright = [Posture(lean=np.eye(3), turn=turn, lift=0.0) for turn in _different(turns, tool)]
    if tool.tilt <= 0.0:
        return upright, []
    lift = _nose_radius(tool) * float(np.sin(np.radians(tool.tilt)))
    leans = [_lean(toward, tool.tilt) for toward in turns]
    tilted = [Posture(lean=lean, turn=turn, lift=lift) for lean in leans for turn in _different(turns, tool)]
    return upright, tilted


def standing(tool: Tool, end: Pose, posture: Posture) -> StandingTool:
    """Return ``tool`` standing in ``posture`` on an end of a stack whose frame, base frame, is ``end``."""
    lean = end.rotation @ posture.lean
    axis = lean @ _Z
    nose = end.translation + axis * posture.lift
    turned = Pose(rotation=frozen(lean @ turn_about(_Z, posture.turn)), translation=frozen(nose))
    back = nose + axis * max(piece.end for piece in tool.body)
    return StandingTool(
        axis=axis,
        cylinders=tuple(
            Cylinder(
                start=nose + axis * piece.start,
                axis=axis,
                length=piece.end - piece.start,
                radius=piece.diameter / 2,
            )
            for piece in tool.body
            if piece.diameter is not None
        ),
        boxes=tuple(_box(piece, turned) for piece in tool.body if piece.box is not None),
        arms=tuple(
            Cylinder(start=back, axis=way, length=tool.reach.length, radius=tool.reach.diameter / 2)
            for way in _arm_directions(tool, lean)
        ),
    )


def _different(turns: list[float], tool: Tool) -> list[float]:
    """Leave out turns that change nothing: all but one of a round tool, half of those of a square one."""
    if all(piece.box is None for piece in tool.body):
        return turns[:1]
    return [turn for turn in turns if turn < 180.0 or (turn - 180.0) not in turns]


def _lean(toward: float, degrees: float) -> Array:
    """Return the rotation that tilts z by ``degrees`` toward the direction at ``toward`` degrees from x."""
    return turn_about(turn_about(_Z, toward) @ _Y, degrees)


def _nose_radius(tool: Tool) -> float:
    first = min(piece.start for piece in tool.body)
    return max(_radius(piece) for piece in tool.body if piece.start <= first + 1e-9)


def _radius(piece: BodyPiece) -> float:
    if piece.diameter is not None:
        return piece.diameter / 2
    return float(np.hypot(*piece.box)) / 2 if piece.box else 0.0


def _box(piece: BodyPiece, frame: Pose) -> Prism:
    width, depth = piece.box or (0.0, 0.0)
    corners = np.array([[-width, -depth], [width, -depth], [width, depth], [-width, depth]]) / 2
    raised = frame.translation + frame.rotation @ _Z * piece.start
    return Prism(
        polygon=frozen(corners),
        height=piece.end - piece.start,
        frame=Pose(rotation=frame.rotation, translation=frozen(raised)),
    )


def _arm_directions(tool: Tool, lean: Array) -> Iterator[Array]:
    if tool.reach.along in ("axis", "any"):
        yield lean @ _Z
    if tool.reach.along in ("across", "any"):
        for k in range(max(1, tool.turns)):
            yield lean @ turn_about(_Z, 360.0 * k / max(1, tool.turns)) @ _X
