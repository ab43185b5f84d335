"""Frames: flanged ribs and bulkheads, a web of any outline with flanges along some of its sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np
import shapely

from seqviz.findings import At, Finding
from seqviz.geometry.polygons import anticlockwise, convex_pieces, is_anticlockwise
from seqviz.geometry.pose import IDENTITY, Array, Pose, frozen
from seqviz.geometry.prism import Piece, Prism
from seqviz.geometry.separation import GUARD, TOLERANCE, deepest
from seqviz.geometry.solids import solids_of
from seqviz.parts.body import NARROWEST, Body, too_narrow
from seqviz.parts.frame_corners import Plan, planned
from seqviz.parts.frame_lip import Ring, ring_round
from seqviz.parts.frame_sides import Bent, Side, sides_of
from seqviz.parts.mistakes import bad_value, duplicate_name
from seqviz.parts.part import Flat
from seqviz.parts.sheet import opening_ring, outline_mistake, ring_of
from seqviz.records.model import FrameShape, Opening

__all__ = ["frame_body"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Standing:
    """What stands on the web at one place: a flange with its bend, or a lip, and where it is written.

    ``on_sheet`` is its region (mm, the web's x and y) while the sheet is flat, None of a lip.
    """

    name: str
    bend: tuple[Piece, ...]
    wall: tuple[Piece, ...]
    at: At
    flat: Flat | None = None
    on_sheet: shapely.Polygon | None = None


def frame_body(name: str, shape: FrameShape, at: At, forward: str) -> Body | Finding:
    """Return the body of a frame, or the first mistake in its description.

    The part's frame is the one in which the outline is written; the web fills 0 <= z <= thickness. Its
    outside is +z where the outline is written anticlockwise, else -z. The outline is that of the mould lines:
    where a side has a flange the flat of the web ends at the bend, and ``drawn`` keeps the outline. A flange
    has x along its side from the corner of the outline where it begins, y from the mould line to its free
    edge; its outside is the outer side of the bend. Pieces: the web, bend and flange of each side, the lips.
    """
    ring = ring_of(shape.outline)
    mistake = too_narrow(at, name, {"thickness": shape.thickness}) or outline_mistake(ring, at, name)
    if mistake:
        return mistake
    sides = sides_of(name, shape, ring, forward)
    if isinstance(sides, Finding):
        return sides
    plan = planned(name, sides, shape.thickness, at)
    if isinstance(plan, Finding):
        return plan
    outside = 1 if is_anticlockwise(ring) else -1
    lips = _web_mistake(name, plan.web, at) or _lips(name, shape, outside)
    if isinstance(lips, Finding):
        return lips
    openings = _openings(name, shape.openings, lips, plan.web)
    if isinstance(openings, Finding):
        return openings
    web = Flat(
        name="web",
        frame=IDENTITY,
        thickness=shape.thickness,
        outside=outside,
        outline=frozen(plan.web),
        openings=tuple(frozen(opening) for opening in openings),
        drawn=frozen(anticlockwise(ring)),
    )
    standing = [*_flanges(shape, sides, plan), *(_lip(shape, lips, index) for index in lips)]
    return _doubled(name, standing) or _meeting(name, web, standing) or _body(web, standing)


def _flanges(shape: FrameShape, sides: list[Side], plan: Plan) -> list[_Standing]:
    return [
        _flange(side, side.bent, ends, shape.thickness)
        for side, ends in zip(sides, plan.relieved, strict=True)
        if side.bent
    ]


def _flange(side: Side, bent: Bent, relieved: tuple[float, float], thickness: float) -> _Standing:
    low, high = relieved[0], side.length - relieved[1]
    level = 0.0 if bent.up > 0 else thickness
    outward, upward = np.array([*-side.inward, 0.0]), np.array([0.0, 0.0, float(bent.up)])
    lengthwise = np.cross(outward, upward)
    # The section is pulled from the end at which its length begins.
    forward = float(lengthwise[:2] @ side.along) > 0
    start = side.start + side.along * (low if forward else high)
    pull = Pose(
        rotation=frozen(np.column_stack([outward, upward, lengthwise])), translation=frozen([*start, level])
    )
    quads = bent.section.quads
    pieces = tuple(
        Prism(polygon=frozen(_without_doubles(anticlockwise(quad))), height=high - low, frame=pull)
        for quad in quads
    )
    back, tip = bent.section.setback, bent.section.developed - bent.section.setback
    across = np.array([[low, -back], [high, -back], [high, tip], [low, tip]])
    on_sheet = side.start + across[:, :1] * side.along - across[:, 1:] * side.inward
    return _Standing(
        name=bent.flat,
        bend=pieces[:-1],
        wall=pieces[-1:],
        at=bent.record.at,
        flat=_flat(side, bent, (low, high), thickness),
        on_sheet=shapely.Polygon(on_sheet),
    )


def _flat(side: Side, bent: Bent, reach: tuple[float, float], thickness: float) -> Flat:
    """Return the flat of a flange: its x begins at a corner of the outline, its y at the mould line."""
    outer, inner = bent.section.outer, bent.section.inner
    level = 0.0 if bent.up > 0 else thickness
    outward, upward = np.array([*-side.inward, 0.0]), np.array([0.0, 0.0, float(bent.up)])
    axes = np.array([outward, upward])
    x = np.array([*(-side.along if bent.backward else side.along), 0.0])
    y = (outer[-1] - outer[-2]) @ axes / np.linalg.norm(outer[-1] - outer[-2])
    through = (inner[-1] - outer[-1]) @ axes
    z = np.cross(x, y)
    turned = float(z @ through) < 0
    corner = np.array([*(side.end if bent.backward else side.start), level]) + (through if turned else 0.0)
    low, high = (side.length - reach[1], side.length - reach[0]) if bent.backward else reach
    back, width = bent.section.setback, bent.record.width
    return Flat(
        name=bent.flat,
        frame=Pose(rotation=frozen(np.column_stack([x, y, z])), translation=frozen(corner)),
        thickness=thickness,
        outside=1 if turned else -1,
        outline=frozen([[low, back], [high, back], [high, width], [low, width]]),
    )


def _without_doubles(polygon: Array) -> Array:
    """Drop the corner that a bend that is sharp inside has twice."""
    apart = np.abs(polygon - np.roll(polygon, -1, axis=0)).max(axis=1) > 1e-9
    return np.asarray(polygon[apart])


def _web_mistake(name: str, web: Array, at: At) -> Finding | None:
    mistake = outline_mistake(web, at, name)
    return mistake and replace(
        mistake,
        message=f"{name}: nothing that holds together is left of the web between its bends.",
        why="The web ends where its bends begin: tan(angle / 2) x (bend radius + thickness) in.",
        fix="Make the web wider, or the bend radius smaller.",
    )


def _lips(name: str, shape: FrameShape, outside: int) -> dict[int, Ring] | Finding:
    rings: dict[int, Ring] = {}
    for index, opening in enumerate(shape.openings):
        if opening.lip is None:
            continue
        ring = ring_round(name, shape, opening, outside)
        if isinstance(ring, Finding):
            return ring
        rings[index] = ring
    return rings


def _lip(shape: FrameShape, lips: dict[int, Ring], index: int) -> _Standing:
    ring, opening = lips[index], shape.openings[index]
    at = opening.lip.at if opening.lip else opening.at
    return _Standing(name=f"the lip of opening {opening.name}", bend=ring.bend, wall=ring.wall, at=at)


def _openings(
    name: str, records: Sequence[Opening], lips: dict[int, Ring], web: Array
) -> list[Array] | Finding:
    """Return the openings of the web's flat, or the first that does not lie on it."""
    sheet = shapely.Polygon(web)
    found: list[Array] = []
    for index, record in enumerate(records):
        ring = lips[index].opening if index in lips else opening_ring(record)
        if isinstance(ring, Finding):
            return ring
        with_lip = " with the bend of its lip" if index in lips else ""
        if not sheet.contains_properly(shapely.Polygon(ring)):
            return bad_value(
                record.at,
                f"{name}: opening {record.name}{with_lip} reaches an edge or a bend of the web.",
                "An opening has flat material all round; a notch belongs to the outline.",
                "Move it or make it smaller.",
            )
        for other, earlier in zip(found, records, strict=False):
            if shapely.Polygon(ring).intersects(shapely.Polygon(other)):
                return bad_value(
                    record.at,
                    f"{name}: opening {record.name}{with_lip} overlaps opening {earlier.name}.",
                    "Each opening has flat material all round.",
                    "Move one of them, or make it smaller.",
                )
        found.append(ring)
    return found


def _doubled(name: str, standing: list[_Standing]) -> Finding | None:
    """Return a finding where two flats would have one name, such as `nose 2` and the second of `nose`."""
    seen: set[str] = set()
    for one in standing:
        if one.flat and one.name in seen:
            return duplicate_name(
                one.at,
                f"{name}: two flanges would be called {one.name}.",
                "The pieces of a flange along several sides are numbered.",
                "Give one of the flanges another name.",
            )
        seen.add(one.name)
    return None


def _meeting(name: str, web: Flat, standing: list[_Standing]) -> Finding | None:
    """Return a finding where flanges or lips run into each other or into the web."""
    solids = [solids_of([*one.bend, *one.wall]) for one in standing]
    slab = solids_of(_slab(web))
    for i, j in combinations(range(len(standing)), 2):
        if deepest(solids[i], solids[j]) > TOLERANCE + GUARD:
            return _run_together(name, standing[j], standing[i].name)
    for one, solid in zip(standing, solids, strict=True):
        if deepest(solid, slab) > TOLERANCE + GUARD:
            return _run_together(name, one, "the web")
    flat = [(one, one.on_sheet) for one in standing if one.on_sheet is not None]
    for (one, region), (other, beside) in combinations(flat, 2):
        if _overlap(region, beside):
            return _no_sheet(name, other, one.name)
    sheet = shapely.Polygon(web.outline)
    return next((_no_sheet(name, one, "the web") for one, region in flat if _overlap(region, sheet)), None)


def _overlap(one: shapely.Polygon, other: shapely.Polygon) -> bool:
    return not shapely.intersection(one, other).buffer(-NARROWEST / 8).is_empty


def _run_together(name: str, one: _Standing, other: str) -> Finding:
    return bad_value(
        one.at,
        f"{name}: {one.name} and {other} run into each other.",
        "Two pieces of one part cannot be in one place.",
        "Make one of them narrower, open its bend, or turn it to the other side of the web.",
    )


def _no_sheet(name: str, one: _Standing, other: str) -> Finding:
    return bad_value(
        one.at,
        f"{name}: {one.name} and {other} would lie over each other in the flat sheet.",
        "A frame is bent from one sheet: flat, each of its pieces needs a place of its own.",
        "Make one of them narrower, or give more relief.",
    )


def _slab(web: Flat) -> list[Prism]:
    return [
        Prism(polygon=frozen(piece), height=web.thickness, frame=IDENTITY)
        for piece in convex_pieces(web.outline, web.openings)
    ]


def _body(web: Flat, standing: list[_Standing]) -> Body:
    pieces: list[Piece] = [*_slab(web)]
    names: list[str | None] = ["web"] * len(pieces)
    flats = {"web": web}
    for one in standing:
        pieces += [*one.bend, *one.wall]
        # The wall of a lip belongs to the web: it is no bend that another part may ride on.
        names += [*(None for _ in one.bend), *((one.name if one.flat else "web") for _ in one.wall)]
        if one.flat:
            flats[one.name] = one.flat
    return Body(flats=flats, pieces=tuple(pieces), piece_flats=tuple(names))
