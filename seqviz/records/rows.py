"""Rows of holes: the table of their words, and how the three layouts are told apart."""

from __future__ import annotations

import math
from typing import Any

from seqviz.findings import At
from seqviz.records.holes import NUMBERS
from seqviz.records.kinds import Choice, Length, NameText, Whole, YesNo
from seqviz.records.lists import Entries, ListOf, NameList, Numbers, OneName
from seqviz.records.model import AlongEdge, FromTo, OtherSize, Points, Row, Spacing
from seqviz.records.nodes import Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Record, Values

__all__ = ["EDGES", "POINT", "ROUNDING", "hole_count", "row_record", "rows_on"]

EDGES = ("left edge", "right edge", "forward edge", "aft edge")
ROUNDING = 0.01
"""mm: how far a row's length may be off a whole number of pitches, for pitches written with two decimals."""

POINT = Numbers(count=2)
_SPACING = ("count", "pitch", "spaces")
_LAYOUTS = {"from": ("from", "to"), "along": ("along", "in", "first", "last in"), "at": ("at",)}


def _row(reading: Reading, values: Values) -> Row | None:
    if values.failed:
        return None
    layout = _layout(reading, values)
    exceptions = _exceptions(reading, values)
    if layout is None or exceptions is None or not _one_size(reading, values):
        return None
    return Row(
        name=values.name,
        flat=values.get("flat"),
        layout=layout,
        size=values.get("size"),
        diameter=values.get("diameter"),
        exceptions=exceptions,
        skip=values.get("skip", ()),
        crosses=values.get("crosses", ()),
        both_sides=values.get("both sides", False),
        at=reading.at(values.place),
    )


def _layout(reading: Reading, values: Values) -> FromTo | AlongEdge | Points | None:
    """Return the row's layout; its first word says which of the three it is."""
    begun = [word for word in _LAYOUTS if any(values.has(part) for part in _LAYOUTS[word])]
    if not begun:
        reading.report(
            "missing-word",
            values.place,
            "Where the holes lie is missing.",
            "A row goes from a point to a point, along an edge, or from point to point.",
            "Add from and to, or along, in and first, or at: [[x, y], ..].",
        )
        return None
    if len(begun) > 1:
        second = next(word for word in reversed(list(values.keys)) if word in _LAYOUTS[begun[1]])
        reading.bad(
            values.keys[second],
            f"`{second}` does not go with `{begun[0]}`.",
            "A row is written in one of three ways: from and to; along an edge; point by point with at.",
            "Keep one of them.",
        )
        return None
    if not _complete(reading, values, begun[0]):
        return None
    if begun[0] == "from":
        return _from_to(reading, values)
    return _along(reading, values) if begun[0] == "along" else _points(reading, values)


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


def _points(reading: Reading, values: Values) -> Points | None:
    for word in _SPACING:
        if values.has(word):
            reading.bad(
                values.keys[word], f"`{word}` does not go with `at`.", "Each point is a hole.", "Delete it."
            )
            return None
    return Points(points=values.get("at"))


def _one_size(reading: Reading, values: Values) -> bool:
    size, diameter = values.has("size"), values.has("diameter")
    if size and diameter:
        reading.bad(
            values.keys["diameter"],
            "`diameter` says again what `size` says.",
            "A row has a size by name, or a diameter.",
            "Delete one of them.",
        )
    elif not size and not diameter:
        reading.report(
            "missing-word",
            values.place,
            "`size` is missing.",
            "A row says how wide its holes are: a name in sizes, or a diameter.",
            "Add size or diameter.",
        )
    return size != diameter


