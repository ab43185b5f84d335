"""Table T: what the alternatives of a fastener meet, on the complete stack."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import numpy as np

from seqviz.assembly.structure import Assembly, Stack
from seqviz.geometry.access import Cylinder
from seqviz.geometry.pose import Pose, frozen, unit
from seqviz.records.steps import Tool
from seqviz.sequence.access import Batch, End, Side
from seqviz.sequence.bench import direction_of
from seqviz.sequence.hardware import SetFastener
from seqviz.sequence.pieces import Pieces
from seqviz.sequence.tools import Rig, rigs
from seqviz.trade.fasteners import BLIND_RIVET, BOLT, SOLID_RIVET

__all__ = ["AccessTable", "end_face", "end_frame"]


def end_face(stack: Stack, end: int) -> np.ndarray:
    """Return the point, base frame, where the axis leaves the stack: +1 at layer 1, -1 at the last."""
    level = stack.layers[0].top if end > 0 else stack.layers[-1].bottom
    return stack.point + stack.axis * level


def end_frame(assembly: Assembly, stack: Stack, end: int) -> Pose:
    """Return the frame on an end of a stack: z out of it, x along the x axis of layer 1's part.

    Where that part's x axis is the stack's own, its y axis serves; so turns follow the part, not the pose.
    """
    out = stack.axis * end
    own = assembly.placed[stack.layers[0].part].pose.rotation
    along = own[:, 0] if abs(own[:, 0] @ out) < 0.9 else own[:, 1]
    first = unit(along - out * (along @ out))
    rotation = np.column_stack([first, np.cross(out, first), out])
    return Pose(rotation=frozen(rotation), translation=frozen(end_face(stack, end)))


class AccessTable:
    """The alternatives of each fastener, computed as they are asked for and kept."""

    def __init__(self, assembly: Assembly, pieces: Pieces, tools: Sequence[Tool]) -> None:
        self._assembly = assembly
        self._pieces = pieces
        self._tools = tools
        self._ends: dict[tuple[int, int, str], End] = {}
        self._rigs_of_kind: dict[str, tuple[Rig, Rig]] = {}
        self._rooms: dict[tuple[int, int, tuple[float, float]], End] = {}

    def sides(self, stack: Stack, fastener: SetFastener) -> tuple[Side, ...]:
        """Return the two head sides with the alternatives at the ends that must be free.

        Empty where access is not checked: for bolts, and where the builder has no tool of that kind.
        """
        if fastener.kind == BOLT or not any(tool.kind == fastener.kind for tool in self._tools):
            return ()
        return tuple(Side(head=head, ends=self._both(stack, fastener, head)) for head in (1, -1))

    def _both(self, stack: Stack, fastener: SetFastener, head: int) -> tuple[End, ...]:
        at_head = self._end(stack, head, fastener.kind)
        if fastener.kind == SOLID_RIVET:
            return at_head, self._end(stack, -head, fastener.kind)
        if fastener.kind == BLIND_RIVET:
            return at_head, self._room(stack, -head, fastener.tail)
        return (at_head,)

    def _end(self, stack: Stack, end: int, kind: str) -> End:
        key = (stack.index, end, kind)
        if key not in self._ends:
            frame = end_frame(self._assembly, stack, end)
            self._ends[key] = End([self._placed_rig(rig, frame) for rig in self._rigs(kind)])
        return self._ends[key]

    def _rigs(self, kind: str) -> tuple[Rig, Rig]:
        """Return the tools of that kind, upright ones first: most fasteners are reached by those."""
        if kind not in self._rigs_of_kind:
            self._rigs_of_kind[kind] = rigs(tool for tool in self._tools if tool.kind == kind)
        return self._rigs_of_kind[kind]

    def _placed_rig(self, rig: Rig, frame: Pose) -> Batch:
        pointing = [direction_of(vector) for vector in frame.vectors(rig.directions)]
        directions = [tuple(pointing[k] for k in option.directions) for option in rig.options]
        return Batch(directions=directions, ask=partial(self._met_by_rig, rig, frame))

    def _met_by_rig(self, rig: Rig, frame: Pose) -> list[frozenset[str]]:
        cylinders = [
            Cylinder(
                start=frame.points(one.start),
                axis=frame.vectors(one.axis),
                length=one.length,
                radius=one.radius,
            )
            for one in rig.cylinders
        ]
        by_round = self._pieces.met_by_cylinders(cylinders)
        by_square = self._pieces.met_by_solids(rig.boxes.moved(frame)) if len(rig.boxes) else []
        none = frozenset[str]()
        return [
            none.union(*(by_round[k] for k in option.cylinders), *(by_square[k] for k in option.boxes))
            for option in rig.options
        ]

    def _room(self, stack: Stack, end: int, size: tuple[float, float]) -> End:
        """Return the one alternative of a blind rivet's tail: a round space behind the stack."""
        key = (stack.index, end, size)
        if key not in self._rooms:
            diameter, length = size
            room = Cylinder(
                start=end_face(stack, end), axis=stack.axis * end, length=length, radius=diameter / 2
            )
            ask = partial(self._pieces.met_by_cylinders, [room])
            self._rooms[key] = End([Batch(directions=[()], ask=ask)])
        return self._rooms[key]
