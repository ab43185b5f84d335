"""Table T: what the alternatives of a fastener meet, on the complete stack."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import overload

import numpy as np

from seqviz.assembly.structure import Assembly, Stack
from seqviz.geometry.access import Cylinder, Cylinders
from seqviz.geometry.pose import Pose, cross, frozen, unit
from seqviz.geometry.prism import Piece
from seqviz.geometry.rounds import prism_around
from seqviz.geometry.solids import joined
from seqviz.records.steps import Tool
from seqviz.sequence.access import Batch, End, Side
from seqviz.sequence.bench import Direction, direction_of
from seqviz.sequence.hardware import SetFastener
from seqviz.sequence.pieces import Pieces
from seqviz.sequence.tools import Rig, by_posture, rigs
from seqviz.trade.fasteners import BLIND_RIVET, BOLT

__all__ = ["AccessTable", "end_face", "end_frame"]

_LOT = 100
"""Stacks that are asked about together: one question costs nearly as much as fifty."""


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


Role = tuple[tuple[int, ...], bool]
"""The numbers of the tools that may stand on an end, and whether they turn the fastener there."""

EndKey = tuple[int, int, Role]
"""A stack, one of its ends, and what may stand there."""

RoomKey = tuple[int, int, tuple[float, float], bool]
"""A stack, one of its ends, (diameter, length) of a round space, and whether a hand comes from there."""


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
        self._lots, self._rows = _lots(assembly), _rows(assembly)
        self._roles: dict[tuple[str, str, bool], Role] = {}
        self._ends: dict[EndKey, End] = {}
        self._frames: dict[tuple[int, int], Pose] = {}
        self._postures_of_role: dict[Role, list[_Posture]] = {}
        self._directions: dict[tuple[int, bytes], list[tuple[Direction, ...]]] = {}
        self._met: dict[tuple[EndKey, int], list[frozenset[str]]] = {}
        self._bodies: dict[EndKey, list[frozenset[str]]] = {}
        self._rooms: dict[RoomKey, End] = {}
        self._in_rooms: dict[RoomKey, frozenset[str]] = {}

    def sides(self, stack: Stack, fastener: SetFastener) -> tuple[Side, ...]:
        """Return the two head sides with the alternatives at the ends that must be free.

        A bolt has four: either end may be the one that turns. Empty where access is not checked: where the
        builder has no tool of that kind. An end at which none of them works is not checked either.
        """
        if not any(tool.kind == fastener.kind for tool in self._tools):
            return ()
        if fastener.kind == BOLT:
            ends = [(head, turning) for head in (1, -1) for turning in (-head, head)]
            return tuple(self._bolted(stack, fastener, head, turning) for head, turning in ends)
        return tuple(Side(head=head, ends=self._riveted(stack, fastener, head)) for head in (1, -1))

    def _riveted(self, stack: Stack, fastener: SetFastener, head: int) -> tuple[End, ...]:
        room = self._room(stack, -head, fastener.room or fastener.tail)
        if fastener.kind == BLIND_RIVET:
            return (*self._tool_end(stack, head, fastener.kind), room)
        both = ((head, "head"), (-head, "tail"))
        return (*(one for end, name in both for one in self._tool_end(stack, end, fastener.kind, name)), room)

    def _bolted(self, stack: Stack, fastener: SetFastener, head: int, turning: int) -> Side:
        """Return a bolt with its head on that side, turned at the end ``turning`` and held at the other."""
        way_in = self._room(stack, head, (fastener.head[0], fastener.way_in), by_hand=True)
        room = self._room(stack, -head, fastener.room or fastener.tail, by_hand=True)
        tools = [
            one
            for end, name in ((head, "head"), (-head, "tail"))
            for one in self._tool_end(stack, end, BOLT, name, turning=end == turning)
        ]
        return Side(head=head, ends=(way_in, room, *tools), by_hand=(way_in, room))

    def _tool_end(
        self, stack: Stack, end: int, kind: str, name: str = "either", *, turning: bool = False
    ) -> tuple[End, ...]:
        """Return the tools at one end, or nothing where no tool works there. ``name``: head or tail."""
        role = self._role(kind, name, turning)
        key = (stack.index, end, role)
        if key not in self._ends and role[0]:
            self._ends[key] = End(_Made(len(self._postures(role)), partial(self._batch, key)))
        return (self._ends[key],) if role[0] else ()

    def _role(self, kind: str, name: str, turning: bool) -> Role:
        asked = (kind, name, turning)
        if asked not in self._roles:
            tools = self._tools
            works = {"either", name} if name != "either" else {"head", "tail", "either"}
            mine = tuple(k for k, tool in enumerate(tools) if tool.kind == kind and tool.end in works)
            self._roles[asked] = (mine, turning and any(tools[k].swing for k in mine))
        return self._roles[asked]

    def _frame(self, stack: int, end: int) -> Pose:
        if (stack, end) not in self._frames:
            self._frames[stack, end] = end_frame(self._assembly, self._assembly.stacks[stack], end)
        return self._frames[stack, end]

    def _postures(self, role: Role) -> list[_Posture]:
        """Return those tools in the order of the list, each upright first: that reaches most fasteners."""
        if role not in self._postures_of_role:
            numbers, turning = role
            found = [
                _Posture(
                    rig=rig,
                    cylinders=Cylinders.of(rig.cylinders),
                    body=Cylinders.of([rig.cylinders[k] for k in shared]),
                )
                for number in numbers
                for whole in rigs([self._tools[number]], turning=turning)
                for rig, shared in by_posture(whole)
            ]
            self._postures_of_role[role] = found
        return self._postures_of_role[role]

    def _pointing(self, rig: Rig, frame: Pose) -> list[tuple[Direction, ...]]:
        """Return where the ends of each option point; holes of one row have frames that are turned alike."""
        key = (id(rig), frame.rotation.tobytes())
        if key not in self._directions:
            pointing = [direction_of(vector) for vector in frame.vectors(rig.directions)]
            self._directions[key] = [tuple(pointing[k] for k in one.directions) for one in rig.options]
        return self._directions[key]

    def _batch(self, key: EndKey, number: int) -> Batch:
        stack, end, role = key
        rig = self._postures(role)[number].rig
        directions = self._pointing(rig, self._frame(stack, end))
        ask = partial(self._met_in_posture, key, number)
        # The first posture is asked for at once; the bodies of the others tell soon which can be free at all.
        common = partial(self._met_by_body, key, number) if number else frozenset
        tools = [option.tool for option in rig.options]
        solid = partial(self._solid, key, number)
        return Batch(directions=directions, ask=ask, ask_common=common, tools=tools, solid=solid)

    def _solid(self, key: EndKey, number: int, option: int) -> tuple[Piece, ...]:
        """Return the solids of one option of a posture where it stands."""
        stack, end, role = key
        rig, frame = self._postures(role)[number].rig, self._frame(stack, end)
        chosen = rig.options[option]
        rounds = [prism_around(rig.cylinders[k]) for k in chosen.cylinders]
        pieces = [*rounds, *(rig.prisms[k] for k in chosen.boxes)]
        return tuple(replace(piece, frame=frame.after(piece.frame)) for piece in pieces)

    def _met_in_posture(self, key: EndKey, number: int) -> list[frozenset[str]]:
        """Return what each option of a posture meets; a whole lot at once, which is asked for next."""
        stack, end, role = key
        if (key, number) not in self._met:
            # Nearly all ends are asked about the first posture; about the others only those of some rows.
            lot = self._rows[stack] if number else self._lots[stack]
            met = self._met_by(self._postures(role)[number], [self._frame(k, end) for k in lot])
            self._met.update({((k, end, role), number): one for k, one in zip(lot, met, strict=True)})
        return self._met[key, number]

    def _met_by_body(self, key: EndKey, number: int) -> frozenset[str]:
        """Return what the tool's body meets in a posture; asked for all postures and a whole row at once."""
        if key not in self._bodies:
            stack, end, role = key
            row, postures = self._rows[stack], self._postures(role)
            bodies = Cylinders.joined([posture.body for posture in postures])
            owners = np.repeat(np.arange(len(postures)), [len(posture.body) for posture in postures]).tolist()
            met = self._pieces.met_by_cylinders(bodies.moved([self._frame(k, end) for k in row]))
            for at, k in enumerate(row):
                parts: list[set[str]] = [set() for _ in postures]
                for owner, one in zip(owners, met[at * len(bodies) : (at + 1) * len(bodies)], strict=True):
                    parts[owner] |= one
                self._bodies[k, end, role] = [frozenset(some) for some in parts]
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

    def _room(self, stack: Stack, end: int, size: tuple[float, float], *, by_hand: bool = False) -> End:
        """Return the one alternative of a round space on an end: for a tail, a nut, or for a bolt to come in.

        Where it takes a hand the bench must not be there.
        """
        key = (stack.index, end, size, by_hand)
        if key not in self._rooms:
            out = (direction_of(stack.axis * end),) if by_hand else ()
            ask, solid = partial(self._met_in_room, key), partial(self._room_solid, key)
            self._rooms[key] = End([Batch(directions=[out], ask=ask, solid=solid)])
        return self._rooms[key]

    def _room_solid(self, key: RoomKey, _: int) -> tuple[Piece, ...]:
        index, end, size, _by_hand = key
        return (prism_around(_round_room(self._assembly.stacks[index], end, size)),)

    def _met_in_room(self, key: RoomKey) -> list[frozenset[str]]:
        """Return what stands in the room; asked for a whole lot at once."""
        if key not in self._in_rooms:
            index, end, size, by_hand = key
            lot = self._lots[index]
            rooms = [_round_room(self._assembly.stacks[k], end, size) for k in lot]
            met = self._pieces.met_by_cylinders(Cylinders.of(rooms))
            self._in_rooms.update({(k, end, size, by_hand): one for k, one in zip(lot, met, strict=True)})
        return [self._in_rooms[key]]


def _round_room(stack: Stack, end: int, size: tuple[float, float]) -> Cylinder:
    diameter, length = size
    return Cylinder(start=end_face(stack, end), axis=stack.axis * end, length=length, radius=diameter / 2)


def _lots(assembly: Assembly) -> dict[int, list[int]]:
    """Return for each stack those that are asked about together: with the same fastener, some hundred."""
    alike: dict[str | None, list[int]] = {}
    for stack in assembly.stacks:
        if stack.located:
            alike.setdefault(stack.fastener, []).append(stack.index)
    lots = (many[k : k + _LOT] for many in alike.values() for k in range(0, len(many), _LOT))
    return {index: lot for lot in lots for index in lot}


def _rows(assembly: Assembly) -> dict[int, list[int]]:
    """Return for each stack those whose farthest hole is of the same row."""
    rows: dict[str, list[int]] = {}
    for stack in assembly.stacks:
        rows.setdefault(stack.holes[0].rpartition(".")[0], []).append(stack.index)
    return {index: row for row in rows.values() for index in row}