def _exceptions(reading: Reading, values: Values) -> tuple[OtherSize, ...] | None:
    found: list[OtherSize] = []
    seen: dict[str, Scalar] = {}
    wrong = False
    for key, value in values.extra:
        text = key.text.strip()
        if text in seen:
            reading.duplicate(f"`{text}`", key, seen[text])
            wrong = True
            continue
        seen[text] = key
        size = _SIZE_OR_NONE.read(reading, value)
        wrong = wrong or size is None
        first, last = (int(end) for end in (text.split("-") * 2)[:2])
        none = size is not None and size.lower() == "none"
        found.append(OtherSize(first=first, last=last, size=None if none else size, at=reading.at(value)))
    return None if wrong else tuple(found)


def hole_count(row: Row) -> int | None:
    """Return how many places a row has, skipped ones among them; None where its edge decides."""
    layout = row.layout
    if isinstance(layout, Points):
        return len(layout.points)
    spacing = layout.spacing
    if spacing.count is not None:
        return spacing.count
    if spacing.spaces is not None:
        return spacing.spaces + 1
    if isinstance(layout, FromTo) and spacing.pitch:
        return round(math.dist(layout.start, layout.end) / spacing.pitch) + 1
    return None


_SIZE_OR_NONE = NameText(label="a name in sizes, or none")


def row_record(flats: tuple[str, ...], flat_needed: bool) -> Record:
    """Return the table of a row on a part with these ``flats``."""
    return Record(
        title="a row of holes",
        help="Holes are numbered from 1. A row is written from a point to a point, along an edge, or point by point. "
        "A key `N` or `N-M` gives those holes another size, or `none`.",
        fields=(
            Field(
                word="flat",
                kind=Choice(words=flats, label="a flat of this part", mistake="unknown-name"),
                help="The flat it lies on; parts with one flat need none.",
                required=flat_needed,
            ),
            Field(word="from", kind=POINT, help="The first hole."),
            Field(word="to", kind=POINT, help="The last hole."),
            Field(
                word="along",
                kind=Choice(words=EDGES, label="an edge"),
                help="The edge of the outline that it follows.",
            ),
            Field(word="in", kind=Length(low=0.0), help="How far in from that edge."),
            Field(
                word="first", kind=Length(low=0.0), help="The first hole, from the edge's aft or right end."
            ),
            Field(word="last in", kind=Length(low=0.0), help="The last hole, from the edge's other end."),
            Field(word="count", kind=Whole(), help="How many holes."),
            Field(word="pitch", kind=Length(above=0.0), help="From hole to hole."),
            Field(word="spaces", kind=Whole(), help="One less than holes."),
            Field(
                word="at",
                kind=ListOf(each=POINT, label="a list of points [[x, y], ..]"),
                help="The holes one by one.",
            ),
            Field(word="size", kind=OneName, help="A name in `sizes`."),
            Field(word="diameter", kind=Length(above=0.0), help="Instead of a size."),
            Field(
                word="skip",
                kind=ListOf(each=Whole(), label="a list of hole numbers"),
                help="Places without a hole; the numbers of the others stay.",
            ),
            Field(word="crosses", kind=NameList, help="Placed parts whose walls one bolt goes through."),
            Field(
                word="both sides",
                kind=YesNo(),
                help="On the base: makes `NAME left` and `NAME right` about the mirror line.",
            ),
        ),
        build=_row,
        not_yet=("grid", "columns", "rows", "across at", "from centre", "pilot", "punched", "measured to"),
        extra=NUMBERS,
        extra_kind=_SIZE_OR_NONE,
    )


def rows_on(flats: tuple[str, ...], flat_needed: bool) -> Entries:
    """Return the kind of ``holes`` of a part with these ``flats``."""
    record = row_record(flats, flat_needed)

    def entry(reading: Reading, name: str, key: Scalar, value: Node) -> Any | None:
        if name.isdigit():
            reading.bad(
                key,
                f"A row cannot be called `{name}`.",
                "A row's name is not only digits, so that it is not taken for a hole's number.",
                "Add a word: `row 3`.",
            )
            return None
        return record.read_at(reading, value, key)

    return Entries(entry=entry, value=record, label="rows of holes by name")
