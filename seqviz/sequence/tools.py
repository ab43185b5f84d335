"""The builder's tools as rigs: everything that can stand on one end of a stack, in that end's own frame.

In that frame z points out of the stack, the origin lies on the outer face of the complete stack, and x is the
direction of the first turn. A rig is made once and moved from stack to stack.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from seqviz.geometry.access import Cylinder
from seqviz.geometry.pose import Array, Pose, frozen, turn_about
from seqviz.geometry.prism import Prism
from seqviz.geometry.solids import Solids, solids_of
from seqviz.records.steps import BodyPiece, Tool

__all__ = ["Option", "Rig", "by_posture", "rigs"]

_X, _Y, _Z = np.eye(3)


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One posture of one tool with one arm: numbers of the rig's cylinders, boxes and directions."""

    cylinders: tuple[int, ...]
    boxes: tuple[int, ...]
    directions: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rig:
    """Several options that share their solids.

    Attributes
    ----------
    cylinders
        Round pieces of bodies, and arms.
    boxes
        Square pieces of bodies.
    directions
        ``(d, 3)`` unit vectors of tool axes and arms.
    options
        In the order in which they are tried.
    """

    cylinders: tuple[Cylinder, ...]
    boxes: Solids
    directions: Array
    options: tuple[Option, ...]


def rigs(tools: Iterable[Tool]) -> tuple[Rig, Rig]:
    """Return all ``tools`` standing upright at all their turns, and all of them tilted."""
    upright, tilted = _Collector(), _Collector()
    for tool in tools:
        upright.add(tool, np.eye(3), 0.0)
        lift = _nose_radius(tool) * float(np.sin(np.radians(tool.tilt)))
        for toward in _turns(tool) if tool.tilt > 0.0 else ():
            tilted.add(tool, _lean(toward, tool.tilt), lift)
    return upright.rig(), tilted.rig()


def by_posture(rig: Rig) -> list[tuple[Rig, tuple[int, ...]]]:
    """Return the rig in pieces, each with the numbers of the cylinders that all its options share.

    The very first option, which reaches most fasteners, stands alone; then each tool at each tilt with all
    its arms. The order of the options stays.
    """
    groups: list[list[Option]] = []
    for option in rig.options:
        same = len(groups) > 1 and groups[-1][0].cylinders[:-1] == option.cylinders[:-1]
        if same:
            groups[-1].append(option)
        else:
            groups.append([option])
    pieces = [_only(rig, tuple(group)) for group in groups]
    return [(piece, piece.options[0].cylinders[:-1]) for piece in pieces]


def _only(rig: Rig, options: tuple[Option, ...]) -> Rig:
    """Return the rig with some of its options, and the solids that these need."""
    rounds = sorted({k for option in options for k in option.cylinders})
    squares = sorted({k for option in options for k in option.boxes})
    pointing = sorted({k for option in options for k in option.directions})
    return Rig(
        cylinders=tuple(rig.cylinders[k] for k in rounds),
        boxes=rig.boxes.take(squares),
        directions=rig.directions[pointing],
        options=tuple(
            Option(
                cylinders=tuple(rounds.index(k) for k in option.cylinders),
                boxes=tuple(squares.index(k) for k in option.boxes),
                directions=tuple(pointing.index(k) for k in option.directions),
            )
            for option in options
        ),
    )


class _Collector:
    """Gathers the solids and options of a rig; solids that several options share are kept once."""

    def __init__(self) -> None:
        self._cylinders: list[Cylinder] = []
        self._boxes: list[Prism] = []
        self._directions: list[Array] = []
        self._options: list[Option] = []

    def add(self, tool: Tool, lean: Array, lift: float) -> None:
        """Add ``tool`` leaning and raised along its axis by ``lift`` mm: all its turns, all its arms."""
        axis = lean @ _Z
        body = self._round([*_round_pieces(tool, axis, lift)])
        arms = [(self._round([arm]), self._pointing(axis, arm.axis)) for arm in _arms(tool, lean, lift)]
        for turn in _different(tool):
            square = self._square([*_square_pieces(tool, lean @ turn_about(_Z, turn), lift)])
            for arm, directions in arms:
                self._options.append(Option(cylinders=body + arm, boxes=square, directions=directions))

    def rig(self) -> Rig:
        """Return what was gathered."""
        return Rig(
            cylinders=tuple(self._cylinders),
            boxes=solids_of(self._boxes),
            directions=np.array(self._directions).reshape(-1, 3),
            options=tuple(self._options),
        )

    def _round(self, pieces: list[Cylinder]) -> tuple[int, ...]:
        self._cylinders.extend(pieces)
        return tuple(range(len(self._cylinders) - len(pieces), len(self._cylinders)))

    def _square(self, pieces: list[Prism]) -> tuple[int, ...]:
        self._boxes.extend(pieces)
        return tuple(range(len(self._boxes) - len(pieces), len(self._boxes)))

    def _pointing(self, *axes: Array) -> tuple[int, ...]:
        first = len(self._directions)
        same = np.allclose(axes[0], axes[-1])
        self._directions.extend(axes[:1] if same else axes)
        return tuple(range(first, len(self._directions)))


def _turns(tool: Tool) -> list[float]:
    count = max(1, tool.turns)
    return [360.0 * k / count for k in range(count)]


def _different(tool: Tool) -> list[float]:
    """Leave out turns that change nothing: all but one of a round tool, half of those of a square one."""
    turns = _turns(tool)
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


def _round_pieces(tool: Tool, axis: Array, lift: float) -> Iterator[Cylinder]:
    for piece in tool.body:
        if piece.diameter is not None:
            start = axis * (lift + piece.start)
            yield Cylinder(start=start, axis=axis, length=piece.end - piece.start, radius=piece.diameter / 2)


def _square_pieces(tool: Tool, rotation: Array, lift: float) -> Iterator[Prism]:
    for piece in tool.body:
        if piece.box is not None:
            width, depth = piece.box
            corners = np.array([[-width, -depth], [width, -depth], [width, depth], [-width, depth]]) / 2
            origin = rotation @ _Z * (lift + piece.start)
            frame = Pose(rotation=frozen(rotation), translation=frozen(origin))
            yield Prism(polygon=frozen(corners), height=piece.end - piece.start, frame=frame)


def _arms(tool: Tool, lean: Array, lift: float) -> Iterator[Cylinder]:
    """Yield the corridors of hand and arm from the back end of the body."""
    back = lean @ _Z * (lift + max(piece.end for piece in tool.body))
    ways = [lean @ _Z] if tool.reach.along in ("axis", "any") else []
    if tool.reach.along in ("across", "any"):
        ways += [lean @ turn_about(_Z, turn) @ _X for turn in _turns(tool)]
    for way in ways:
        yield Cylinder(start=back, axis=way, length=tool.reach.length, radius=tool.reach.diameter / 2)
