"""The builder's tools: how much room each takes behind the fastener."""

from __future__ import annotations

from seqviz.records.kinds import Angle, Choice, Length, Text, Whole
from seqviz.records.lists import Entries, ListOf, Numbers
from seqviz.records.reading import Reading
from seqviz.records.steps import BodyPiece, Reach, Tool
from seqviz.records.tables import Field, Record, Values, by_name

__all__ = ["TOOLS"]

_LONG = Length(above=0.0)


def _piece(reading: Reading, values: Values) -> BodyPiece | None:
    if values.failed:
        return None
    round_one, box = values.has("cylinder"), values.has("box")
    if round_one and box:
        reading.bad(
            values.keys["box"],
            "`box` does not go with `cylinder`.",
            "A piece of a tool is round or square.",
            "Write two pieces.",
        )
        return None
    if not round_one and not box:
        reading.report(
            "missing-word",
            values.place,
            "`cylinder` or `box` is missing.",
            "A piece of a tool is round (cylinder: diameter) or square (box: [width, depth]).",
            "Add one of the two.",
        )
        return None
    start, end = values.get("from"), values.get("to")
    if end <= start:
        reading.bad(
            values.nodes["to"],
            "The piece ends before it begins.",
            "`from` and `to` are distances from the stack along the fastener.",
            "Write a `to` that is more than `from`.",
        )
        return None
    return BodyPiece(
        start=start,
        end=end,
        diameter=values.get("cylinder"),
        box=values.get("box"),
        offset=values.get("offset", 0.0),
    )


def _reach(_reading: Reading, values: Values) -> Reach | None:
    if values.failed:
        return None
    usual = Reach()
    return Reach(
        diameter=values.get("diameter", usual.diameter),
        length=values.get("length", usual.length),
        along=values.get("along", usual.along),
    )


def _goes_with_kind(reading: Reading, values: Values) -> bool:
    """Say whether ``end`` and ``swing`` go with what the tool sets; note what does not."""
    kind = values.get("for")
    for word, kinds, why in (
        ("end", ("solid rivet", "bolt"), "A blind rivet is pulled from its head."),
        ("swing", ("bolt",), "Only a wrench turns while it works."),
    ):
        if values.has(word) and kind not in kinds:
            reading.bad(values.keys[word], f"`{word}` does not go with `{kind}`.", why, "Delete it.")
            return False
    return True


def _tool(reading: Reading, values: Values) -> Tool | None:
    if values.failed or not _goes_with_kind(reading, values):
        return None
    return Tool(
        name=values.name,
        kind=values.get("for"),
        body=values.get("body"),
        turns=values.get("turns", 1),
        tilt=values.get("tilt", 0.0),
        reach=values.get("reach", Reach()),
        end=values.get("end", "either"),
        swing=values.get("swing", 0.0),
        note=values.get("note"),
        at=reading.at(values.place),
    )


_PIECE = Record(
    title="a piece of a tool",
    help="It stands along the axis of the fastener, in the middle of it or beside it.",
    fields=(
        Field(word="cylinder", kind=_LONG, help="Its diameter."),
        Field(
            word="box",
            kind=Numbers(count=2, each=_LONG, label="two lengths [width, depth]"),
            help="Its width and depth, square to the fastener.",
        ),
        Field(word="from", kind=Length(low=0.0), help="Where it begins, from the stack.", required=True),
        Field(word="to", kind=_LONG, help="Where it ends.", required=True),
        Field(
            word="offset",
            kind=Length(low=0.0),
            help="How far its middle is beside the axis, such as the handle of a wrench or the hammer behind "
            "an offset set; left out: 0. It turns with the tool; the width of a box lies in that direction.",
        ),
    ),
    build=_piece,
)
_REACH = Record(
    title="a reach",
    help="The straight way of hand and arm to the tool's back end.",
    fields=(
        Field(word="diameter", kind=_LONG, help="100 mm where it is left out."),
        Field(word="length", kind=_LONG, help="600 mm where it is left out."),
        Field(
            word="along",
            kind=Choice(words=("axis", "across", "any"), label="a direction"),
            help="Where the arm comes from: along the axis (where it is left out), across it, or any.",
        ),
    ),
    build=_reach,
)
_TOOL = Record(
    title="a tool",
    help="Its body stands on the stack, along the fastener. A blind rivet needs one end free for the tool "
    "and room for its tail, a solid rivet a tool at both ends, a bolt a straight way in, a tool that turns "
    "at one end and a tool that holds at the other. Where a file names no tools a typical set serves: "
    "[tools](tools.md) has it, and how to measure your own. The first in the list that fits is the one "
    "that is told. Only parts are in a tool's way: neighbouring heads and pins never are.",
    fields=(
        Field(
            word="for",
            kind=Choice(
                words=("blind rivet", "solid rivet", "bolt"),
                label="a kind of fastener",
            ),
            help="`blind rivet`, `solid rivet` or `bolt`.",
            required=True,
        ),
        Field(
            word="body",
            kind=ListOf(each=_PIECE, label="a list of pieces"),
            help="Its pieces, from the stack outwards.",
            required=True,
        ),
        Field(
            word="turns",
            kind=Whole(low=1, high=72),
            help="In how many ways it can be turned about the fastener; left out: 1.",
        ),
        Field(word="tilt", kind=Angle(low=0.0, high=5.0), help="How far it may be tilted; left out: 0."),
        Field(word="reach", kind=_REACH, help="The room for hand and arm behind it."),
        Field(
            word="end",
            kind=Choice(words=("head", "tail", "either"), label="an end of the fastener"),
            help="Of a tool for solid rivets or bolts: the end at which it works, such as head for a hammer "
            "and tail for a bar; left out: either.",
        ),
        Field(
            word="swing",
            kind=Angle(low=0.0, high=360.0),
            help="Of a wrench: how far it must have room to turn, from one of its turns, where it is the one "
            "that turns; left out: 0.",
        ),
        Field(word="note", kind=Text(), help="Such as `typical, measure your own`."),
    ),
    build=_tool,
)

TOOLS = Entries(entry=by_name(_TOOL), value=_TOOL, label="tools by name")
"""``tools``."""
