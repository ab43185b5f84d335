"""Table T: what the alternatives of a fastener meet, on the complete stack."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import overload

import numpy as np

from seqviz.assembly.structure import Assembly, Stack
from seqviz.geometry.access import Cylinder, Cylinders
from seqviz.geometry.pose import Pose, cross, frozen, unit
from seqviz.geometry.solids import joined
from seqviz.records.steps import Tool
from seqviz.sequence.access import Batch, End, Side
from seqviz.sequence.bench import Direction, direction_of
from seqviz.sequence.hardware import SetFastener
from seqviz.sequence.pieces import Pieces
from seqviz.sequence.tools import Rig, by_posture, rigs
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
    rotation = np.column_stack([first, cross(out, first), out])
    return Pose(rotation=frozen(rotation), translation=frozen(end_face(stack, end)))


EndKey = tuple[int, int, str]
"""A stack, one of its ends, and the kind of fastener that a tool sets there."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Posture:
    """Part of a rig with its cylinders as arrays; ``body``: those that all its options share."""

    rig: Rig
    cylinders: Cylinders
    body: Cylinders


class _Made(Sequence[Batch]):
    """Batches that are made when somebody comes to them: mostly the first is enough."""

    def __init__(self, count: int, make: Callable[[int], Batch]) -> None:
        self._made: list[Batch | None] = [None] * count
        self._make = make

    def __len__(self) -> int:
        return len(self._made)

    @overload
    def __getitem__(self, number: int) -> Batch: ...

    @overload
    def __getitem__(self, number: slice) -> list[Batch]: ...

    def __getitem__(self, number: int | slice) -> Batch | list[Batch]:
        if isinstance(number, slice):
            return [self[k] for k in range(len(self))[number]]
        batch = self._made[number]
        if batch is None:
            batch = self._made[number] = self._make(number)
        return batch


