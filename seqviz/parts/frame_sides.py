"""The sides of a frame's outline, and which of them carry a flange."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.polygons import is_anticlockwise
from seqviz.geometry.pose import Array
from seqviz.parts.edges import edge_facing
from seqviz.parts.frame_section import Section, section_of
from seqviz.parts.mistakes import bad_value, plain
from seqviz.records.model import FrameFlange, FrameShape

__all__ = ["Bent", "Side", "sides_of"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bent:
    """A flange piece on a side.

    Attributes
    ----------
    flat
        ``flange left edge``, ``flange nose 2``.
    section
        Its cross section.
    up
        +1 where it rises to +z of the part, -1 where it goes down.
    backward
        Its x runs against the outline's anticlockwise sense.
    record
        What was written.
    """

    flat: str
    section: Section
    up: int
    backward: bool
    record: FrameFlange


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Side:
    """A straight side ``start`` -> ``end`` (2,) mm of the outline, anticlockwise, and what is bent up there.

    ``number`` is that of its first written side.
    """

    start: Array
    end: Array
    number: int
    bent: Bent | None = None

    @property
    def length(self) -> float:
        """From corner to corner, mm."""
        return float(np.linalg.norm(self.end - self.start))

    @property
    def along(self) -> Array:
        """Unit vector (2,) from start to end."""
        return np.asarray((self.end - self.start) / self.length)

    @property
    def inward(self) -> Array:
        """Unit vector (2,) into the web."""
        x, y = self.along
        return np.array([-y, x])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Run:
    """A flange piece from corner ``first`` over ``count`` sides of the anticlockwise ring, in one line."""

    first: int
    count: int
    flat: str
    backward: bool
    record: FrameFlange


def sides_of(name: str, shape: FrameShape, ring: Array, forward: str) -> list[Side] | Finding:
    """Return the sides of ``ring``, the outline as written (n, 2) mm, in anticlockwise order.

    Sides in one line that carry one flange by the name of an edge are one side.
    """
    turned = not is_anticlockwise(ring)
    corners = ring[::-1] if turned else ring
    owners: dict[int, _Run] = {}
    # Sides that are numbered are none of those that are called by the way they face.
    for flange in sorted(shape.flanges, key=lambda flange: not flange.edges):
        runs = _numbered(name, flange, len(corners), turned) if flange.edges else None
        runs = runs or _named_run(name, flange, corners, (forward, [corners[k] for k in owners]))
        if isinstance(runs, Finding):
            return runs
        for run in runs:
            for k in range(run.count):
                side = (run.first + k) % len(corners)
                if side in owners:
                    return _twice(name, _number(side, len(corners), turned), owners[side].record, flange)
                owners[side] = run
    for flange in shape.flanges:
        section = _section(shape, flange)
        if flange.width - section.setback < 0.2:
            return _all_bend(name, flange, section.setback)
    return list(_sides(shape, corners, owners, turned))


def _sides(shape: FrameShape, corners: Array, owners: dict[int, _Run], turned: bool) -> Iterator[Side]:
    count = len(corners)
    # Sense of the outside: +z where the outline is written anticlockwise.
    outside = -1 if turned else 1
    for side in range(count):
        run = owners.get(side)
        if run is None:
            end = corners[(side + 1) % count]
            yield Side(start=corners[side], end=end, number=_number(side, count, turned))
        elif side == run.first:
            yield Side(
                start=corners[side],
                end=corners[(side + run.count) % count],
                number=_number(side, count, turned),
                bent=Bent(
                    flat=run.flat,
                    section=_section(shape, run.record),
                    up=outside if run.record.side == "outside" else -outside,
                    backward=run.backward,
                    record=run.record,
                ),
            )


def _section(shape: FrameShape, flange: FrameFlange) -> Section:
    return section_of((shape.thickness, shape.bend_radius), flange.width, flange.angle)


def _number(side: int, count: int, turned: bool) -> int:
    """Return the number, as written, of a side of the anticlockwise ring."""
    return (count - 2 - side) % count + 1 if turned else side + 1


def _numbered(name: str, flange: FrameFlange, count: int, turned: bool) -> list[_Run] | Finding:
    beyond = [number for number in flange.edges if number > count]
    if beyond:
        return bad_value(
            flange.at,
            f"{name}: flange {flange.name} runs along side {beyond[0]}, but the outline has {count} sides.",
            "Side 1 goes from the first corner of the outline to the second, the last one back to the first.",
            "Count the corners.",
        )
    several = len(flange.edges) > 1
    return [
        _Run(
            first=_number(number - 1, count, turned) - 1,
            count=1,
            flat=f"flange {flange.name} {index}" if several else f"flange {flange.name}",
            backward=turned,
            record=flange,
        )
        for index, number in enumerate(flange.edges, start=1)
    ]


def _named_run(
    name: str, flange: FrameFlange, corners: Array, among: tuple[str, list[Array]]
) -> list[_Run] | Finding:
    edge = edge_facing(corners, flange.name, among[0], flange.at)
    if isinstance(edge, Finding):
        edge = edge_facing(corners, flange.name, among[0], flange.at, among[1])
    if isinstance(edge, Finding):
        return replace(
            edge,
            message=f"{name}, flange {flange.name}: {edge.message[0].lower()}{edge.message[1:]}",
            fix="Give the flange a name of its own and the numbers of its sides, such as `edges: [2, 3]`.",
        )
    ends = [edge.start, edge.start + edge.along * edge.length]
    first, last = (int(np.argmin(np.linalg.norm(corners - end, axis=1))) for end in ends)
    way = corners[(first + 1) % len(corners)] - corners[first]
    backward = float(way @ edge.along) < 0.999999 * float(np.linalg.norm(way))
    if backward:
        first, last = last, first
    count = (last - first) % len(corners)
    return [_Run(first=first, count=count, flat=f"flange {flange.name}", backward=backward, record=flange)]


def _twice(name: str, side: int, one: FrameFlange, other: FrameFlange) -> Finding:
    twice = one.name == other.name
    said = f"flange {one.name} twice" if twice else f"flange {one.name} and flange {other.name}"
    return bad_value(
        other.at,
        f"{name}: side {side} of the outline carries {said}.",
        "One side has one flange.",
        "Name another side, or delete one of them.",
    )


def _all_bend(name: str, flange: FrameFlange, taken: float) -> Finding:
    at: At = flange.at
    return bad_value(
        at,
        f"{name}: flange {flange.name} of {plain(flange.width)} mm ends in its bend, which takes "
        f"{plain(taken)} mm of it.",
        "Setback = tan(angle / 2) x (bend radius + thickness), FAA AC 43.13-1B page 4-14; "
        "widths are outside dimensions.",
        "Make it wider or the bend radius smaller.",
    )
