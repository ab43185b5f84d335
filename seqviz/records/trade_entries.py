"""Sizes and hardware: which hole takes which fastener, and the maker's own data."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from seqviz.records.hole_widths import HoleWidth
from seqviz.records.kinds import Angle, Choice, FreeName, Length, YesNo
from seqviz.records.lists import Entries, ListOf, Numbers, Word
from seqviz.records.model import Hardware, Size
from seqviz.records.nodes import Items, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Record, Values, by_name

__all__ = ["HARDWARE", "SIZES", "OneFastener"]

OneFastener = Word(of=FreeName)
"""The name of a fastener, with its place."""

_LONG = Length(above=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengths:
    """Lengths of a fastener, each with the grip that it is made for; of a solid rivet a plain list too."""

    label: str = "lengths with their grips {LENGTH: [from, to]}"
    unit: str = "mm"

    def read(self, reading: Reading, node: Node) -> tuple[Any, ...] | None:
        """Return (length, grip from, grip to), or lengths alone, mm, in the order written."""
        if isinstance(node, Items):
            return _PLAIN.read(reading, node)
        mapping = reading.mapping(node, self.label)
        if mapping is None:
            return None
        seen: dict[float, Scalar] = {}
        found = []
        wrong = False
        for key, value in mapping.pairs:
            size = _LONG.of_text(reading, key, key.text)
            empty = reading.without_value(key, value, _GRIP.label)
            grip = None if empty else _GRIP.read(reading, value)
            if size is None or grip is None:
                wrong = True
            elif size in seen:
                reading.duplicate(f"The length `{key.text}`", key, seen[size])
                wrong = True
            elif grip[0] > grip[1]:
                reading.bad(
                    value, "The grip ends before it begins.", "A grip goes from less to more.", "Swap them."
                )
                wrong = True
            else:
                seen[size] = key
                found.append((size, *grip))
        return None if wrong else tuple(found)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [{"type": "object", "additionalProperties": _GRIP.schema()}, _PLAIN.schema()]}


_GRIP = Numbers(count=2, each=Length(low=0.0), label="a grip [from, to]")
_PLAIN = ListOf(each=_LONG, label="a list of lengths")


def _size(reading: Reading, values: Values) -> Size | None:
    if values.failed:
        return None
    return Size(
        name=values.name,
        diameter=values.get("diameter"),
        fastener=values.get("with"),
        at=reading.at(values.place),
        countersunk=values.get("countersunk", False),
    )


def _hardware(reading: Reading, values: Values) -> Hardware | None:
    lengths = values.get("lengths", ())
    plain = bool(lengths) and not isinstance(lengths[0], tuple)
    if values.get("kind") != "solid rivet":
        if plain:
            _only_solid(reading, values, "lengths", "These lengths say no grips.", "Write `{6: [1.5, 3.5]}`.")
        if values.has("half sizes"):
            _only_solid(reading, values, "half sizes", "Only solid rivets have half sizes.", "Leave it out.")
    if values.failed:
        return None
    return Hardware(
        name=values.name,
        kind=values.get("kind"),
        diameter=values.get("diameter"),
        lengths=() if plain else lengths,
        plain_lengths=lengths if plain else (),
        half_sizes=values.get("half sizes", False),
        hole=values.get("hole"),
        head_diameter=values.get("head diameter"),
        head_height=values.get("head height"),
        at=reading.at(values.place),
        head_angle=values.get("head angle"),
    )


def _only_solid(reading: Reading, values: Values, word: str, message: str, fix: str) -> None:
    why = "A solid rivet takes its grip and 1.5 D, rounded up; others are made for grips from one to another."
    reading.bad(
        values.nodes[word], message, why, f"{fix} If it is a solid rivet, say so: `kind: solid rivet`."
    )
    values.fail()


_SIZE = Record(
    title="a size",
    help="A hole diameter, and the fastener that goes into such holes.",
    fields=(
        Field(word="diameter", kind=HoleWidth(), help="Of the hole.", required=True),
        Field(
            word="with",
            kind=OneFastener,
            help="A name in `hardware`, or `blind rivet 3.2`, `solid rivet 1/8`, `bolt AN3`.",
        ),
        Field(
            word="countersunk",
            kind=YesNo(),
            help="yes: the manufactured head lies flush in the layer under it.",
        ),
    ),
    build=_size,
)
_HARDWARE = Record(
    title="a piece of hardware",
    help="A fastener as its maker tells of it.",
    fields=(
        Field(
            word="kind",
            kind=Choice(words=("blind rivet", "solid rivet", "bolt"), label="a kind of fastener"),
            help="`blind rivet`, `solid rivet` or `bolt`; left out: a blind rivet.",
        ),
        Field(word="diameter", kind=_LONG, help="Of the shank.", required=True),
        Field(
            word="lengths",
            kind=Lengths(),
            help="Each length with the grip that it is made for; of a solid rivet a list of lengths will do.",
        ),
        Field(
            word="half sizes",
            kind=YesNo(),
            help="yes: a solid rivet is bought in lengths of half a sixteenth of an inch too (4-4.5).",
        ),
        Field(word="hole", kind=HoleWidth(), help="The hole that its maker asks for."),
        Field(word="head diameter", kind=_LONG, help="Of the manufactured head."),
        Field(
            word="head height", kind=_LONG, help="Of the manufactured head; of a flush one how deep it sits."
        ),
        Field(
            word="head angle",
            kind=Angle(low=60.0, high=150.0),
            help="Of a countersunk head, from side to side: such a head lies flush. Where only `countersunk` "
            "is written it is 100.",
        ),
    ),
    build=_hardware,
)


SIZES = Entries(entry=by_name(_SIZE), value=_SIZE, label="sizes by name")
"""``sizes``."""

HARDWARE = Entries(entry=by_name(_HARDWARE), value=_HARDWARE, label="hardware by name", name=FreeName)
"""``hardware``."""
