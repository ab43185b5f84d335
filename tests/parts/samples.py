"""Records for the tests of this folder, written short."""

from __future__ import annotations

from seqviz.findings import At
from seqviz.geometry.prism import Prism
from seqviz.parts.body import Body
from seqviz.parts.part import Part
from seqviz.records.model import (
    AngleShape,
    ChannelShape,
    HatShape,
    MirrorLine,
    Model,
    Name,
    OtherSize,
    PartRecord,
    Row,
    Shape,
    Size,
    SkinShape,
    Spacing,
    Stock,
    ZedShape,
)
from seqviz.records.row_layout import Layout

SQUARE = ((0.0, 0.0), (620.0, 0.0), (620.0, 360.0), (0.0, 360.0))


def at(line: int = 1) -> At:
    return At(file="m.yaml", line=line, column=3)


def spacing(
    count: int | None = None, pitch: float | None = None, spaces: int | None = None, line: int = 50
) -> Spacing:
    return Spacing(count=count, pitch=pitch, spaces=spaces, at=at(line))


def row(
    layout: Layout,
    name: str = "r",
    *,
    flat: str | None = None,
    size: str | None = "small",
    diameter: float | None = None,
    exceptions: tuple[OtherSize, ...] = (),
    skip: tuple[int, ...] = (),
    both_sides: bool = False,
    line: int = 10,
) -> Row:
    return Row(
        name=name,
        flat=flat,
        layout=layout,
        size=Name(text=size, at=at(line)) if size else None,
        diameter=diameter,
        exceptions=exceptions,
        skip=skip,
        crosses=(),
        both_sides=both_sides,
        at=at(line),
    )


def other(first: int, last: int, size: str | None) -> OtherSize:
    return OtherSize(first=first, last=last, size=size, at=at(77))


def skin(outline: tuple[tuple[float, float], ...] = SQUARE, thickness: float = 0.8) -> SkinShape:
    return SkinShape(thickness=thickness, outline=outline, openings=())


def angle(
    angle: float = 90.0, radius: float = 2.4, thickness: float = 1.0, legs: tuple[float, float] = (20.0, 25.0)
) -> AngleShape:
    return AngleShape(thickness=thickness, length=620.0, legs=legs, bend_radius=radius, angle=angle)


def channel(
    angles: tuple[float, float] = (90.0, 90.0),
    radius: float = 1.5,
    flanges: tuple[float, float] = (15.0, 20.0),
) -> ChannelShape:
    return ChannelShape(
        thickness=1.0, length=100.0, flanges=flanges, web=40.0, bend_radius=radius, angles=angles
    )


def zed(angles: tuple[float, float] = (90.0, 90.0), radius: float = 1.5, web: float = 40.0) -> ZedShape:
    return ZedShape(
        thickness=1.0, length=100.0, flanges=(15.0, 20.0), web=web, bend_radius=radius, angles=angles
    )


def hat(angle: float = 90.0, radius: float = 1.5) -> HatShape:
    return HatShape(
        thickness=1.0,
        length=100.0,
        feet=(12.0, 14.0),
        webs=(25.0, 25.0),
        crown=30.0,
        bend_radius=radius,
        angles=(angle, angle, angle, angle),
    )


def prisms(made: Body | Part) -> list[Prism]:
    """Return the pieces of a body whose pieces are all straight."""
    found = [piece for piece in made.pieces if isinstance(piece, Prism)]
    assert len(found) == len(made.pieces)
    return found


def part(shape: Shape, *rows: Row, name: str = "p") -> PartRecord:
    return PartRecord(name=name, shape=shape, rows=rows, at=at(5))


def model(
    *parts: PartRecord,
    forward: str = "+x",
    mirror_line: MirrorLine | None = None,
    stock: dict[str, Stock] | None = None,
    broken: frozenset[str] = frozenset(),
) -> Model:
    """Return a model whose base is the first of ``parts``, with the sizes small 3.3 and big 4.1."""
    sizes = {
        name: Size(name=name, diameter=diameter, fastener=None, at=at(3))
        for name, diameter in (("small", 3.3), ("big", 4.1))
    }
    return Model(
        path="m.yaml",
        name="m",
        units="mm",
        base=Name(text=parts[0].name, at=at(2)) if parts else None,
        forward=forward,
        mirror_line=mirror_line,
        sizes=sizes,
        hardware={},
        stock=stock or {},
        parts={p.name: p for p in parts},
        placed={},
        later=(),
        known=(),
        at=at(),
        broken=broken,
    )
