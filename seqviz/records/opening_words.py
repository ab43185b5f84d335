"""Openings in sheets: their words, and those of an opening in a frame, which may have a lip."""

from __future__ import annotations

from seqviz.records.frame_words import LIP, lip_alone
from seqviz.records.kinds import Length
from seqviz.records.lists import Entries, ListOf
from seqviz.records.model import Opening
from seqviz.records.reading import Reading
from seqviz.records.rows import POINT
from seqviz.records.tables import Field, Record, Values, by_name

__all__ = ["OPENINGS", "OPENINGS_IN_FRAME", "OUTLINE"]

OUTLINE = ListOf(each=POINT, label="a list of points [[x, y], ..]", least=3)
"""The corners of an outline."""

_LONG = Length(above=0.0)


def _opening(reading: Reading, values: Values) -> Opening | None:
    if values.failed or not lip_alone(reading, values):
        return None
    round_words = [word for word in ("center", "diameter") if values.has(word)]
    if values.has("outline") and round_words:
        reading.bad(
            values.keys[round_words[0]],
            f"`{round_words[0]}` does not go with `outline`.",
            "An opening is round (center and diameter) or has an outline.",
            "Keep one of the two ways.",
        )
        return None
    if not values.has("outline") and len(round_words) < 2:
        wanted = "diameter" if round_words == ["center"] else "center"
        reading.report(
            "missing-word",
            values.place,
            f"`{wanted}` is missing.",
            "An opening is round (center and diameter) or has an outline.",
            f"Add `{wanted}: `, or an outline.",
        )
        return None
    return Opening(
        name=values.name,
        center=values.get("center"),
        diameter=values.get("diameter"),
        outline=values.get("outline", ()),
        at=reading.at(values.place),
        lip=values.get("lip"),
    )


_HOLE = (
    Field(word="center", kind=POINT, help="Its middle, in the coordinates of the outline."),
    Field(word="diameter", kind=_LONG, help="Of a round one."),
    Field(word="outline", kind=OUTLINE, help="Its corners in order."),
)
_OPENING = Record(
    title="an opening",
    help="A lightening hole, a cable hole. Round, or with an outline.",
    fields=_HOLE,
    build=_opening,
    refused=(
        (
            "lip",
            "Formed lips belong to frames: a sheet with lips and no flanges is a frame with `flanges: {}`.",
        ),
    ),
)
_OPENING_IN_FRAME = Record(
    title="an opening in a frame",
    help="A lightening hole, a cable hole. Round, with or without a formed lip, or with an outline.",
    fields=(*_HOLE, LIP),
    build=_opening,
)

OPENINGS = Entries(entry=by_name(_OPENING), value=_OPENING, label="openings by name")
"""``openings`` of a skin or plate."""

OPENINGS_IN_FRAME = Entries(
    entry=by_name(_OPENING_IN_FRAME), value=_OPENING_IN_FRAME, label="openings by name"
)
"""``openings`` of a frame."""
