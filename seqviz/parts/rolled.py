"""Rolled skins: laid out and drilled flat, then rolled to a radius about lines."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import shapely

from seqviz.findings import Finding
from seqviz.geometry.pose import Array, frozen, unit
from seqviz.geometry.separation import TOLERANCE
from seqviz.parts.body import Body
from seqviz.parts.facets import facet_lines, flat_of, laid_facets, pieces_of
from seqviz.parts.mistakes import bad_value, plain
from seqviz.parts.part import Flat, Hole, Part
from seqviz.parts.roll import Roll
from seqviz.records.model import Rolling

__all__ = ["rolled_body", "rolled_holes", "rolled_part"]

_PARALLEL = 1e-4
"""Sine of the angle within which two lines count as parallel: 0.1 mm over a metre."""

_TOUCH = 1e-6  # mm: rolls that meet at one line do not overlap


@dataclass(frozen=True, slots=True, kw_only=True)
class _Arc:
    """One roll: from ``start`` to ``end``, mm of s; ``sense`` +1 where it turns towards +z."""

    start: float
    end: float
    sense: float
    roll: Rolling


def rolled_body(name: str, face: Flat, rollings: tuple[Rolling, ...]) -> Body | Finding:
    """Return the body of a sheet with the flat pattern ``face`` rolled up, or the first mistake in that.

    ``face`` stays the flat pattern, for rows. The part keeps the pattern's frame at the first roll's line.
    """
    sheet = shapely.Polygon(face.outline, face.openings)
    roll = _roll_of(name, face, rollings)
    if isinstance(roll, Finding):
        return roll
    laid = laid_facets(roll, sheet)
    pieces = tuple(piece for facet in laid for piece in pieces_of(facet, face.thickness))
    return Body(
        flats={face.name: face},
        pieces=pieces,
        piece_flats=(face.name,) * len(pieces),
        roll=roll,
        facets=tuple(flat_of(facet, face) for facet in laid),
    )


def rolled_part(part: Part, body: Body) -> Part:
    """Return ``part``, which was drilled flat, rolled up as its ``body`` is."""
    holes = rolled_holes(part.holes, part.flats, body.roll)
    return replace(part, holes=holes, roll=body.roll, facets=body.facets)


def rolled_holes(holes: Iterable[Hole], flats: Mapping[str, Flat], roll: Roll | None) -> tuple[Hole, ...]:
    """Return holes that were drilled in the flat pattern where they lie once it is rolled.

    Their middles are in the middle of the sheet, their axes square to the true curve.
    """
    flat = tuple(holes)
    if roll is None or not flat:
        return flat
    (face,) = flats.values()
    places = np.array([hole.centre[:2] for hole in flat])
    centres, normals = roll.points(places, roll.thickness / 2), roll.normals(places) * face.outside + 0.0
    return tuple(
        replace(hole, centre=frozen(centre), axis=frozen(axis))
        for hole, centre, axis in zip(flat, centres, normals, strict=True)
    )


def _roll_of(name: str, face: Flat, rollings: tuple[Rolling, ...]) -> Roll | Finding:
    first = rollings[0]
    for rolling in rollings:
        mistake = _line_mistake(name, rolling, first) or _radius_mistake(name, rolling, face.thickness)
        if mistake:
            return mistake
    origin, along = np.array(first.about[0]), unit(np.subtract(first.about[1], first.about[0]))
    frame = Roll(
        origin=frozen(origin),
        along=frozen(along),
        lines=frozen([0.0]),
        turns=frozen([0.0]),
        thickness=face.thickness,
    )
    reach = frame.across(face.outline)[:, 1]
    ends = float(reach.min()), float(reach.max())
    arcs: list[_Arc] = []
    for rolling in rollings:
        arc = _arc(name, rolling, face, (frame, ends))
        if isinstance(arc, Finding):
            return arc
        arcs.append(arc)
    arcs.sort(key=lambda arc: arc.start)
    roll = _overlap_mistake(name, arcs) or _with_arcs(frame, arcs)
    return roll if isinstance(roll, Finding) else _meets_itself(name, roll, first, ends) or roll


def _line_mistake(name: str, rolling: Rolling, first: Rolling) -> Finding | None:
    way = np.subtract(rolling.about[1], rolling.about[0])
    if np.abs(way).max() < _TOUCH:
        return bad_value(
            rolling.at,
            f"{name}: the line to roll about begins and ends at one point.",
            "A sheet is rolled about a straight line, given by two points of the flat pattern.",
            "Write two points that are apart, such as [[0, 250], [900, 250]].",
        )
    lead = unit(np.subtract(first.about[1], first.about[0]))
    x, y = unit(way)
    if abs(lead[0] * y - lead[1] * x) > _PARALLEL:
        return bad_value(
            rolling.at,
            f"{name}: this line to roll about is not parallel to the first.",
            "The rolls of one sheet are parallel; cones and sheet curved both ways are not supported.",
            "Write both lines in the same direction.",
        )
    return None


def _radius_mistake(name: str, rolling: Rolling, thickness: float) -> Finding | None:
    if rolling.radius >= thickness:
        return None
    return bad_value(
        rolling.at,
        f"{name}: a radius of {plain(rolling.radius)} is less than the thickness of {plain(thickness)}.",
        "The radius is that of the inside. Tighter than its own thickness a sheet is folded, not rolled "
        "(project choice).",
        "Check the radius and its unit.",
    )


def _arc(name: str, rolling: Rolling, face: Flat, on: tuple[Roll, tuple[float, float]]) -> _Arc | Finding:
    """Return where the roll lies in s of the first line, as far as there is sheet."""
    frame, ends = on
    line = frame.across(np.array(rolling.about))
    middle, sense = float(line[0, 1]), float(np.sign(line[1, 0] - line[0, 0]))
    start, end = _said(rolling, face.thickness)
    if start >= end:
        return bad_value(
            rolling.at,
            f"{name}: the roll goes from {plain(start)} to {plain(end)}.",
            "From and to are distances from the line; to the left of it, looking from its first point to its "
            "second, they are positive, to the right negative. From is the smaller one.",
            "Exchange them, or correct their signs.",
        )
    # A line written the other way round has its left on the other side.
    low, high = sorted((middle + sense * start, middle + sense * end))
    low, high = max(low, ends[0]), min(high, ends[1])
    if high - low < _TOUCH:
        reach = sorted(sense * (end - middle) for end in ends)
        return bad_value(
            rolling.at,
            f"{name}: nothing of the sheet lies where it is rolled.",
            f"Seen from the line the sheet reaches from {plain(reach[0])} to {plain(reach[1])}, positive to "
            "the left of it.",
            "Correct about, from and to.",
        )
    towards = face.outside if rolling.side == "outside" else -face.outside
    return _Arc(start=low, end=high, sense=float(towards), roll=rolling)


def _said(rolling: Rolling, thickness: float) -> tuple[float, float]:
    """Return from and to, mm; infinite where nothing ends the roll."""
    if rolling.angle is None:
        start = -math.inf if rolling.start is None else rolling.start
        return start, math.inf if rolling.end is None else rolling.end
    length = math.radians(rolling.angle) * (rolling.radius + thickness / 2)
    if rolling.start is not None:
        return rolling.start, rolling.start + length
    if rolling.end is not None:
        return rolling.end - length, rolling.end
    return -length / 2, length / 2


def _overlap_mistake(name: str, arcs: list[_Arc]) -> Finding | None:
    for one, other in pairwise(arcs):
        if other.start < one.end - _TOUCH:
            return bad_value(
                other.roll.at,
                f"{name}: two rolls overlap by {plain(min(one.end, other.end) - other.start)}.",
                "Each strip of the sheet is rolled once.",
                "Write from and to, so that each roll ends where the next begins or before.",
            )
    return None


def _with_arcs(frame: Roll, arcs: list[_Arc]) -> Roll:
    lines: list[float] = []
    turns: list[float] = []
    turn = 0.0
    for arc in arcs:
        middle = arc.roll.radius + frame.thickness / 2
        cut = facet_lines(arc.roll.radius, frame.thickness, arc.start, arc.end)
        skip = 1 if lines and cut[0] - lines[-1] < _TOUCH else 0
        lines += cut[skip:].tolist()
        turns += (turn + arc.sense * (cut[skip:] - arc.start) / middle).tolist()
        turn = turns[-1]
    at_line = float(np.interp(0.0, lines, turns))
    return replace(frame, lines=frozen(lines), turns=frozen(np.array(turns) - at_line))


def _meets_itself(name: str, roll: Roll, first: Rolling, ends: tuple[float, float]) -> Finding | None:
    """Return a finding where the section of the rolled sheet runs into itself."""
    # Edges that just close a ring touch; a little is left off at both.
    start, end = ends[0] + TOLERANCE, ends[1] - TOLERANCE
    s = np.concatenate([[start], roll.lines[(roll.lines > start) & (roll.lines < end)], [end]])
    pattern = roll.origin + np.outer(s, roll.left)
    faces = [_section(roll, pattern, level) for level in (0.0, roll.thickness)]
    if shapely.Polygon(np.concatenate([faces[0], faces[1][::-1]])).is_valid:
        return None
    whole = math.degrees(float(np.abs(np.diff(roll.turns)).sum()))
    return bad_value(
        first.at,
        f"{name}: rolled by {plain(whole)} degrees in all, the sheet runs into itself.",
        "Once round takes pi x (2 x radius + thickness) of the flat pattern; flat ends meet before that. "
        "A skin that laps over itself is not supported.",
        "Enlarge the radius, or end the roll with from and to or a smaller angle.",
    )


def _section(roll: Roll, pattern: Array, level: float) -> Array:
    """Return the ``(n, 2)`` section of one face across the line."""
    points = roll.on_facets(pattern, level)
    return np.column_stack([(points[:, :2] - roll.origin) @ roll.left, points[:, 2]])
