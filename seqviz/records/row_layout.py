"""How the holes of a row lie: from point to point, along an edge, across, over a grid, or one by one."""

from __future__ import annotations

import math
from collections.abc import Callable

from seqviz.findings import At
from seqviz.records.model import Across, AlongEdge, FromTo, Grid, Points, Row, Spacing
from seqviz.records.reading import Reading
from seqviz.records.tables import Values

__all__ = ["ROUNDING", "Layout", "hole_count", "hole_numbers", "layout_of"]

ROUNDING = 0.01
"""mm: how far a row's length may be off a whole number of pitches, for pitches written with two decimals."""

_SPACING = ("count", "pitch", "spaces")
_LAYOUTS = {
    "from": ("from", "to"),
    "along": ("along", "in", "first", "last in"),
    "across at": ("across at", "from centre"),
    "grid": ("grid", "columns", "rows", "at"),
    "at": ("at",),
}

Layout = FromTo | AlongEdge | Across | Grid | Points


def layout_of(reading: Reading, values: Values) -> Layout | None:
    """Return the row's layout; its first word says which of the five it is."""
    begun = [word for word in _LAYOUTS if any(values.has(part) for part in _LAYOUTS[word])]
    if "grid" in begun:
        # `at` belongs to a grid where there is one, and alone makes none.
        begun.remove("grid" if set(values.keys).isdisjoint(("grid", "columns", "rows")) else "at")
    if not begun:
        reading.report(
            "missing-word",
            values.place,
            "Where the holes lie is missing.",
            "A row goes from point to point, along an edge, across the part, over a grid, or hole by hole.",
            "Add from and to, or along, in and first, or at: [[x, y], ..].",
        )
        return None
    if len(begun) > 1:
        second = next(word for word in reversed(list(values.keys)) if word in _LAYOUTS[begun[1]])
        reading.bad(
            values.keys[second],
            f"`{second}` does not go with `{begun[0]}`.",
            "A row is written in one way: from and to; along an edge; across at; grid; hole by hole with at.",
            "Keep one of them.",
        )
        return None
    if not _complete(reading, values, begun[0]):
        return None
    return _LAID_OUT[begun[0]](reading, values)


def _complete(reading: Reading, values: Values, way: str) -> bool:
    needed = [word for word in _LAYOUTS[way] if word != "last in" and not values.has(word)]
    for word in needed:
        reading.report(
            "missing-word",
            values.place,
            f"`{word}` is missing.",
            f"A row with `{next(said for said in values.keys if said in _LAYOUTS[way])}` needs it too.",
            f"Add `{word}: `.",
        )
    return not needed


def _spacing(reading: Reading, values: Values, most: int) -> Spacing | None:
    """Return the spacing, of which at most ``most`` words may be said."""
    said = [word for word in values.keys if word in _SPACING]
    if not said:
        reading.report(
            "missing-word",
            values.place,
            "How many holes there are is missing.",
            "A row between two ends needs its count, its pitch or its spaces.",
            "Add count, pitch or spaces.",
        )
        return None
    if len(said) > most or {"count", "spaces"} <= set(said):
        reading.bad(
            values.keys[said[1]],
            f"`{said[1]}` says again what `{said[0]}` says.",
            "Between two ends one of count, pitch and spaces is enough; of two one might be wrong.",
            "Delete one of them.",
        )
        return None
    return Spacing(
        count=values.get("count"),
        pitch=values.get("pitch"),
        spaces=values.get("spaces"),
        at=reading.at(values.nodes[said[0]]),
    )


def _from_to(reading: Reading, values: Values) -> FromTo | None:
    spacing = _spacing(reading, values, most=1)
    if spacing is None:
        return None
    start, end = values.get("from"), values.get("to")
    span = math.dist(start, end)
    if spacing.count == 1 and span > ROUNDING:
        reading.bad(
            spacing.at,
            f"One hole cannot lie at both ends, {span:g} mm apart.",
            "The first and the last hole of a row lie on its two ends.",
            "Write a count of 2 or more, or one hole as at: [[x, y]].",
        )
        return None
    if spacing.count != 1 and span <= ROUNDING:
        reading.bad(
            values.nodes["to"],
            "The row ends where it begins.",
            "Several holes need room between `from` and `to`.",
            "Correct one of the two, or write one hole as at: [[x, y]].",
        )
        return None
    if spacing.pitch is not None and not _whole(reading, spacing.pitch, span, spacing.at):
        return None
    return FromTo(start=start, end=end, spacing=spacing)


