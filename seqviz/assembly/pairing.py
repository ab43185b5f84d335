"""From the words of an entry to pairs of holes: ``match`` hole by hole, ``along`` a whole row."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from seqviz.assembly import mistakes
from seqviz.assembly.directions import UP
from seqviz.assembly.entries import Entry, own_placed, own_row, two_meant
from seqviz.assembly.fastening import fastener_of_size, thickness_of
from seqviz.assembly.fitting import Pair, default_face, hole_axis_of_side
from seqviz.assembly.site import Site
from seqviz.assembly.structure import PlacedPart
from seqviz.findings import Finding
from seqviz.geometry.pose import Array, unit
from seqviz.parts.along import RowAlong, with_row_along
from seqviz.parts.make import part_from_stock
from seqviz.parts.part import Hole, Part
from seqviz.parts.sizes import HoleSize
from seqviz.records.model import HoleChoice, Name

__all__ = ["pairs_of", "part_along", "stock_part", "targets_of"]

BENT = 0.1
"""mm: holes of a row that stray farther from its straight line cannot guide a straight piece."""


def targets_of(entry: Entry, known: dict[str, Entry], base: str) -> tuple[str, ...]:
    """Return the placed parts that the entry's holes lie on."""
    record = entry.record
    choices = [m.target for m in record.match] + ([record.along] if record.along else [])
    names = [name for c in choices for name in own_placed(c.placed, entry, known, base)]
    return tuple(dict.fromkeys(names))


def _target_holes(
    choice: HoleChoice, entry: Entry, site: Site
) -> tuple[PlacedPart, list[Hole]] | Finding | None:
    """Return the part and the holes that ``choice`` means, a finding, or None where a part is not there."""
    names = own_placed(choice.placed, entry, site.known, site.base)
    if len(names) > 1:
        return two_meant(choice, names)
    if not names or names[0] not in site.placed:
        return None
    target = site.placed[names[0]]
    rows = own_row(choice.row, entry, target.part.twins)
    if len(rows) > 1:
        return two_meant(choice, tuple(f"{names[0]}.{row}" for row in rows))
    holes = list(target.rows.get(rows[0], ())) if rows else []
    filled = _set_inside(choice, target, rows)
    if filled is not None:
        return filled
    if not holes:
        return None
    if choice.first is not None and choice.last is not None:
        low, high = sorted((choice.first, choice.last))
        holes = [h for h in holes if low <= h.number <= high]
        if not holes:
            return mistakes.no_such_hole(choice, f"{names[0]}.{rows[0]}")
    return target, holes


def _set_inside(choice: HoleChoice, target: PlacedPart, rows: tuple[str, ...]) -> Finding | None:
    """Return a finding where a hole is meant in which a fastener is set already, within another model."""
    low, high = sorted((choice.first or 0, choice.last or 0))
    for hole, file in target.part.filled.items():
        row, _, number = hole.rpartition(".")
        if row in rows and (choice.first is None or low <= int(number) <= high):
            return mistakes.set_inside(choice.at, f"{target.name}.{hole}", file)
    return None


def pairs_of(entry: Entry, part: Part, site: Site) -> tuple[list[Pair], Finding | None]:
    """Return the pairs of holes that place ``part``; none where something it needs is missing."""
    if entry.record.along is not None:
        return _along_pairs(entry, part, site)
    pairs: list[Pair] = []
    for match in entry.record.match:
        found = _target_holes(match.target, entry, site)
        if found is None or isinstance(found, Finding):
            return [], found
        target, holes = found
        rows = own_row(match.row, entry, part.twins) if part.members else (match.row,)
        if len(rows) > 1:
            return [], two_meant(
                Name(text=match.row, at=match.at), tuple(f"{row}.{match.number}" for row in rows)
            )
        own = [h for h in part.holes if h.row == rows[0] and h.number == match.number]
        if not own:
            return [], mistakes.no_own_hole(entry, replace(match, row=rows[0]), part)
        pairs.append(_pair(entry, part, own[0], (target, holes[0]), site))
    return pairs, None


def _along_pairs(entry: Entry, part: Part, site: Site) -> tuple[list[Pair], Finding | None]:
    assert entry.record.along is not None
    found = _target_holes(entry.record.along, entry, site)
    if found is None or isinstance(found, Finding):
        return [], found
    target, holes = found
    taken = [hole for hole in part.holes if hole.row == entry.record.along.row]
    return [
        _pair(entry, part, own, (target, hole), site) for own, hole in zip(taken, holes, strict=True)
    ], None


def _pair(entry: Entry, part: Part, own: Hole, on: tuple[PlacedPart, Hole], site: Site) -> Pair:
    target, hole = on
    face = entry.record.face or default_face(part, own)
    up = UP if target.name == site.base else None
    name = fastener_of_size(site.model, own.size) or fastener_of_size(site.model, hole.size)
    return Pair(
        own=own,
        target=hole,
        target_part=target,
        down=own.axis if face == "outside" else -own.axis,
        outward=hole_axis_of_side(target, hole, entry.record.side, up),
        fastener=thickness_of(site.model, name, min(own.diameter, hole.diameter)),
        slack=max(part.measured_to, target.part.measured_to),
    )


def stock_part(entry: Entry, site: Site, *, backwards: bool) -> Part | Finding | None:
    """Cut the piece of stock that lies along a row: its holes and its length.

    Hole ``k`` of its one row lies on the ``k``-th hole beneath; its x runs from the first hole to the last,
    or ``backwards``.
    """
    record = entry.record
    stock = site.model.stock.get(record.stock.text) if record.stock else None
    if stock is None or record.along is None:
        return None
    beneath = _beneath(record.along, entry, site, backwards=backwards)
    if beneath is None or isinstance(beneath, Finding):
        return beneath
    part = part_from_stock(
        stock,
        entry.name,
        record.along.row,
        record.at,
        *beneath,
    )
    measured = site.model.measured
    return part if part is None or measured is None else replace(part, measured_to=measured.to)


def part_along(entry: Entry, part: Part, site: Site, *, backwards: bool) -> Part | Finding | None:
    """Return ``part`` with the holes of the row that it lies along; its x runs as that of `stock_part`."""
    record = entry.record
    if record.along is None:
        return part
    beneath = _beneath(record.along, entry, site, backwards=backwards)
    if beneath is None or isinstance(beneath, Finding):
        return beneath
    distances, sizes = beneath
    row = RowAlong(
        name=record.along.row,
        at=record.at,
        flat=record.row_on,
        row_in=record.row_in,
        ends=record.ends,
        distances=distances,
        sizes=sizes,
    )
    return with_row_along(part, row)


def _beneath(
    along: HoleChoice, entry: Entry, site: Site, *, backwards: bool
) -> tuple[Array, list[HoleSize]] | Finding | None:
    """Return how far apart the holes of the row beneath are, from its first or last, and their sizes."""
    found = _target_holes(along, entry, site)
    if found is None or isinstance(found, Finding):
        return found
    target, holes = found
    spots = target.pose.points(np.array([h.centre for h in holes]))
    if len(holes) < 2:
        return mistakes.short_row(along)
    line = unit(spots[-1] - spots[0])
    distances = (spots - spots[0]) @ line
    if np.abs(spots - spots[0] - np.outer(distances, line)).max() > BENT:
        return mistakes.bent_row(along)
    if backwards:
        distances = distances[-1] - distances
    return distances, [HoleSize(diameter=h.diameter, name=h.size) for h in holes]
