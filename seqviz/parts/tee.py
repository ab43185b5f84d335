"""Tees: a flange and a stem of one piece."""

from __future__ import annotations

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.pose import IDENTITY, Pose, frozen
from seqviz.geometry.prism import Prism
from seqviz.parts.body import NARROWEST, Body, too_narrow
from seqviz.parts.mistakes import bad_value, numbers_text, plain
from seqviz.parts.part import Flat, Hole
from seqviz.records.model import TeeShape

__all__ = ["tee_body", "under_the_stem"]


def tee_body(name: str, shape: TeeShape, at: At) -> Body | Finding:
    """Return the body of a tee, or the first mistake in its description.

    The flange lies in 0 <= z <= thickness, x along the part from 0 to its length, y from the middle; the stem
    stands on its middle. ``flange`` has x and y of the part, its outside (z = 0) looks away from the stem.
    ``stem`` has x along the part and y up from the flange's outside; its outside looks to -y. Fillets between
    the two are left out.
    """
    sizes = {"thickness": shape.thickness, "stem thickness": shape.stem_thickness, "length": shape.length}
    mistake = too_narrow(at, name, sizes) or _no_tee(name, shape, at)
    if mistake:
        return mistake
    long, half, web = shape.length, shape.flange / 2, shape.stem_thickness / 2
    upright = Pose(
        rotation=frozen([[1, 0, 0], [0, 0, -1], [0, 1, 0]]), translation=frozen(np.array([0.0, web, 0.0]))
    )
    flats = (
        Flat(
            name="flange",
            frame=IDENTITY,
            thickness=shape.thickness,
            outside=-1,
            outline=frozen([[0, -half], [long, -half], [long, half], [0, half]]),
        ),
        Flat(
            name="stem",
            frame=upright,
            thickness=shape.stem_thickness,
            outside=1,
            outline=frozen(
                [[0, shape.thickness], [long, shape.thickness], [long, shape.stem], [0, shape.stem]]
            ),
        ),
    )
    return Body(
        flats={flat.name: flat for flat in flats},
        pieces=tuple(Prism(polygon=f.outline, height=f.thickness, frame=f.frame) for f in flats),
        piece_flats=("flange", "stem"),
    )


def under_the_stem(shape: TeeShape, holes: list[Hole]) -> list[Finding]:
    """Return a finding for each row of the flange with holes that break into the stem."""
    room = shape.stem_thickness / 2
    found: dict[str, list[Hole]] = {}
    for hole in holes:
        if hole.flat == "flange" and abs(hole.centre[1]) - hole.diameter / 2 < room - 1e-6:
            found.setdefault(hole.row, []).append(hole)
    return [
        bad_value(
            row[0].at,
            f"Row {name}: {numbers_text(hole.number for hole in row)} would be drilled into the stem.",
            f"The stem stands on the middle of the flange and takes {plain(room)} mm on both sides of y = 0.",
            "Correct the row's y; on the flange it counts from the middle.",
        )
        for name, row in found.items()
    ]


def _no_tee(name: str, shape: TeeShape, at: At) -> Finding | None:
    flange, stem = (shape.flange - shape.stem_thickness) / 2, shape.stem - shape.thickness
    if min(flange, stem) >= NARROWEST:
        return None
    word, needs = ("flange", shape.stem_thickness) if flange < NARROWEST else ("stem", shape.thickness)
    return bad_value(
        at,
        f"{name}: the {word} of {plain(getattr(shape, word))} mm does not reach beyond "
        f"the other's {plain(needs)} mm.",
        "The flange is as wide as the whole tee, the stem as high as the whole tee.",
        f"Correct {word}, or the thickness.",
    )
