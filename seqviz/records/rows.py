"""Rows of holes: the table of their words, their sizes and their exceptions."""

from __future__ import annotations

from typing import Any

from seqviz.records.hole_widths import HoleWidth, OneSize, SizeName
from seqviz.records.holes import NUMBERS
from seqviz.records.kinds import Choice, Length, NameText, Whole, YesNo
from seqviz.records.lists import Entries, ListOf, NameList, Numbers, OneOrMore
from seqviz.records.model import OtherSize, Row
from seqviz.records.nodes import Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.row_layout import layout_of
from seqviz.records.tables import Field, Record, Values

__all__ = ["EDGES", "POINT", "SUNK", "one_size", "other_sizes", "row_record", "rows_on"]

EDGES = ("left edge", "right edge", "forward edge", "aft edge")
POINT = Numbers(count=2)
SUNK = "yes: the manufactured head lies flush in the layer under it. Left out: as the size says."
_SUNK_HERE = (
    "yes: the manufactured head lies flush in this part; what lies over it needs no hole there. no: it "
    "stands out. Left out: as the size says, in the layer under the head."
)


def _row(reading: Reading, values: Values) -> Row | None:
    if values.failed:
        return None
    layout = layout_of(reading, values)
    exceptions = other_sizes(reading, values.extra)
    if layout is None or exceptions is None or not one_size(reading, values):
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
        pilot=values.get("pilot"),
        punched=values.get("punched", True),
        pilot_at=reading.at(values.nodes["pilot"]) if values.has("pilot") else None,
        countersunk=values.get("countersunk"),
    )


def one_size(reading: Reading, values: Values) -> bool:
    """Say whether a row has a size or a diameter, and not both; note what is wrong."""
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


def other_sizes(reading: Reading, pairs: list[tuple[Scalar, Node]]) -> tuple[OtherSize, ...] | None:
    """Return what keys ``N`` and ``N-M`` say; None where one is wrong."""
    found: list[OtherSize] = []
    seen: dict[str, Scalar] = {}
    wrong = False
    for key, value in pairs:
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


_SIZE_OR_NONE = SizeName(label="a name in sizes, or none")


_FIELDS = (
    Field(word="from", kind=POINT, help="The first hole."),
    Field(word="to", kind=POINT, help="The last hole."),
    Field(
        word="along",
        kind=Choice(words=(*EDGES, "free edge"), label="an edge"),
        help="The edge that it follows: of the outline, or the free edge of a leg, flange or foot, from the "
        "end where x begins.",
    ),
    Field(word="in", kind=Length(low=0.0), help="How far in from that edge."),
    Field(word="first", kind=Length(low=0.0), help="The first hole, from the edge's aft or right end."),
    Field(word="last in", kind=Length(low=0.0), help="The last hole, from the edge's other end."),
    Field(word="count", kind=Whole(), help="How many holes."),
    Field(word="pitch", kind=Length(above=0.0), help="From hole to hole."),
    Field(word="spaces", kind=Whole(), help="One less than holes."),
    Field(
        word="at",
        kind=OneOrMore(each=POINT, label="a point [x, y] or a list of points [[x, y], ..]"),
        help="The holes one by one; of a grid hole 1.",
    ),
    Field(
        word="across at",
        kind=Length(),
        help="A row square to forward: where it lies along forward. It is symmetric about the mirror line "
        "and runs from right to left.",
    ),
    Field(
        word="from centre",
        kind=Length(low=0.0),
        help="Of a row across: how far its first and last hole are from the mirror line.",
    ),
    Field(
        word="grid",
        kind=Numbers(count=2, label="two pitches [along x, along y]"),
        help="A field of holes: the pitches along x and y; minus runs the other way.",
    ),
    Field(
        word="columns", kind=Whole(low=1), help="Of a grid: how many holes along x; they are counted first."
    ),
    Field(word="rows", kind=Whole(low=1), help="Of a grid: how many such rows along y."),
    Field(word="size", kind=OneSize, help="A name in `sizes`."),
    Field(word="diameter", kind=HoleWidth(), help="Instead of a size."),
    Field(
        word="pilot",
        kind=HoleWidth(),
        help="The diameter that is there at first; a step `drill` opens the holes to their size.",
    ),
    Field(
        word="punched",
        kind=YesNo(),
        help="no: the holes are not there at first; a step `drill` makes them. Left out: yes.",
    ),
    Field(word="countersunk", kind=YesNo(), help=_SUNK_HERE),
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
)


def row_record(flats: tuple[str, ...], flat_needed: bool) -> Record:
    """Return the table of a row on a part with these ``flats``; none: the part names its own."""
    label = "a flat of this part"
    flat = Choice(words=flats, label=label, mistake="unknown-name") if flats else NameText(label=label)
    return Record(
        title="a row of holes",
        help="Holes are numbered from 1. A row goes from point to point, along an edge, across the part, "
        "over a grid, or hole by hole. A key `N` or `N-M` gives those holes another size, or `none`.",
        fields=(
            Field(
                word="flat",
                kind=flat,
                help="The flat it lies on; parts with one flat need none.",
                required=flat_needed,
            ),
            *_FIELDS,
        ),
        build=_row,
        not_yet=("measured to",),
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
