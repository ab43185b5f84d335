"""Frames for the tests of this folder, written short."""

from __future__ import annotations

from seqviz.findings import Finding
from seqviz.parts.frame import frame_body
from seqviz.parts.make import make_parts
from seqviz.parts.part import Part
from seqviz.records.model import FrameFlange, FrameShape, Lip, Opening, Row
from tests.parts.samples import at, model, part

RIB = ((0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0))
TRAPEZOID = ((0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (0.0, 60.0))


def flange(
    name: str,
    *edges: int,
    width: float = 20.0,
    side: str = "inside",
    angle: float = 90.0,
    relief: float | None = None,
) -> FrameFlange:
    return FrameFlange(
        name=name, edges=edges, width=width, side=side, angle=angle, relief=relief, at=at(20 + len(name))
    )


def frame(
    *flanges: FrameFlange,
    outline: tuple[tuple[float, float], ...] = RIB,
    radius: float = 2.0,
    openings: tuple[Opening, ...] = (),
) -> FrameShape:
    """Return a frame of 1 mm: setback of 90 degrees 3 mm, allowance pi / 2 x 2.5."""
    return FrameShape(thickness=1.0, outline=outline, bend_radius=radius, flanges=flanges, openings=openings)


def opening(
    diameter: float = 30.0, lip: Lip | None = None, center: tuple[float, float] = (50.0, 30.0)
) -> Opening:
    return Opening(name="hole", center=center, diameter=diameter, outline=(), at=at(40), lip=lip)


def lip(height: float = 6.0, side: str = "inside", angle: float = 90.0) -> Lip:
    return Lip(height=height, side=side, angle=angle, at=at(41))


def made(shape: FrameShape, *rows: Row) -> Part:
    parts, findings = make_parts(model(part(shape, *rows)))
    assert [finding.message for finding in findings] == []
    return parts["p"]


def mistake(shape: FrameShape) -> Finding:
    found = frame_body("p", shape, at(5), "+x")
    assert isinstance(found, Finding)
    return found
