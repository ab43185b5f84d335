"""Kinks, joggles, cut ends, end tabs and notches: the words of the work on a long bent part."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from seqviz.records.kinds import Angle, Choice, Kind, Length
from seqviz.records.lists import ListOf, Numbers
from seqviz.records.nodes import Items, Mapping, Node
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Record, Values
from seqviz.records.work_types import Corner, EndCut, EndTab, Joggle, Kink, Notch, Work

__all__ = ["WORK_WORDS", "work_fields", "work_of"]

WORK_WORDS = ("kinks", "joggles", "cut ends", "end tabs", "notches")

_ENDS = ("start", "end")
_FACES = ("outside", "inside")
_PLACE = Length()
_LONG = Length(above=0.0)
_CUT = Angle(low=-80.0, high=80.0)
_CORNER = Numbers(count=2, each=_LONG, label="a corner [along x, from the edge]")
STEEP = 6.0
"""Length of a joggle's ramp by its depth where none is written (project choice)."""

_TOWARDS = Field(
    word="towards",
    kind=Choice(words=_FACES, label="a face of the flat"),
    help="To which of the flat's faces it goes: outside, or inside, the hollow side of its bend.",
    required=True,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _EndCuts:
    """How one end is cut: one angle, or flat -> angle or corner."""

    end: str
    flats: tuple[str, ...]
    label: str = "an angle, or for each flat an angle or a corner [along x, from the edge]"
    unit: str = "degrees"

    def read(self, reading: Reading, node: Node) -> tuple[EndCut, ...] | None:
        """Return the cuts, None where one of them is wrong."""
        if not isinstance(node, Mapping):
            angle = _CUT.read(reading, node)
            return None if angle is None else (self._cut(reading, node, None, angle),)
        found: dict[str, EndCut] = {}
        wrong = False
        for key, value in node.pairs:
            flat = Choice(words=self.flats, label="a flat of this part").read(reading, key)
            if flat in found:
                reading.duplicate(f"`{flat}`", key, found[flat].at)
                flat = None
            cut = (
                None
                if flat is None or reading.without_value(key, value, self.label)
                else _cut(reading, value)
            )
            if flat is None or cut is None:
                wrong = True
            else:
                found[flat] = self._cut(reading, key, flat, cut)
        return None if wrong else tuple(found.values())

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        each = {"anyOf": [_CUT.schema(), _CORNER.schema()]}
        per_flat = {
            "type": "object",
            "patternProperties": {f"^{flat.replace(' ', '[ _-]')}$": each for flat in self.flats},
            "additionalProperties": False,
        }
        return {"anyOf": [_CUT.schema(), per_flat]}

    def _cut(self, reading: Reading, node: Node, flat: str | None, cut: float | Corner) -> EndCut:
        return EndCut(end=self.end, flat=flat, cut=cut, at=reading.at(node))


def _cut(reading: Reading, node: Node) -> float | Corner | None:
    if not isinstance(node, Items):
        return _CUT.read(reading, node)
    corner = _CORNER.read(reading, node)
    return None if corner is None else Corner(along=corner[0], across=corner[1])


def work_fields(flats: tuple[str, ...]) -> tuple[Field, ...]:
    """Return the words of the work on a part with these ``flats``."""
    lists: dict[str, tuple[Record, str]] = {
        "kinks": (_kink(flats), "Where the part is bent a little along its length."),
        "joggles": (_joggle(flats), "Where it is offset, so that it lies over another part."),
        "notches": (_notch(flats), "What is cut out of its flats."),
    }
    found = {
        word: Field(word=word, kind=ListOf(each=record, label=f"a list of {word}"), help=help_text)
        for word, (record, help_text) in lists.items()
    }
    found["cut ends"] = Field(word="cut ends", kind=_cut_ends(flats), help="How its ends are cut.")
    found["end tabs"] = Field(
        word="end tabs", kind=_end_tabs(flats), help="Where a flat reaches beyond the others at an end."
    )
    return tuple(found[word] for word in WORK_WORDS)


def work_of(values: Values) -> Work:
    """Return the work that the words of a part say."""
    return Work(
        kinks=values.get("kinks", ()),
        joggles=values.get("joggles", ()),
        cuts=values.get("cut ends", ()),
        tabs=values.get("end tabs", ()),
        notches=values.get("notches", ()),
    )


def _flat(flats: tuple[str, ...], help_text: str, *, required: bool = False) -> Field:
    return Field(word="flat", kind=Choice(words=flats, label="a flat"), help=help_text, required=required)


def _kink(flats: tuple[str, ...]) -> Record:
    return Record(
        title="a kink",
        help="What lies beyond it leans over, as far as the next kink. x is measured along the middle of the "
        "flat that is folded.",
        fields=(
            Field(word="at", kind=_PLACE, help="Its x, from the start of the part.", required=True),
            Field(word="angle", kind=Angle(low=0.1, high=60.0), help="Of the fold.", required=True),
            _flat(flats, f"The flat that is folded, about a line square to x; left out: {flats[0]}."),
            _TOWARDS,
        ),
        build=_build_kink,
    )


def _build_kink(reading: Reading, values: Values) -> Kink | None:
    if values.failed:
        return None
    return Kink(
        x=values.get("at"),
        angle=values.get("angle"),
        flat=values.get("flat"),
        towards=values.get("towards"),
        at=reading.at(values.place),
    )


def _joggle(flats: tuple[str, ...]) -> Record:
    return Record(
        title="a joggle",
        help="The whole section is offset square to one flat; other flats shift in their own planes. x and "
        "the length of the part stay as they are.",
        fields=(
            Field(
                word="at",
                kind=Choice(words=_ENDS, label="an end"),
                help="An end that is offset: with `length`.",
            ),
            Field(word="length", kind=_LONG, help="How much of the end is offset in full."),
            Field(word="from", kind=_PLACE, help="Or a stretch between the ends: with `to`."),
            Field(word="to", kind=_PLACE, help="Where the stretch that is offset in full ends."),
            Field(word="depth", kind=_LONG, help="How far it is offset.", required=True),
            Field(
                word="run",
                kind=_LONG,
                help=f"Along x, of each ramp; it comes on top. Left out: {STEEP:g} times the depth.",
            ),
            _flat(flats, f"The flat that is lifted; left out: {flats[0]}."),
            _TOWARDS,
        ),
        build=_build_joggle,
    )


def _build_joggle(reading: Reading, values: Values) -> Joggle | None:
    if values.failed or not _one_place(reading, values, ("at", "length"), ("from", "to")):
        return None
    return Joggle(
        end=values.get("at"),
        length=values.get("length"),
        start=values.get("from"),
        stop=values.get("to"),
        depth=values.get("depth"),
        run=values.get("run", STEEP * values.get("depth")),
        flat=values.get("flat"),
        towards=values.get("towards"),
        at=reading.at(values.place),
    )


def _notch(flats: tuple[str, ...]) -> Record:
    label = "the depth, or of two flats two depths [first, second]"
    return Record(
        title="a notch",
        help="Of one flat it is cut from the free edge inward, of two neighbours through the bend between "
        "them.",
        fields=(
            _flat(flats, "The flat that is cut, one with a free edge."),
            Field(
                word="flats",
                kind=Numbers(
                    count=2, each=Choice(words=flats, label="a flat"), label="two flats [first, second]"
                ),
                help="Instead of `flat`: two neighbours, cut through the bend between them.",
            ),
            Field(word="from", kind=_PLACE, help="Its x; with `to`."),
            Field(word="to", kind=_PLACE, help="Where it ends on x."),
            Field(word="at", kind=_PLACE, help="Or the x of its middle; with `width`."),
            Field(word="width", kind=_LONG, help="Along x."),
            Field(
                word="depth",
                kind=_Depths(label=label),
                help="From the edge of one flat; left out: all of it and its bend. Of two flats from "
                "their outer corner, one depth for both or two; as deep as a flat is wide takes all of it.",
            ),
        ),
        build=_build_notch,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Depths:
    """One length or two."""

    label: str
    unit: str = "mm"

    def read(self, reading: Reading, node: Node) -> tuple[float, ...] | None:
        """Return the depths."""
        if isinstance(node, Items):
            return Numbers(count=2, each=_LONG, label="two depths [first, second]").read(reading, node)
        depth = _LONG.read(reading, node)
        return None if depth is None else (depth,)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        pair = {"type": "array", "items": _LONG.schema(), "minItems": 2, "maxItems": 2}
        return {"anyOf": [_LONG.schema(), pair]}


def _build_notch(reading: Reading, values: Values) -> Notch | None:
    if values.failed or not _one_place(reading, values, ("from", "to"), ("at", "width")):
        return None
    if not _one_place(reading, values, ("flat",), ("flats",)):
        return None
    if values.has("flats") and not values.has("depth"):
        reading.report(
            "missing-word",
            values.place,
            "`depth` is missing.",
            "A notch through a bend says how far it reaches on both flats, from their outer corner.",
            "Add `depth: ` and one or two lengths.",
        )
        return None
    half = values.get("width", 0.0) / 2
    return Notch(
        flats=values.get("flats") or (values.get("flat"),),
        start=values.get("from", values.get("at", 0.0) - half),
        stop=values.get("to", values.get("at", 0.0) + half),
        depth=values.get("depth", ()),
        at=reading.at(values.place),
    )


def _cut_ends(flats: tuple[str, ...]) -> Record:
    return Record(
        title="cut ends",
        help="Degrees off square. Above 0 the part is shorter where the flat's y is greater, below 0 where "
        "it is less. The length of the part is its longest. One number is for every flat with a free edge.",
        fields=tuple(
            Field(word=end, kind=_EndCuts(end=end, flats=flats), help=f"Of the {end}.") for end in _ENDS
        ),
        build=_both_ends,
    )


def _end_tabs(flats: tuple[str, ...]) -> Record:
    tab = Record(
        title="an end tab",
        help="It comes on top of the part's length. On a tab at the start x is less than 0.",
        fields=(
            _flat(flats, "The flat that reaches beyond the others.", required=True),
            Field(word="length", kind=_LONG, help="How far.", required=True),
            Field(word="width", kind=_LONG, help="Across the flat; left out: all of it."),
            Field(
                word="in", kind=_PLACE, help="The y where its width begins; left out: it is in the middle."
            ),
        ),
        build=_build_tab,
    )
    return Record(
        title="end tabs",
        help="A tab at one end or at both.",
        fields=tuple(
            Field(word=end, kind=_AtEnd(each=tab, end=end), help=f"At the {end}: one tab, or a list.")
            for end in _ENDS
        ),
        build=_both_ends,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _AtEnd:
    """One entry or several, at one end."""

    each: Record
    end: str
    label: str = "a tab, or a list of them"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> tuple[EndTab, ...] | None:
        """Return the tabs."""
        kind: Kind = self.each
        if isinstance(node, Items):
            kind = ListOf(each=self.each, label=self.label)
        found = kind.read(reading, node)
        if found is None:
            return None
        tabs = found if isinstance(found, tuple) else (found,)
        return tuple(_with_end(tab, self.end) for tab in tabs)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [self.each.schema(), {"type": "array", "items": self.each.schema()}]}


def _build_tab(reading: Reading, values: Values) -> EndTab | None:
    if values.failed:
        return None
    return EndTab(
        end="",
        flat=values.get("flat"),
        length=values.get("length"),
        width=values.get("width"),
        across=values.get("in"),
        at=reading.at(values.place),
    )


def _with_end(tab: EndTab, end: str) -> EndTab:
    return EndTab(end=end, flat=tab.flat, length=tab.length, width=tab.width, across=tab.across, at=tab.at)


def _both_ends(_reading: Reading, values: Values) -> tuple[Any, ...] | None:
    """Return what is said of both ends, one after the other."""
    return None if values.failed else (*values.get("start", ()), *values.get("end", ()))


def _one_place(reading: Reading, values: Values, one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """Say whether all words of one of two ways are there and none of the other; note what is wrong."""
    said = [word for word in (*one, *other) if values.has(word)]
    way = one if said and said[0] in one else other
    ways = " or ".join(" and ".join(f"`{word}`" for word in words) for words in (one, other))
    strange = [word for word in said if word not in way]
    if strange:
        reading.bad(
            values.keys[strange[0]],
            f"`{strange[0]}` does not go with `{said[0]}`.",
            f"Here stands {ways}.",
            "Keep one of the two ways.",
        )
        return False
    missing = [word for word in (way if said else one) if not values.has(word)]
    if missing:
        reading.report(
            "missing-word",
            values.place,
            f"`{missing[0]}` is missing.",
            f"Here stands {ways}.",
            f"Add `{missing[0]}: `.",
        )
    return not missing