def _whole(reading: Reading, pitch: float, span: float, at: At) -> bool:
    spaces = round(span / pitch)
    if abs(spaces * pitch - span) <= ROUNDING:
        return True
    below = int(span / pitch)
    reading.bad(
        at,
        f"{span:g} mm is no whole number of pitches of {pitch:g} mm.",
        f"{max(below, 1)} make {max(below, 1) * pitch:g} mm, {below + 1 + (below == 0)} make "
        f"{(below + 1 + (below == 0)) * pitch:g} mm; the first and the last hole lie on the row's two ends.",
        "Correct the ends or the pitch, or give a count.",
    )
    return False


def _along(reading: Reading, values: Values) -> AlongEdge | None:
    open_ended = not values.has("last in")
    spacing = _spacing(reading, values, most=2 if open_ended else 1)
    if spacing is None:
        return None
    if open_ended and (spacing.pitch is None or (spacing.count is None and spacing.spaces is None)):
        reading.report(
            "missing-word",
            values.place,
            "`last in` is missing.",
            "A row along an edge ends at `last in` from the edge's end, or has both a pitch and a count.",
            "Add last in, or both pitch and count.",
        )
        return None
    return AlongEdge(
        edge=values.get("along"),
        inset=values.get("in"),
        first=values.get("first"),
        last_in=values.get("last in"),
        spacing=spacing,
        at=reading.at(values.nodes["along"]),
    )


def _across(reading: Reading, values: Values) -> Across | None:
    from_centre = values.get("from centre")
    spacing = _spacing(reading, values, most=1)
    if spacing is None or not _across_spaced(reading, values, spacing):
        return None
    at = reading.at(values.nodes["across at"])
    return Across(station=values.get("across at"), from_centre=from_centre, spacing=spacing, at=at)


def _across_spaced(reading: Reading, values: Values, spacing: Spacing) -> bool:
    span = 2 * values.get("from centre")
    if (hole_numbers(spacing, span) == 1) != (span <= ROUNDING):
        reading.bad(
            spacing.at,
            "One hole of a row across lies on the mirror line, several lie on both sides of it.",
            "The first and the last hole are both `from centre` away from the mirror line.",
            "Write `from centre: 0` with a count of 1, or correct one of the two.",
        )
        return False
    return spacing.pitch is None or _whole(reading, spacing.pitch, span, spacing.at)


def _grid(reading: Reading, values: Values) -> Grid | None:
    if not _counts_itself(reading, values, "grid", "Columns and rows say how many holes a grid has."):
        return None
    points = values.get("at")
    if len(points) != 1:
        reading.bad(
            values.nodes["at"],
            f"{len(points)} points stand here.",
            "A grid has one first hole; the others follow from the pitches.",
            "Write at: [x, y], the place of hole 1.",
        )
        return None
    return Grid(
        pitches=values.get("grid"), columns=values.get("columns"), rows=values.get("rows"), corner=points[0]
    )


def _points(reading: Reading, values: Values) -> Points | None:
    if not _counts_itself(reading, values, "at", "Each point is a hole."):
        return None
    return Points(points=values.get("at"))


def _counts_itself(reading: Reading, values: Values, layout: str, why: str) -> bool:
    """Say whether no spacing is written where the layout tells how many holes there are."""
    for word in _SPACING:
        if values.has(word):
            reading.bad(values.keys[word], f"`{word}` does not go with `{layout}`.", why, "Delete it.")
            return False
    return True


_LAID_OUT: dict[str, Callable[[Reading, Values], Layout | None]] = {
    "from": _from_to,
    "along": _along,
    "across at": _across,
    "grid": _grid,
    "at": _points,
}


def hole_count(row: Row) -> int | None:
    """Return how many places a row has, skipped ones among them; None where its edge decides."""
    layout = row.layout
    if isinstance(layout, Points):
        return len(layout.points)
    if isinstance(layout, Grid):
        return layout.columns * layout.rows
    if isinstance(layout, FromTo):
        return hole_numbers(layout.spacing, math.dist(layout.start, layout.end))
    return hole_numbers(layout.spacing, 2 * layout.from_centre if isinstance(layout, Across) else None)


def hole_numbers(spacing: Spacing, span: float | None) -> int | None:
    """Return how many holes a spacing makes between two ends ``span`` mm apart, None where that is open."""
    if spacing.count is not None:
        return spacing.count
    if spacing.spaces is not None:
        return spacing.spaces + 1
    return round(span / spacing.pitch) + 1 if span is not None and spacing.pitch else None