class AccessTable:
    """The alternatives of each fastener, computed as they are asked for and kept."""

    def __init__(self, assembly: Assembly, pieces: Pieces, tools: Sequence[Tool]) -> None:
        self._assembly = assembly
        self._pieces = pieces
        self._tools = tools
        self._rows = _rows(assembly)
        self._ends: dict[EndKey, End] = {}
        self._frames: dict[tuple[int, int], Pose] = {}
        self._postures_of_kind: dict[str, list[_Posture]] = {}
        self._directions: dict[tuple[int, bytes], list[tuple[Direction, ...]]] = {}
        self._met: dict[tuple[EndKey, int], list[frozenset[str]]] = {}
        self._bodies: dict[EndKey, list[frozenset[str]]] = {}
        self._rooms: dict[tuple[int, int, tuple[float, float]], End] = {}
        self._in_rooms: dict[tuple[int, int, tuple[float, float]], frozenset[str]] = {}

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
            self._ends[key] = End(_Made(len(self._postures(kind)), partial(self._batch, key)))
        return self._ends[key]

    def _frame(self, stack: int, end: int) -> Pose:
        if (stack, end) not in self._frames:
            self._frames[stack, end] = end_frame(self._assembly, self._assembly.stacks[stack], end)
        return self._frames[stack, end]

    def _postures(self, kind: str) -> list[_Posture]:
        """Return the tools of that kind, upright ones first: most fasteners are reached by the very first."""
        if kind not in self._postures_of_kind:
            found = [
                _Posture(
                    rig=rig,
                    cylinders=Cylinders.of(rig.cylinders),
                    body=Cylinders.of([rig.cylinders[k] for k in shared]),
                )
                for whole in rigs(tool for tool in self._tools if tool.kind == kind)
                for rig, shared in by_posture(whole)
            ]
            self._postures_of_kind[kind] = found
        return self._postures_of_kind[kind]

    def _pointing(self, rig: Rig, frame: Pose) -> list[tuple[Direction, ...]]:
        """Return where the ends of each option point; holes of one row have frames that are turned alike."""
        key = (id(rig), frame.rotation.tobytes())
        if key not in self._directions:
            pointing = [direction_of(vector) for vector in frame.vectors(rig.directions)]
            self._directions[key] = [tuple(pointing[k] for k in one.directions) for one in rig.options]
        return self._directions[key]

    def _batch(self, key: EndKey, number: int) -> Batch:
        stack, end, kind = key
        directions = self._pointing(self._postures(kind)[number].rig, self._frame(stack, end))
        ask = partial(self._met_in_posture, key, number)
        # The first posture is asked for at once; the bodies of the others tell soon which can be free at all.
        common = partial(self._met_by_body, key, number) if number else frozenset
        return Batch(directions=directions, ask=ask, ask_common=common)

    def _met_in_posture(self, key: EndKey, number: int) -> list[frozenset[str]]:
        """Return what each option of a posture meets; a whole row at once, which is asked for next."""
        stack, end, kind = key
        if (key, number) not in self._met:
            row = self._rows[stack]
            met = self._met_by(self._postures(kind)[number], [self._frame(k, end) for k in row])
            self._met.update({((k, end, kind), number): one for k, one in zip(row, met, strict=True)})
        return self._met[key, number]

    def _met_by_body(self, key: EndKey, number: int) -> frozenset[str]:
        """Return what the tool's body meets in a posture; asked for all postures and a whole row at once."""
        if key not in self._bodies:
            stack, end, kind = key
            row, postures = self._rows[stack], self._postures(kind)
            bodies = Cylinders.joined([posture.body for posture in postures])
            owners = np.repeat(np.arange(len(postures)), [len(posture.body) for posture in postures]).tolist()
            met = self._pieces.met_by_cylinders(bodies.moved([self._frame(k, end) for k in row]))
            for at, k in enumerate(row):
                parts: list[set[str]] = [set() for _ in postures]
                for owner, one in zip(owners, met[at * len(bodies) : (at + 1) * len(bodies)], strict=True):
                    parts[owner] |= one
                self._bodies[k, end, kind] = [frozenset(some) for some in parts]
        return self._bodies[key][number]

    def _met_by(self, posture: _Posture, frames: Sequence[Pose]) -> list[list[frozenset[str]]]:
        """Return for each frame what each option meets there."""
        rig = posture.rig
        by_round = self._pieces.met_by_cylinders(posture.cylinders.moved(frames))
        boxes = joined([rig.boxes.moved(frame) for frame in frames]) if len(rig.boxes) else rig.boxes
        by_square = self._pieces.met_by_solids(boxes) if len(boxes) else []
        none = frozenset[str]()
        return [
            [
                none.union(
                    *(by_round[at * len(rig.cylinders) + k] for k in option.cylinders),
                    *(by_square[at * len(rig.boxes) + k] for k in option.boxes),
                )
                for option in rig.options
            ]
            for at in range(len(frames))
        ]

    def _room(self, stack: Stack, end: int, size: tuple[float, float]) -> End:
        """Return the one alternative of a blind rivet's tail: a round space behind the stack."""
        key = (stack.index, end, size)
        if key not in self._rooms:
            self._rooms[key] = End([Batch(directions=[()], ask=partial(self._met_in_room, key))])
        return self._rooms[key]

    def _met_in_room(self, key: tuple[int, int, tuple[float, float]]) -> list[frozenset[str]]:
        """Return what stands in the room; asked for a whole row at once."""
        if key not in self._in_rooms:
            index, end, size = key
            row = self._rows[index]
            rooms = [_round_room(self._assembly.stacks[k], end, size) for k in row]
            met = self._pieces.met_by_cylinders(Cylinders.of(rooms))
            self._in_rooms.update({(k, end, size): one for k, one in zip(row, met, strict=True)})
        return [self._in_rooms[key]]


def _round_room(stack: Stack, end: int, size: tuple[float, float]) -> Cylinder:
    diameter, length = size
    return Cylinder(start=end_face(stack, end), axis=stack.axis * end, length=length, radius=diameter / 2)


def _rows(assembly: Assembly) -> dict[int, list[int]]:
    """Return for each stack those whose farthest hole is of the same row."""
    rows: dict[str, list[int]] = {}
    for stack in assembly.stacks:
        rows.setdefault(stack.holes[0].rpartition(".")[0], []).append(stack.index)
    return {index: row for row in rows.values() for index in row}
