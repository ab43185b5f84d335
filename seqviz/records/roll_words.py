"""``rolled``: how the flat pattern of a skin or plate is rolled to a radius."""

from __future__ import annotations

from seqviz.records.kinds import Angle, Choice, Length
from seqviz.records.lists import ListOf, Numbers
from seqviz.records.model import Rolling
from seqviz.records.reading import Reading
from seqviz.records.rows import POINT
from seqviz.records.tables import Field, Record, Values

__all__ = ["ROLLED"]


def _rolling(reading: Reading, values: Values) -> Rolling | None:
    if values.failed:
        return None
    if all(values.has(word) for word in ("from", "to", "angle")):
        reading.bad(
            values.keys["angle"],
            "`angle` does not go with both `from` and `to`.",
            "How far a roll goes is said once: from and to, or the angle with at most one of them.",
            "Leave one of the three out.",
        )
        return None
    return Rolling(
        radius=values.get("radius"),
        about=values.get("about"),
        start=values.get("from"),
        end=values.get("to"),
        angle=values.get("angle"),
        side=values.get("side", "inside"),
        at=reading.at(values.keys["radius"]),
    )


_ROLL = Record(
    title="a roll",
    help="The middle of the sheet keeps its length (neutral axis at half the thickness): by an angle A in "
    "degrees the roll takes up A x pi / 180 x (radius + thickness / 2) of the flat pattern. What is not "
    "rolled stays flat and tangent. Cones and sheet curved both ways are not supported.",
    fields=(
        Field(word="radius", kind=Length(above=0.0), help="Of the inside, the hollow face.", required=True),
        Field(
            word="about",
            kind=Numbers(count=2, each=POINT, label="a line: two points [[x, y], [x, y]]"),
            help="Two points of a line in the flat pattern. The sheet is rolled parallel to it, and is not "
            "turned there: x and y of the part are those of the pattern at the first roll's line.",
            required=True,
        ),
        Field(
            word="from",
            kind=Length(),
            help="Where the roll begins: distance from the line, positive to its left, seen from its first "
            "point to its second, negative to its right. Left out: at the right edge of the sheet.",
        ),
        Field(word="to", kind=Length(), help="Where it ends. Left out: at the left edge of the sheet."),
        Field(
            word="angle",
            kind=Angle(low=0.1, high=360.0),
            help="By how much it is rolled in all, half on each side of the line; with `from` or `to` "
            "beginning or ending there.",
        ),
        Field(
            word="side",
            kind=Choice(words=("inside", "outside"), label="a face"),
            help="The face that becomes the hollow one; left out: inside.",
        ),
    ),
    build=_rolling,
)

ROLLED = Field(
    word="rolled",
    kind=ListOf(each=_ROLL, label="a roll or a list of rolls", alone=True),
    help="Rolled to a radius about a line; several rolls in a list are parallel. Outline, openings and rows "
    "are those of the flat pattern; holes keep their places on it.",
)
"""The word of a skin or plate."""
