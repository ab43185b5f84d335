"""From the rows of a part to its table of holes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from seqviz.findings import Finding
from seqviz.geometry.pose import Array, frozen
from seqviz.parts.mistakes import bad_value, missing_word, numbers_text, plain, unknown_name
from seqviz.parts.part import Flat, Hole
from seqviz.parts.rows import row_places
from seqviz.parts.sizes import HoleSize, hole_sizes
from seqviz.parts.twins import twin_places
from seqviz.records.model import MirrorLine, Model, Row
from seqviz.records.words import as_word

__all__ = ["Drilled", "drill_row", "flat_called", "holes_on", "off_the_flat"]

SAME_PLACE = 0.01
"""mm: two holes of one row nearer than this are one place written twice."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drilled:
    """What came of one row: its holes, the names of its twins (one or none), its mistakes."""

    holes: tuple[Hole, ...] = ()
    twins: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()


def drill_row(  # the part is its name, its shape and its flats
    row: Row,
    part: str,
    shape: str,
    flats: dict[str, Flat],
    model: Model,
    written_on: dict[str, Flat] | None = None,
) -> Drilled:
    """Return the holes of ``row`` of ``part``; with a mistake in it there are none.

    ``written_on`` holds the flats of the part whose row is repeated here; its mistakes are told there.
    """
    flat = _flat_of(row, shape, flats)
    if isinstance(flat, Finding):
        return Drilled(findings=(flat,))
    outline = flat if not written_on else written_on.get(flat.name, next(iter(written_on.values())))
    places = row_places(row, outline, model.forward, _mirror_line(row.laid_out_on or part, model))
    if isinstance(places, Finding):
        return Drilled(findings=(places,) if written_on is None else ())
    sizes = hole_sizes(row, len(places), model.sizes, model.broken)
    named = _named_rows(row, part, flat, places, model)
    wrong = sizes.findings + ((named,) if isinstance(named, Finding) else ())
    if wrong or sizes.muted or isinstance(named, Finding):
        return Drilled(findings=wrong)
    findings = [_doubled(row, places, sizes.holes)]
    findings += [off_the_flat(row, name, flat, at, sizes.holes) for name, at in named.items()]
    found = tuple(finding for finding in findings if finding)
    if found:
        return Drilled(findings=found)
    holes = [hole for name, at in named.items() for hole in holes_on(row, name, flat, at, sizes.holes)]
    return Drilled(holes=tuple(holes), twins=tuple(named) if row.both_sides else ())


def holes_on(row: Row, name: str, flat: Flat, places: Array, sizes: dict[int, HoleSize]) -> list[Hole]:
    """Return the holes of ``row``, called ``name``, at ``places`` (n, 2) mm of ``flat``."""
    middle = np.column_stack([places, np.full(len(places), flat.thickness / 2)])
    centres = flat.frame.points(middle)
    axis = frozen(flat.face_normal("outside"))
    return [
        Hole(
            row=name,
            number=number,
            flat=flat.name,
            centre=frozen(centres[number - 1]),
            axis=axis,
            diameter=size.diameter,
            size=size.name,
            at=row.at,
            crosses=tuple(crossed.text for crossed in row.crosses),
            pilot=row.pilot,
            punched=row.punched,
            countersunk=size.countersunk,
            head_here=bool(row.countersunk),
        )
        for number, size in sorted(sizes.items())
    ]


def _mirror_line(part: str, model: Model) -> MirrorLine | None:
    """Return the part's own mirror line, or else the model's."""
    record = model.parts.get(part)
    return (record.mirror_line if record else None) or model.mirror_line


def _flat_of(row: Row, shape: str, flats: dict[str, Flat]) -> Flat | Finding:
    if not flats:
        return missing_word(
            row.at,
            f"Row {row.name}: this {shape} has no flat on which holes could lie.",
            "A hole lies on a flat, square to it.",
            "Write flats: of a mesh, or give a fitting a piece that has one.",
        )
    if row.flat is None and (shape in ("skin", "plate", "bar", "tube") or len(flats) == 1):
        return next(iter(flats.values()))
    if row.flat is None:
        return missing_word(
            row.at,
            f"Row {row.name}: it is not said on which flat it lies.",
            f"This {shape} has the flats {', '.join(flats)}.",
            f"Write flat: {next(iter(flats))}, or another of them.",
        )
    return flat_called(row.flat, flats) or unknown_name(row.at, "flat", row.flat, list(flats))


def flat_called(text: str, flats: dict[str, Flat]) -> Flat | None:
    """Return the flat called ``text``; ``flange left`` is the flange of the left edge."""
    by_word = {as_word(name): flat for name, flat in flats.items()}
    return flats.get(text) or by_word.get(as_word(text)) or by_word.get(f"{as_word(text)} edge")


def _named_rows(row: Row, part: str, flat: Flat, places: Array, model: Model) -> dict[str, Array] | Finding:
    """Return name -> places: the row itself, or its twins."""
    if not row.both_sides:
        return {row.name: places}
    if model.base is None or model.base.text not in (part, row.laid_out_on):
        return bad_value(
            row.at,
            f"Row {row.name}: both sides is for rows of the base only.",
            "The mirror line is written in the base's own x and y.",
            "Write a row for each side, or place the part on both sides.",
        )
    return twin_places(row, flat, places, model.forward, model.mirror_line)


def _doubled(row: Row, places: Array, sizes: dict[int, HoleSize]) -> Finding | None:
    """Return a finding where two holes of the row share a place."""
    numbers = np.array(sorted(sizes), dtype=int)
    tree = shapely.STRtree(shapely.points(places[numbers - 1]))
    pairs = tree.query(shapely.points(places[numbers - 1]), predicate="dwithin", distance=SAME_PLACE)
    twice = pairs[:, pairs[0] < pairs[1]]
    if twice.size == 0:
        return None
    first, second = numbers[twice[:, 0]]
    return bad_value(
        row.at,
        f"Row {row.name}: holes {first} and {second} lie at one place.",
        "Each number of a row is a hole of its own.",
        "Check the points, the ends and the count.",
    )


def off_the_flat(
    row: Row, name: str, flat: Flat, places: Array, sizes: dict[int, HoleSize]
) -> Finding | None:
    """Return a finding where hole centres lie beside the flat, in its bend or in an opening."""
    region = shapely.Polygon(flat.outline, flat.openings)
    shapely.prepare(region)
    on_it = shapely.contains_xy(region, places[:, 0], places[:, 1])
    off = [number for number in sorted(sizes) if not on_it[number - 1]]
    if not off:
        return None
    said = (
        f"hole {off[0]} of row {name} lies"
        if len(off) == 1
        else f"holes {numbers_text(off)} of row {name} lie"
    )
    x, y = places[off[0] - 1]
    low, high = flat.outline.min(axis=0), flat.outline.max(axis=0)
    where = "" if len(off) == 1 else f"hole {off[0]} is at "
    return bad_value(
        row.at,
        f"{said[0].upper()}{said[1:]} off the flat: {where}[{plain(x)}, {plain(y)}], while "
        f"{flat.name} reaches from [{plain(low[0])}, {plain(low[1])}] to [{plain(high[0])}, {plain(high[1])}]"
        f"{', openings taken out' if flat.openings else ''}.",
        "A hole's middle lies on its flat: not in a bend, not in an opening, not beside the outline.",
        "Check the row's numbers and its flat.",
    )
