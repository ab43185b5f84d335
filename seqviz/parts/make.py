"""Making parts: every entry of ``parts`` becomes flats, convex pieces and holes in its own frame."""

from __future__ import annotations

from dataclasses import replace

from seqviz.findings import At, Finding
from seqviz.parts.body import Body, too_narrow
from seqviz.parts.drilling import drill_row
from seqviz.parts.fitting import drilled_pieces, fitting_body
from seqviz.parts.formed import FORMED, Formed, formed_body
from seqviz.parts.frame import frame_body
from seqviz.parts.mesh_part import mesh_body, solid_of, without_openings
from seqviz.parts.misplaced import misplaced
from seqviz.parts.mistakes import duplicate_name
from seqviz.parts.part import Hole, Part
from seqviz.parts.rod import rod_body
from seqviz.parts.rolled import rolled_part
from seqviz.parts.sheet import sheet_body
from seqviz.parts.solid import solid_body
from seqviz.parts.stock import part_from_stock, stock_mistake
from seqviz.parts.tee import tee_body, under_the_stem
from seqviz.parts.tube import rolled_up, tube_body
from seqviz.parts.worked import worked_part
from seqviz.records.model import (
    BarShape,
    BlockShape,
    FittingShape,
    FrameShape,
    MeshShape,
    Model,
    PartRecord,
    PieceShape,
    PlateShape,
    RodShape,
    Shape,
    SketchShape,
    SkinShape,
    TeeShape,
    TubeShape,
)

__all__ = ["make_parts", "part_from_stock", "stock_mistake"]

_WORDS: dict[type[Shape], str] = {
    SkinShape: "skin",
    PlateShape: "plate",
    FrameShape: "frame",
    BarShape: "bar",
    BlockShape: "block",
    TeeShape: "tee",
    TubeShape: "tube",
    SketchShape: "sketch",
    FittingShape: "fitting",
    MeshShape: "mesh",
    RodShape: "rod",
}
_WORDS |= FORMED

_NO_BODY = Body(flats={}, pieces=(), piece_flats=())
"""Of a sketch: no question of geometry meets it."""


def make_parts(model: Model) -> tuple[dict[str, Part], list[Finding]]:
    """Return the parts by name, in file order, and what was noticed.

    A part with a mistake in its body is left out; a row with a mistake is left out of its part.
    """
    parts: dict[str, Part] = {}
    findings = [mistake for stock in model.stock.values() if (mistake := stock_mistake(stock))]
    made = {name: _whole(record, model) for name, record in model.parts.items()}
    bodies = {name: body for name, body in made.items() if not isinstance(body, Finding)}
    for name, body in made.items():
        if isinstance(body, Finding):
            findings.append(body)
            continue
        part, noticed = _drilled(model.parts[name], bodies, model)
        findings += noticed
        if part is not None:
            parts[name] = part
    # What is wrong with a row is wrong with those that repeat it, and is told once.
    return parts, list(dict.fromkeys(findings))


def _whole(record: PartRecord, model: Model) -> Body | Finding:
    if isinstance(record.shape, FrameShape):
        # Its edges are called after the way they face.
        return frame_body(record.name, record.shape, record.at, model.forward)
    if isinstance(record.shape, MeshShape):
        return mesh_body(record.name, record.shape)
    return _body(record.name, record.shape, record.at)


def _body(name: str, shape: Shape, at: At) -> Body | Finding:
    if isinstance(shape, SketchShape):
        return too_narrow(at, name, {"thickness": shape.thickness}) or _NO_BODY
    if isinstance(shape, FittingShape):
        return fitting_body(name, shape.pieces, at, _piece)
    if isinstance(shape, RodShape):
        return rod_body(name, shape, at)
    if isinstance(shape, Formed):
        return formed_body(name, shape, at)
    if isinstance(shape, TeeShape):
        return tee_body(name, shape, at)
    if isinstance(shape, TubeShape):
        return tube_body(name, shape, at)
    if isinstance(shape, BarShape | BlockShape):
        return solid_body(name, shape, at)
    assert isinstance(shape, SkinShape | PlateShape)
    return sheet_body(name, shape, at)


def _piece(name: str, shape: PieceShape, at: At) -> Part | Finding:
    body = _body(name, shape, at)
    return body if isinstance(body, Finding) else _undrilled(name, _WORDS[type(shape)], body, at)


def _undrilled(name: str, shape: str, body: Body, at: At) -> Part:
    return Part(
        name=name,
        shape=shape,
        flats=body.flats,
        pieces=body.pieces,
        piece_flats=body.piece_flats,
        holes=(),
        twins={},
        at=at,
        members=body.members,
        surface=body.surface,
    )


def _drilled(record: PartRecord, bodies: dict[str, Body], model: Model) -> tuple[Part | None, list[Finding]]:
    """Return the part with the holes of all its rows that are in order; None where it is no solid."""
    body = bodies[record.name]
    measured = record.measured or model.measured
    holes: list[Hole] = []
    twins: dict[str, tuple[str, str]] = {}
    findings: list[Finding] = []
    shape = _WORDS[type(record.shape)]
    taken = {row.name for row in record.rows}
    flats = without_openings(body.flats) if shape == "mesh" else body.flats
    for row in record.rows:
        if row.laid_out_on is not None and row.laid_out_on not in bodies:
            continue
        written_on = bodies[row.laid_out_on].flats if row.laid_out_on else None
        drilled = drill_row(row, record.name, shape, flats, model, written_on)
        findings += drilled.findings
        double = [name for name in drilled.twins if name in taken]
        if double:
            findings.append(_twin_taken(row.at, row.name, double[0]))
            continue
        holes += drilled.holes
        if drilled.twins:
            twins[row.name] = (drilled.twins[0], drilled.twins[1])
    part = replace(
        _undrilled(record.name, shape, body, record.at),
        holes=tuple(holes),
        twins=twins,
        measured_to=measured.to if measured else 0.0,
        tool=record.tool,
    )
    finished, noticed = _finished(part, record.shape, body)
    return finished, findings + noticed


def _finished(part: Part, shape: Shape, body: Body) -> tuple[Part | None, list[Finding]]:
    """Return the part as its shape makes it once its holes are known."""
    if isinstance(shape, FittingShape):
        return drilled_pieces(part, shape.pieces)
    if isinstance(shape, MeshShape):
        return solid_of(part, shape, _piece)
    if body.blank is not None:
        noticed = misplaced(part, body.blank, body.spine)
        # A row with a mistake in it is left out, so that nothing else is told of its holes.
        wrong = {finding.at for finding in noticed}
        part = replace(part, holes=tuple(hole for hole in part.holes if hole.at not in wrong))
        return worked_part(part, body.blank, body.spine), noticed
    if isinstance(shape, TeeShape):
        return part, under_the_stem(shape, list(part.holes))
    if isinstance(shape, TubeShape):
        return rolled_up(part, shape), []
    return (part if body.roll is None else rolled_part(part, body)), []


def _twin_taken(at: At, row: str, twin: str) -> Finding:
    return duplicate_name(
        at,
        f"Row {row} is for both sides and makes a row {twin}, but there is one of that name.",
        "Every row of a part has a name of its own.",
        "Call one of them something else.",
    )
