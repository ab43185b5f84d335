"""Small structures of boxes with upright holes, and sequences, written down by hand; mm, z is up."""

from __future__ import annotations

from collections.abc import Sequence as Listed

import numpy as np

from seqviz.assembly.structure import Assembly, Contact, Layer, PlacedPart, Stack
from seqviz.findings import At
from seqviz.geometry.pose import IDENTITY, Array, Pose, frozen
from seqviz.geometry.prism import Prism
from seqviz.parts.part import Flat, Hole, Part
from seqviz.records.model import Hardware, HoleChoice, Later, Model, Name, Placed
from seqviz.records.steps import (
    Action,
    BodyPiece,
    HoleFilter,
    PinPattern,
    Place,
    Reach,
    Rivet,
    Sequence,
    Step,
    Tool,
)

HERE = At(file="model.yaml", line=1, column=1)
RIVET = "blind rivet 3.2"
NO_FILTER = HoleFilter()

Box = tuple[tuple[float, float, float], tuple[float, float, float]]
"""Lowest and highest corner."""


def box_prism(box: Box) -> Prism:
    (x0, y0, z0), (x1, y1, z1) = box
    corners = [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
    frame = Pose(rotation=frozen(np.eye(3)), translation=frozen([0.0, 0.0, z0]))
    return Prism(polygon=frozen(corners), height=z1 - z0, frame=frame)


def piece(
    name: str,
    boxes: Listed[Box],
    holes: dict[str, list[tuple[float, float]]] | None = None,
    diameter: float = 3.3,
    twins: dict[str, tuple[str, str]] | None = None,
) -> PlacedPart:
    """A part of boxes; its holes are upright through the first one, whose top is the outside."""
    (x0, y0, z0), (x1, y1, z1) = boxes[0]
    flat = Flat(
        name="face",
        frame=Pose(rotation=frozen(np.eye(3)), translation=frozen([0.0, 0.0, z0])),
        thickness=z1 - z0,
        outside=1,
        outline=frozen([[x0, y0], [x1, y0], [x1, y1], [x0, y1]]),
    )
    made = [
        Hole(
            row=row,
            number=number,
            flat="face",
            centre=frozen([x, y, (z0 + z1) / 2]),
            axis=frozen([0.0, 0.0, 1.0]),
            diameter=diameter,
            size=None,
            at=HERE,
        )
        for row, points in (holes or {}).items()
        for number, (x, y) in enumerate(points, start=1)
    ]
    part = Part(
        name=name,
        shape="plate",
        flats={"face": flat},
        pieces=tuple(box_prism(box) for box in boxes),
        piece_flats=("face",) + (None,) * (len(boxes) - 1),
        holes=tuple(made),
        twins=twins or {},
        at=HERE,
    )
    up = frozen([0.0, 0.0, 1.0])
    return PlacedPart(name=name, part=part, pose=IDENTITY, depth=0, side=up, free=False, at=HERE)


def upright_stacks(parts: Listed[PlacedPart], fastener: str | None = RIVET) -> tuple[Stack, ...]:
    """One stack for each place with holes, layer 1 the highest; names of the last part first."""
    places: dict[tuple[float, float], list[tuple[PlacedPart, Hole]]] = {}
    for part in parts:
        for hole in part.part.holes:
            places.setdefault((float(hole.centre[0]), float(hole.centre[1])), []).append((part, hole))
    found = []
    for index, ((x, y), there) in enumerate(places.items()):
        ordered = sorted(there, key=lambda pair: -float(pair[1].centre[2]))
        layers = [
            Layer(
                part=part.name,
                hole=f"{part.name}.{hole.name}",
                top=float(hole.centre[2]) + part.part.flats["face"].thickness / 2,
                bottom=float(hole.centre[2]) - part.part.flats["face"].thickness / 2,
            )
            for part, hole in ordered
        ]
        found.append(
            Stack(
                index=index,
                point=frozen([x, y, 0.0]),
                axis=frozen([0.0, 0.0, 1.0]),
                layers=tuple(layers),
                holes=tuple(f"{part.name}.{hole.name}" for part, hole in reversed(there)),
                diameter=3.3,
                size=None,
                fastener=fastener,
                pin=3.3,
            )
        )
    return tuple(found)


def structure(
    *parts: PlacedPart,
    stacks: tuple[Stack, ...] | None = None,
    muted: frozenset[str] = frozenset(),
    contacts: tuple[Contact, ...] = (),
) -> Assembly:
    """The first part is the base."""
    stacks = upright_stacks(parts) if stacks is None else stacks
    return Assembly(
        base=parts[0].name,
        placed={part.name: part for part in parts},
        muted=muted,
        stacks=stacks,
        stack_of={name: stack.index for stack in stacks for name in stack.holes},
        contacts=contacts,
        up=frozen([0.0, 0.0, 1.0]),
        forward=frozen([1.0, 0.0, 0.0]),
    )


def model(
    *names: str,
    hardware: dict[str, Hardware] | None = None,
    later: tuple[Later, ...] = (),
    both: frozenset[str] = frozenset(),
) -> Model:
    """A model whose base is the first name; those in ``both`` are entered once for both sides."""
    return Model(
        path="model.yaml",
        name="by hand",
        units="mm",
        base=Name(text=names[0], at=HERE),
        forward="+x",
        mirror_line=None,
        sizes={},
        hardware=hardware or {},
        stock={},
        parts={},
        placed={name: entry(name, "other hand" if name in both else None) for name in names[1:]},
        later=later,
        known=(),
        at=HERE,
    )


def entry(name: str, both_sides: str | None = None) -> Placed:
    return Placed(
        name=name,
        part=Name(text=name, at=HERE),
        stock=None,
        match=(),
        match_at=HERE,
        along=None,
        pose=None,
        face=None,
        side=None,
        standing_leg=None,
        over=(),
        under=(),
        both_sides=both_sides,
        at=HERE,
    )


def names(*texts: str, line: int = 1) -> tuple[Name, ...]:
    """Names in a list on ``line``; the k-th stands in column 20 + k, counted from 0."""
    return tuple(
        Name(text=text, at=At(file="order.yaml", line=line, column=20 + k)) for k, text in enumerate(texts)
    )


def holes(*texts: str, line: int = 1) -> tuple[HoleChoice, ...]:
    """``part.row``, ``part.row.3`` or ``part.row.3-5``."""
    chosen = []
    for k, text in enumerate(texts):
        placed, row, *numbers = text.split(".")
        ends = [int(number) for number in numbers[0].split("-")] if numbers else [None]
        at = At(file="order.yaml", line=line, column=20 + k)
        chosen.append(HoleChoice(placed=placed, row=row, first=ends[0], last=ends[-1], at=at))
    return tuple(chosen)


def pins(kind: str, every: int | None = None, *listed: str) -> PinPattern:
    return PinPattern(kind=kind, every=every, holes=holes(*listed), at=HERE)


def place(*texts: str, pattern: PinPattern | None = None, pins_from: str | None = None) -> Place:
    return Place(names=names(*texts), pins=pattern, pins_from=pins_from)


def rivet(*texts: str, head: str | None = None, narrowed: HoleFilter = NO_FILTER) -> Rivet:
    """No names: everything ready."""
    said = Name(text=head, at=HERE) if head else None
    return Rivet(holes=holes(*texts) or None, narrowed=narrowed, use=None, head=said)


def step_at(number: int) -> At:
    return At(file="order.yaml", line=number, column=5)


def order(
    *actions: Action,
    up: str = "upper",
    bench: str = "flat",
    finished: bool = False,
    tools: tuple[Tool, ...] | None = (),
) -> Sequence:
    """A sequence; step k stands on line k, column 5. Without tools no access is checked."""
    return Sequence(
        path="order.yaml",
        model="model.yaml",
        up=up,
        bench=bench,
        finished=finished,
        finished_at=None,
        tools=tools,
        steps=tuple(Step(number=k, action=a, at=step_at(k)) for k, a in enumerate(actions, start=1)),
        known=(),
        at=HERE,
    )


def puller(
    diameter: float = 20.0, length: float = 100.0, tilt: float = 0.0, kind: str = "blind rivet"
) -> Tool:
    """A round tool with a thin arm straight behind it."""
    return Tool(
        name="puller",
        kind=kind,
        body=(BodyPiece(start=0.0, end=length, diameter=diameter),),
        turns=4,
        tilt=tilt,
        reach=Reach(diameter=diameter, length=200.0, along="axis"),
        at=HERE,
    )


def vector(x: float, y: float, z: float) -> Array:
    return frozen([x, y, z])
