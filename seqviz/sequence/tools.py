"""The builder's tools as rigs: everything that can stand on one end of a stack, in that end's own frame.

In that frame z points out of the stack, the origin lies on the outer face of the complete stack, and x is the
direction of the first turn. A rig is made once and moved from stack to stack.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from seqviz.geometry.access import Cylinder
from seqviz.geometry.pose import Array, turn_about
from seqviz.geometry.prism import Prism
from seqviz.geometry.solids import Solids, solids_of
from seqviz.records.steps import Tool
from seqviz.sequence.tool_solids import (
    arms,
    middle_pieces,
    nose_radius,
    offset_pieces,
    square_pieces,
    stands_beside,
    turns,
    turns_that_differ,
)

__all__ = ["Option", "Rig", "by_posture", "rigs"]

_, _Y, _Z = np.eye(3)


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One tool at one turn and tilt with one arm: numbers of the rig's cylinders, boxes and directions.

    ``posture``: a number that all turns and arms of one tool at one tilt have in common; ``body``: the
    cylinders that these share.
    """

    tool: str
    posture: int
    body: tuple[int, ...]
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
    boxes, prisms
        Square pieces of bodies, as arrays and as they are.
    directions
        ``(d, 3)`` unit vectors of tool axes and arms.
    options
        In the order in which they are tried.
    """

    cylinders: tuple[Cylinder, ...]
    boxes: Solids
    prisms: tuple[Prism, ...]
    directions: Array
    options: tuple[Option, ...]


def rigs(tools: Iterable[Tool], *, turning: bool = False) -> tuple[Rig, Rig]:
    """Return all ``tools`` standing upright at all their turns, and all of them tilted.

    Where they are ``turning`` the fastener, each with all that its swing sweeps from there.
    """
    upright, tilted = _Collector(turning), _Collector(turning)
    for tool in tools:
        upright.add(tool, np.eye(3), 0.0)
        lift = nose_radius(tool) * float(np.sin(np.radians(tool.tilt)))
        for toward in turns(tool) if tool.tilt > 0.0 else ():
            tilted.add(tool, _lean(toward, tool.tilt), lift)
    return upright.rig(), tilted.rig()


def by_posture(rig: Rig) -> list[tuple[Rig, tuple[int, ...]]]:
    """Return the rig in pieces, each with the numbers of the cylinders that all its options share.

    The very first option, which reaches most fasteners, stands alone; then each tool at each tilt with all
    its arms. The order of the options stays.
    """
    groups: list[list[Option]] = []
    for option in rig.options:
        same = len(groups) > 1 and groups[-1][0].posture == option.posture
        if same:
            groups[-1].append(option)
        else:
            groups.append([option])
    pieces = [_only(rig, tuple(group)) for group in groups]
    return [(piece, piece.options[0].body) for piece in pieces]


def _only(rig: Rig, options: tuple[Option, ...]) -> Rig:
    """Return the rig with some of its options, and the solids that these need."""
    rounds = sorted({k for option in options for k in option.cylinders})
    squares = sorted({k for option in options for k in option.boxes})
    pointing = sorted({k for option in options for k in option.directions})
    return Rig(
        cylinders=tuple(rig.cylinders[k] for k in rounds),
        boxes=rig.boxes.take(squares),
        prisms=tuple(rig.prisms[k] for k in squares),
        directions=rig.directions[pointing],
        options=tuple(
            Option(
                tool=option.tool,
                posture=option.posture,
                body=tuple(rounds.index(k) for k in option.body),
                cylinders=tuple(rounds.index(k) for k in option.cylinders),
                boxes=tuple(squares.index(k) for k in option.boxes),
                directions=tuple(pointing.index(k) for k in option.directions),
            )
            for option in options
        ),
    )


class _Collector:
    """Gathers the solids and options of a rig; solids that several options share are kept once."""

    def __init__(self, turning: bool) -> None:
        self._turning = turning
        self._cylinders: list[Cylinder] = []
        self._boxes: list[Prism] = []
        self._directions: list[Array] = []
        self._options: list[Option] = []
        self._postures = 0

    def add(self, tool: Tool, lean: Array, lift: float) -> None:
        """Add ``tool`` leaning and raised along its axis by ``lift`` mm: all its turns, all its arms."""
        self._postures += 1
        swing = tool.swing if self._turning else 0.0
        body = self._round([*middle_pieces(tool, lean @ _Z, lift)])
        same_arms = None if stands_beside(tool) else self._arms(tool, lean, 0.0, lift)
        for turn in turns_that_differ(tool):
            rotation = lean @ turn_about(_Z, turn)
            beside = self._round([*offset_pieces(tool, rotation, lift, swing)])
            square = self._square([*square_pieces(tool, rotation, lift, swing)])
            # The hand goes along with the handle: its corridor is asked for in the middle of the swing.
            for arm, directions in same_arms or self._arms(tool, lean, turn + swing / 2, lift):
                self._options.append(
                    Option(
                        tool=tool.name,
                        posture=self._postures,
                        body=body,
                        cylinders=(*body, *beside, *arm),
                        boxes=square,
                        directions=directions,
                    )
                )

    def _arms(
        self, tool: Tool, lean: Array, turn: float, lift: float
    ) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
        axis = lean @ _Z
        found = arms(tool, lean, turn, lift)
        return [(self._round([arm]), self._pointing(axis, arm.axis)) for arm in found]

    def rig(self) -> Rig:
        """Return what was gathered."""
        return Rig(
            cylinders=tuple(self._cylinders),
            boxes=solids_of(self._boxes),
            prisms=tuple(self._boxes),
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


def _lean(toward: float, degrees: float) -> Array:
    """Return the rotation that tilts z by ``degrees`` toward the direction at ``toward`` degrees from x."""
    return turn_about(turn_about(_Z, toward) @ _Y, degrees)
