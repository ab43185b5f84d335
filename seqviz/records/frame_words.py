"""Frames: the words of flanged ribs and bulkheads, of their flanges and of the lips round their openings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from seqviz.records.formed_words import BEND
from seqviz.records.kinds import Angle, Choice, Length, NameText, Whole
from seqviz.records.lists import Entries, ListOf, ReadEntries
from seqviz.records.model import FrameFlange, FrameShape, Lip
from seqviz.records.nodes import Mapping, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Record, Values
from seqviz.records.words import as_name, as_word, meant

__all__ = ["FRAME", "LIP", "frame", "lip_alone"]

EDGES = ("left edge", "right edge", "forward edge", "aft edge")

_LONG = Length(above=0.0)
_ANGLE = Angle(low=1.0, high=179.0)
_SIDE = Choice(words=("inside", "outside"), label="a side of the web")


def frame(values: Values) -> FrameShape:
    """Return the frame that ``values`` describe."""
    openings: ReadEntries | None = values.get("openings")
    flanges: ReadEntries = values.get("flanges")
    thickness = values.get("thickness")
    return FrameShape(
        thickness=thickness,
        outline=values.get("outline"),
        bend_radius=values.get("bend radius", BEND * thickness),
        flanges=tuple(flanges.good.values()),
        openings=tuple(openings.good.values()) if openings else (),
    )


def lip_alone(reading: Reading, values: Values) -> bool:
    """Say whether an opening that has an outline has no lip; note what is wrong."""
    if not (values.has("lip") and values.has("outline")):
        return True
    reading.bad(
        values.keys["lip"],
        "A lip does not go with `outline`.",
        "A lip is formed round a round opening.",
        "Delete it, or give the opening a center and a diameter.",
    )
    return False


def _flange(reading: Reading, name: str, key: Scalar, value: Node) -> FrameFlange | None:
    values = _FLANGE.values(reading, value, key)
    if values is None:
        return None
    edge = _edge(name)
    numbers: tuple[int, ...] | None = values.get("edges")
    if edge is not None or name.isdigit():
        if values.has("edges"):
            values.fail()
            reading.bad(
                values.keys["edges"],
                f"`edges` says again which edge it is: `{name}` says it already.",
                "A flange is called after its edge, or has a name of its own and `edges`.",
                "Delete `edges`, or give the flange another name.",
            )
        numbers = () if edge else (int(name),)
    elif not values.has("edges"):
        values.fail()
        _no_edges(reading, key, name)
    if values.failed:
        return None
    assert numbers is not None
    return FrameFlange(
        name=edge or as_name(name.replace("_", " ")),
        edges=numbers,
        width=values.get("width"),
        side=values.get("side", "inside"),
        angle=values.get("angle", 90.0),
        relief=values.get("relief"),
        at=reading.at(key),
    )


def _edge(name: str) -> str | None:
    """Return the edge that ``name`` is: ``left``, ``Left edge`` are the left edge."""
    word = as_word(name)
    return next((edge for edge in EDGES if word in (edge, edge.removesuffix(" edge"))), None)


def _no_edges(reading: Reading, key: Scalar, name: str) -> None:
    near = meant(name, EDGES)
    reading.report(
        "missing-word",
        key,
        f"It is not said along which sides of the outline the flange `{name}` runs.",
        "A flange is called `left edge`, `right edge`, `forward edge`, `aft edge` or by the number of a "
        "side, or it has `edges`: side 1 goes from the first corner of the outline to the second.",
        f"Did you mean `{near}`?" if near else "Add `edges: [..]` with the numbers of the sides.",
    )


def _built(_reading: Reading, values: Values) -> Any:
    """Flanges are read with their names, in `_flange`."""
    raise NotImplementedError


_FLANGE = Record(
    title="a flange of a frame",
    help="It is called after its edge (`left edge`, `right edge`, `forward edge`, `aft edge`, or the number "
    "of a side of the outline), or by any name with `edges`. Its flat is `flange` and its name; of several "
    "sides `flange NAME 1`, `flange NAME 2` and so on, a piece for each. Along a named edge x runs as rows "
    "along it do, from its aft or right end; along a numbered side from its first corner to its second. x is "
    "0 at the corner of the outline. y runs from the outer corner of the bend to the free edge. The outside "
    "is the outer side of the bend.",
    fields=(
        Field(
            word="edges",
            kind=ListOf(each=Whole(low=1), label="a list of side numbers [4, 5, 6]", alone=True),
            help="The sides of the outline it runs along; side 1 goes from the first corner to the second.",
        ),
        Field(word="width", kind=_LONG, help="From the outer corner, outside dimension.", required=True),
        Field(
            word="side",
            kind=_SIDE,
            help="To which side of the web it turns; left out: inside, so that the web's outside is the "
            "outer side of the bend.",
        ),
        Field(
            word="angle",
            kind=_ANGLE,
            help="Of its bend: 90 where it is left out; 83 opens it by 7 degrees, 97 closes it.",
        ),
        Field(
            word="relief",
            kind=Length(low=0.0),
            help="How far each piece stays back from corners where another flange begins, or from its end in "
            "the middle of a straight edge; left out: as little as the bends need.",
        ),
    ),
    build=_built,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LipKind:
    """The height of a lip, or a map with more about it."""

    label: str = "a height, or a lip {height, side, angle}"
    unit: str = "mm"

    @property
    def alternatives(self) -> tuple[Record, ...]:
        """The longer form."""
        return (_LIP,)

    def read(self, reading: Reading, node: Node) -> Lip | None:
        """Return the lip."""
        if isinstance(node, Mapping):
            lip: Lip | None = _LIP.read(reading, node)
            return lip
        height = _LONG.read(reading, node)
        return None if height is None else Lip(height=height, side="inside", angle=90.0, at=reading.at(node))

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [*_LONG.schema()["anyOf"], _LIP.schema()]}


def _lip(reading: Reading, values: Values) -> Lip | None:
    if values.failed:
        return None
    return Lip(
        height=values.get("height"),
        side=values.get("side", "inside"),
        angle=values.get("angle", 90.0),
        at=reading.at(values.place),
    )


_LIP = Record(
    title="a lip",
    help="A flange formed round a lightening hole.",
    fields=(
        Field(word="height", kind=_LONG, help="From the web's face, measured along the lip.", required=True),
        Field(word="side", kind=_SIDE, help="To which side of the web it turns; left out: inside."),
        Field(word="angle", kind=Angle(low=1.0, high=120.0), help="Of its bend: 90 where it is left out."),
    ),
    build=_lip,
)

LIP = Field(
    word="lip",
    kind=LipKind(),
    help="Of a round opening: how high its formed lip is, outside dimension. The diameter is that of the "
    "mould line, where the faces on the outer side of the bend would meet: with a lip of 90 degrees the "
    "clear opening.",
)
"""The word of an opening in a frame."""

FRAME = (
    Field(
        word="bend radius",
        kind=Length(low=0.0),
        help="Of the inside of every bend; left out: 1.5 times the thickness.",
    ),
    Field(
        word="flanges",
        kind=Entries(
            entry=_flange, value=_FLANGE, label="flanges by edge", name=NameText(label="an edge", allowed="_")
        ),
        help="Its flanges, by their edges.",
        required=True,
    ),
)
"""The words of a frame besides those of a sheet."""
