"""Parts of their own length that take the holes of one flat from the row beneath."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.pose import Array
from seqviz.parts.drilling import flat_called, holes_on, off_the_flat
from seqviz.parts.hand import other_hand
from seqviz.parts.misplaced import misplaced
from seqviz.parts.mistakes import bad_value, duplicate_name, unknown_name
from seqviz.parts.part import Flat, Part, Worked
from seqviz.parts.rolled import rolled_holes
from seqviz.parts.sizes import HoleSize
from seqviz.parts.stock import row_of_points
from seqviz.parts.worked import worked_part
from seqviz.records.model import Name

__all__ = ["RowAlong", "with_row_along"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RowAlong:
    """The row that a part takes over, and where it lies on the part.

    Attributes
    ----------
    name, at
        Of the row, and the place in the file that asks for it.
    flat
        The flat that lies on it; None: the part's first.
    row_in
        mm from the outer corner, of a skin or plate from its right edge; None: in the middle of the flat.
    ends
        mm from the part's end to hole 1 (where it runs backwards to the last one); None: as much at both.
    distances
        ``(n,)``, mm, of holes 1 to n along the part from its first one; may run backwards from the last.
    sizes
        Of holes 1 to n.
    """

    name: str
    at: At
    flat: Name | None
    row_in: float | None
    ends: float | None
    distances: Array
    sizes: Sequence[HoleSize]


def with_row_along(part: Part, row: RowAlong) -> Part | Finding:
    """Return ``part`` with the holes of ``row``, or what is wrong with that."""
    if part.worked is not None:
        straight = with_row_along(part.worked.straight, row)
        return straight if isinstance(straight, Finding) else _worked_again(part.worked, straight)
    flat = _flat(part, row)
    if isinstance(flat, Finding):
        return flat
    low, high = flat.outline.min(axis=0), flat.outline.max(axis=0)
    span = float(np.max(row.distances))
    start = low[0] + ((high[0] - low[0] - span) / 2 if row.ends is None else row.ends)
    places = np.column_stack([start + row.distances, np.full(len(row.distances), _across(part, flat, row))])
    record = row_of_points(row.name, places, row.at)
    sizes = dict(enumerate(row.sizes, start=1))
    off = off_the_flat(record, row.name, flat, places, sizes)
    if off is not None:
        return off
    taken = rolled_holes(holes_on(record, row.name, flat, places, sizes), part.flats, part.roll)
    return replace(part, holes=(*part.holes, *taken))


def _worked_again(worked: Worked, straight: Part) -> Part | Finding:
    """Return the straight part with its new holes as it is after the work on it."""
    wrong = misplaced(straight, worked.blank, worked.spine)
    if wrong:
        return wrong[0]
    if not straight.mirrored:
        return worked_part(straight, worked.blank, worked.spine)
    again = worked_part(other_hand(straight), worked.blank.other_hand, worked.spine.other_hand)
    return other_hand(again)


def _flat(part: Part, row: RowAlong) -> Flat | Finding:
    if not part.flats:
        return bad_value(
            row.at,
            f"{part.name} has no dimensions, so it cannot lie along {row.name}.",
            "Where the holes come to lie on the part follows from its flats.",
            "Give it a shape, or name it in rows.",
        )
    flat = next(iter(part.flats.values())) if row.flat is None else flat_called(row.flat.text, part.flats)
    if flat is None:
        assert row.flat is not None
        return unknown_name(row.flat.at, "flat", row.flat.text, list(part.flats))
    own = [hole for hole in part.holes if hole.flat == flat.name]
    if own:
        return bad_value(
            row.at,
            f"{part.name} has holes of its own on {flat.name}: {own[0].row}.",
            "`along` gives a flat without holes those of the row beneath.",
            "Write match: {ROW.N: PLACED.ROW.N}, or name another flat.",
        )
    if any(hole.row == row.name for hole in part.holes):
        return duplicate_name(
            row.at,
            f"{part.name} has a row {row.name} already, and would get another one from beneath.",
            "Every row of a part has a name of its own.",
            "Call one of the two rows something else.",
        )
    return flat


def _across(part: Part, flat: Flat, row: RowAlong) -> float:
    """Return the y of the row, mm, coordinates of ``flat``."""
    low, high = float(flat.outline[:, 1].min()), float(flat.outline[:, 1].max())
    if row.row_in is None:
        return (low + high) / 2
    sense = -1.0 if part.mirrored else 1.0
    # On legs and bars y counts from the outer corner; outlines may be drawn anywhere.
    edge = (high if part.mirrored else low) if flat.name == "face" else 0.0
    return edge + sense * row.row_in
