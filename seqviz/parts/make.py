"""Making parts: every entry of ``parts`` becomes flats, convex pieces and holes in its own frame."""

from __future__ import annotations

from seqviz.findings import At, Finding
from seqviz.parts.body import Body, too_narrow
from seqviz.parts.drilling import drill_row
from seqviz.parts.formed import FORMED, Formed, formed_body
from seqviz.parts.mistakes import duplicate_name
from seqviz.parts.part import Hole, Part
from seqviz.parts.sheet import sheet_body
from seqviz.parts.solid import solid_body
from seqviz.parts.stock import part_from_stock, stock_mistake
from seqviz.parts.tee import tee_body, under_the_stem
from seqviz.parts.tube import rolled_up, tube_body
from seqviz.records.model import (
    BarShape,
    BlockShape,
    Model,
    PartRecord,
    PlateShape,
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
    BarShape: "bar",
    BlockShape: "block",
    TeeShape: "tee",
    TubeShape: "tube",
    SketchShape: "sketch",
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
    made = {name: _body(name, record.shape, record.at) for name, record in model.parts.items()}
    bodies = {name: body for name, body in made.items() if not isinstance(body, Finding)}
    for name, body in made.items():
        if isinstance(body, Finding):
            findings.append(body)
            continue
        parts[name], noticed = _drilled(model.parts[name], bodies, model)
        findings += noticed
    # What is wrong with a row is wrong with those that repeat it, and is told once.
    return parts, list(dict.fromkeys(findings))


def _body(name: str, shape: Shape, at: At) -> Body | Finding:
    if isinstance(shape, SketchShape):
        return too_narrow(at, name, {"thickness": shape.thickness}) or _NO_BODY
    if isinstance(shape, Formed):
        return formed_body(name, shape, at)
    if isinstance(shape, TeeShape):
        return tee_body(name, shape, at)
    if isinstance(shape, TubeShape):
        return tube_body(name, shape, at)
    if isinstance(shape, BarShape | BlockShape):
        return solid_body(name, shape, at)
    return sheet_body(name, shape, at)


def _drilled(record: PartRecord, bodies: dict[str, Body], model: Model) -> tuple[Part, list[Finding]]:
    """Return the part with the holes of all its rows that are in order."""
    body = bodies[record.name]
    measured = record.measured or model.measured
    holes: list[Hole] = []
    twins: dict[str, tuple[str, str]] = {}
    findings: list[Finding] = []
    shape = _WORDS[type(record.shape)]
    taken = {row.name for row in record.rows}
    for row in record.rows:
        if row.laid_out_on is not None and row.laid_out_on not in bodies:
            continue
        written_on = bodies[row.laid_out_on].flats if row.laid_out_on else None
        drilled = drill_row(row, record.name, shape, body.flats, model, written_on)
        findings += drilled.findings
        double = [name for name in drilled.twins if name in taken]
        if double:
            findings.append(_twin_taken(row.at, row.name, double[0]))
            continue
        holes += drilled.holes
        if drilled.twins:
            twins[row.name] = (drilled.twins[0], drilled.twins[1])
    part = Part(
        name=record.name,
        shape=shape,
        flats=body.flats,
        pieces=body.pieces,
        piece_flats=body.piece_flats,
        holes=tuple(holes),
        twins=twins,
        at=record.at,
        measured_to=measured.to if measured else 0.0,
        tool=record.tool,
    )
    if isinstance(record.shape, TeeShape):
        findings += under_the_stem(record.shape, holes)
    return (rolled_up(part, record.shape) if isinstance(record.shape, TubeShape) else part), findings


def _twin_taken(at: At, row: str, twin: str) -> Finding:
    return duplicate_name(
        at,
        f"Row {row} is for both sides and makes a row {twin}, but there is one of that name.",
        "Every row of a part has a name of its own.",
        "Call one of them something else.",
    )
