"""A bend is tighter than the table of bend radii recommends for this metal.

What it means: bent so sharply the outside of the bend cracks, at once or later in service; hard tempers more
than soft ones. Only metals of which the table has a row are asked about.

What to do: correct `bend radius` (or `material`) if it is a slip. Otherwise take a larger radius, a softer
temper, or thinner sheet. Settle it under `known` where the drawing shows it so; `figure` is what is lacking.

Found, because 0.032 in (0.81 mm) of 2024-T3 wants 2 t, 1.63 mm:

```yaml
made by: me
parts:
  clip: {shape: angle, material: 2024-T3, thickness: 0.032 in, length: 40, legs: [20, 20], bend radius: 1.5}
```

Goes through:

```yaml
made by: me
parts:
  clip: {shape: angle, material: 2024-T3, thickness: 0.032 in, length: 40, legs: [20, 20], bend radius: 1.7}
```

The rule: the inside radius is at least the smaller of the two multiples of the thickness that FAA AC
43.13-1B, table 4-6, recommends for bends of 90 degrees. For a thickness between two columns the next
thicker column counts, which has the larger multiples; the AC has no rule for that (project choice). Asked
of every bend and roll of a part with a `material`, whatever its angle, and of the bent pieces of fittings.
A material without a row in the table is passed over, and so is one without its temper. Clad sheet may be
bent slightly tighter (note to the table). On parts `made by: kit` all such findings are told in one note:
the maker's drawing governs. `seqviz check --rules` shows each.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.flat_holes import GUARD
from seqviz.checks.wording import length
from seqviz.findings import At, Finding
from seqviz.records.model import (
    AngleShape,
    ChannelShape,
    FittingShape,
    FrameShape,
    HatShape,
    PartRecord,
    PieceShape,
    PlateShape,
    Shape,
    SkinShape,
    ZedShape,
)
from seqviz.trade.bend_radii import RadiusAdvice, bend_radius, listed_alloy

__all__ = ["CHECK"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bend:
    """A bend of ``thickness`` sheet with an inside ``radius``, mm: what it is called and where it stands."""

    what: str
    radius: float
    thickness: float
    at: At


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each bend of a part that is too tight."""
    for record in build.model.parts.values():
        if record.material is None or listed_alloy(record.material) is None:
            continue
        for bend in _bends(record):
            advice = bend_radius(record.material, bend.thickness)
            if advice and bend.radius < advice.least - GUARD:
                yield _finding(build, record, bend, advice)


def _finding(build: Build, record: PartRecord, bend: _Bend, advice: RadiusAdvice) -> Finding:
    placed = build.assembly.placed.items()
    occurrences = tuple(name for name, there in placed if there.part.name == record.name)
    lacks = advice.least - bend.radius
    alloy = listed_alloy(record.material or "")
    return Finding(
        kind="bend-radius",
        severity="warning",
        at=bend.at,
        message=f"{record.name}: the inside radius of {bend.what} is {length(build, bend.radius)}; "
        f"{length(build, advice.least)} is asked, {advice.least / bend.thickness:.2g} times the thickness of "
        f"{length(build, bend.thickness)}. {length(build, lacks)} is lacking.",
        why=f"Bent tighter {alloy} cracks. {advice.source}: {advice.least / bend.thickness:.2g} t to "
        f"{advice.most / bend.thickness:.2g} t for bends of 90 degrees{_between(advice)}.",
        fix="Correct bend radius or material, or take a larger radius, a softer temper or thinner sheet.",
        parts=occurrences or (record.name,),
        figure=lacks,
    )


def _between(advice: RadiusAdvice) -> str:
    if advice.exact:
        return ""
    return (
        "; no column has this thickness: the next thicker with its larger multiples counts (project choice)"
    )


def _bends(record: PartRecord) -> Iterator[_Bend]:
    yield from _of_shape(record.shape, record.at, "")
    if isinstance(record.shape, FittingShape):
        for piece in record.shape.pieces:
            yield from _of_shape(piece.shape, piece.at, f" of {piece.name}")


def _of_shape(shape: Shape | PieceShape, at: At, whose: str) -> Iterator[_Bend]:
    if isinstance(shape, AngleShape | ChannelShape | ZedShape | HatShape):
        angles = (shape.angle,) if isinstance(shape, AngleShape) else shape.angles
        if any(angles):
            what = "its bend" if len(angles) == 1 else "its bends"
            yield _Bend(what=f"{what}{whose}", radius=shape.bend_radius, thickness=shape.thickness, at=at)
    elif isinstance(shape, FrameShape):
        if shape.flanges or any(opening.lip for opening in shape.openings):
            yield _Bend(what="its bends", radius=shape.bend_radius, thickness=shape.thickness, at=at)
    elif isinstance(shape, SkinShape | PlateShape):
        for roll in shape.rolled:
            yield _Bend(what="its roll", radius=roll.radius, thickness=shape.thickness, at=roll.at)


CHECK = Check("bend-radius", "warning", find)
