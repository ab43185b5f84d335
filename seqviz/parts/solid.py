"""Bars and blocks: boxes with six flats."""

from __future__ import annotations

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.pose import IDENTITY, Pose, frozen
from seqviz.geometry.prism import Prism
from seqviz.parts.body import Body, too_narrow
from seqviz.parts.part import Flat
from seqviz.records.model import BarShape, BlockShape

__all__ = ["solid_body"]


def solid_body(name: str, shape: BarShape | BlockShape, at: At) -> Body | Finding:
    """Return the body of a bar or block, or the first mistake in its description.

    The box fills 0 <= x <= length, 0 <= y <= width, 0 <= z <= thickness (height). Its flats are as thick as
    the whole way through to the opposite side, and opposite flats share their coordinates, so that one place
    is written alike from both sides:

    ``top`` (+z), ``bottom`` (-z): x, y of the part;
    ``left`` (+y), ``right`` (-y): x, z of the part;
    ``front`` (+x), ``back`` (-x): y, z of the part.
    """
    height = shape.thickness if isinstance(shape, BarShape) else shape.height
    word = "thickness" if isinstance(shape, BarShape) else "height"
    mistake = too_narrow(at, name, {"length": shape.length, "width": shape.width, word: height})
    if mistake:
        return mistake
    long, wide = shape.length, shape.width
    # Right-handed: x, z and -y for the sides; y, z and x for the ends.
    side = Pose(rotation=frozen([[1, 0, 0], [0, 0, -1], [0, 1, 0]]), translation=frozen([0, wide, 0]))
    end = Pose(rotation=frozen([[0, 0, 1], [1, 0, 0], [0, 1, 0]]), translation=frozen(np.zeros(3)))
    flats = (
        _flat("top", IDENTITY, (long, wide, height), 1),
        _flat("bottom", IDENTITY, (long, wide, height), -1),
        _flat("left", side, (long, height, wide), -1),
        _flat("right", side, (long, height, wide), 1),
        _flat("front", end, (wide, height, long), 1),
        _flat("back", end, (wide, height, long), -1),
    )
    piece = Prism(polygon=flats[0].outline, height=height, frame=IDENTITY)
    return Body(flats={flat.name: flat for flat in flats}, pieces=(piece,), piece_flats=("top",))


def _flat(name: str, frame: Pose, sizes: tuple[float, float, float], outside: int) -> Flat:
    x, y, thickness = sizes
    outline = frozen([[0, 0], [x, 0], [x, y], [0, y]])
    return Flat(name=name, frame=frame, thickness=thickness, outside=outside, outline=outline)
