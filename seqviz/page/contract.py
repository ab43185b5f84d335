"""What stands in a page for its scripts: the JSON's shape. Base frame, mm to 0.001, unit vectors to 1e-5.

It stands there as base64 of gzip, and so do the meshes beside it.

Numbers that point at others count from 0: ``part`` into ``parts``, ``stack`` into ``stacks``, and so on.
Steps are told by their numbers, from 1. Scripts compute nothing of this; they play it.
"""

from __future__ import annotations

from typing import TypedDict

__all__ = [
    "FORMAT",
    "FindingData",
    "FixingData",
    "MarkData",
    "MeshesData",
    "MoveData",
    "PartData",
    "Place",
    "Point",
    "ShapeData",
    "Span",
    "StackData",
    "StepData",
    "TurnData",
    "Work",
]

FORMAT = 1

Point = list[float]
"""``[x, y, z]``: mm, or a unit vector."""

Span = list[int]
"""``[first, last]``, both included; or ``[first, count]`` where it is about an array of a mesh."""


class Place(TypedDict):
    """A place in a file: ``line`` and ``column`` from 1."""

    file: str
    line: int
    column: int


class ShapeData(TypedDict):
    """A mesh in its part's frame.

    ``low``, ``grain``: a corner stands at ``low + grain * q``. ``vertices``, ``faces``, ``edges``: ``[first,
    count]`` in the three arrays, in corners, triangles and lines. Faces and edges name corners from the first
    of their shape.
    """

    low: Point
    grain: Point
    vertices: Span
    faces: Span
    edges: Span


class MeshesData(TypedDict):
    """Where the arrays stand in the unpacked bytes, ``[byte offset, byte length]``; little endian.

    ``vertices``: uint16 by three; ``faces``: uint32 by three; ``edges``: uint32 by two. Each row stands there
    as its difference to the row before, of whichever shape; what runs over or under counts round.
    """

    vertices: Span
    faces: Span
    edges: Span


class PartData(TypedDict):
    """A placed part.

    ``no``: the number that the builder sees, from 1 in the order of placing. ``shape``: None where it has no
    dimensions yet. ``pose``: row-major 3 by 4. ``layer``: its number in its commonest stack, 1 under the
    manufactured head. ``first``: the step since which it is there, 0: from the start, None: no step places
    it.
    ``on``, ``under``: parts that it sits on, and that sit on it. ``tool``: a template.
    """

    name: str
    no: int
    shape: int | None
    pose: list[float]
    layer: int | None
    thickness: str
    facts: list[str]
    first: int | None
    on: list[int]
    under: list[int]
    stacks: list[int]
    tool: bool


class StackData(TypedDict):
    """A hole stack.

    ``at``: on the outer face of layer 1, None where it has no place; ``axis`` points out of that face.
    ``layers``: ``[line, part]`` for each of ``lines`` that tells a layer, from layer 1 on.
    """

    name: str
    names: list[str]
    at: Point | None
    axis: Point
    diameter: float
    lines: list[str]
    layers: list[list[int]]
    section: int | None


class FixingData(TypedDict):
    """A head, a tail or a pin's body in its final place: it stands on ``part`` and moves with it."""

    stack: int
    part: int
    kind: str
    at: Point
    out: Point
    wide: float
    high: float


class MoveData(TypedDict):
    """A part on its way in: ``path`` says how far it is off its place, from outside to zeros.

    ``leaves``: it is taken off, and goes along ``path`` backwards. ``piece``: what it moves as.
    """

    part: int
    piece: str
    path: list[Point]
    leaves: bool


class MarkData(TypedDict):
    """A hole that a step is about, at the end worked from; ``part``: on whose face it stands."""

    stack: int
    part: int
    kind: str
    at: Point
    out: Point
    wide: float


class TurnData(TypedDict):
    """The work was turned about ``axis``; ``before`` faced up until then."""

    axis: Point
    before: Point


class StepData(TypedDict):
    """A step.

    ``work``: the sub-assembly on which it is done, None: the main work. ``up``: what faces up after it.
    ``there``: parts in that work, those that come with the step or leave with it included. ``fixed_before``,
    ``fixed``: spans of ``fixings`` that stand there before and after it. ``hold``: work stops until something
    is checked. ``bare``: nothing that is there has dimensions.
    """

    no: int
    title: str
    lines: list[str]
    holes: str
    work: str | None
    up: Point
    up_name: str
    turn: TurnData | None
    there: list[int]
    moves: list[MoveData]
    fixed_before: list[Span]
    fixed: list[Span]
    marks: list[MarkData]
    hold: bool
    bare: bool
    at: Place


class FindingData(TypedDict):
    """A finding.

    ``known``: why it is settled. ``spot``: where to look, None: it has no place in the work. ``step``: the
    step after whose placings it is looked at, 0: the whole structure. ``blockers``: parts in the way.
    ``tool``: a shape, base frame. ``path``: the way that is barred, as of a move of the first of ``parts``.
    """

    kind: str
    severity: str
    message: str
    why: str
    fix: str
    known: str | None
    at: Place
    steps: list[int]
    parts: list[int]
    stacks: list[int]
    spot: Point | None
    step: int | None
    blockers: list[int]
    tool: int | None
    path: list[Point] | None


class Work(TypedDict):
    """All of it.

    ``files``: as they were given. ``before``: what to know before the first step. ``box``: the two corners of
    the finished structure's box. ``sections``: SVGs.
    """

    format: int
    title: str
    files: list[str]
    unit: str
    cautions: list[str]
    before: list[str]
    up: Point
    forward: Point
    box: list[Point]
    shapes: list[ShapeData]
    meshes: MeshesData
    parts: list[PartData]
    stacks: list[StackData]
    sections: list[str]
    fixings: list[FixingData]
    steps: list[StepData]
    findings: list[FindingData]
