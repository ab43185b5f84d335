"""Parts that come and go, and the pins that hold them: place, take off, pins, pull pins, move pins."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from seqviz.records.action_table import action
from seqviz.records.bench_words import SIDE
from seqviz.records.holes import HoleText, hole_list
from seqviz.records.lists import NameList
from seqviz.records.nodes import Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.steps import MovePins, PinPattern, Place, PullPins, PutPins, TakeOff
from seqviz.records.tables import Field, Record, Values
from seqviz.records.words import as_word

__all__ = ["PIN_ACTIONS"]

_EVERY = re.compile(r"ends and every ([0-9]{1,4})(?:st|nd|rd|th)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pins:
    """``all``, ``none``, ``ends and every 4th``, or holes."""

    label: str = "all, none, `ends and every 4th`, or holes"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> PinPattern | None:
        """Return the pattern."""
        if isinstance(node, Scalar) and "." not in node.text:
            return self._pattern(reading, node)
        holes = hole_list(reading, node, self.label)
        return (
            None if holes is None else PinPattern(kind="holes", every=None, holes=holes, at=reading.at(node))
        )

    def _pattern(self, reading: Reading, node: Scalar) -> PinPattern | None:
        text = reading.text(node, self.label)
        if text is None:
            return None
        word = as_word(text)
        found = _EVERY.fullmatch(word)
        if word in ("all", "none"):
            return PinPattern(kind=word, every=None, holes=(), at=reading.at(node))
        if found is not None and int(found[1]) > 0:
            return PinPattern(kind="every", every=int(found[1]), holes=(), at=reading.at(node))
        reading.bad(
            node,
            f"`{text.strip()}` does not say where pins go.",
            f"Here belongs {self.label}.",
            "Write one of these.",
        )
        return None

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": ["string", "array"]}


_PINS_FROM = Field(word="pins from", kind=SIDE, help="The side they are put in from; left out: the side up.")
_MOVE = Record(
    title="a move of pins",
    help="Which pins, and to where.",
    fields=(
        Field(word="holes", kind=HoleText(), help="The holes.", required=True),
        Field(word="to", kind=SIDE, help="The side from which they are put in then.", required=True),
    ),
    build=lambda _reading, values: (
        None if values.failed else MovePins(holes=values.get("holes"), to=values.get("to"))
    ),
)


def _place(_reading: Reading, values: Values) -> Place:
    return Place(names=values.get("place"), pins=values.get("pins"), pins_from=values.get("pins from"))


def _put_pins(reading: Reading, values: Values) -> PutPins | None:
    pattern: PinPattern = values.get("pins")
    if pattern.kind == "holes" and values.has("of"):
        reading.bad(
            values.keys["of"],
            "`of` does not go with holes.",
            "`of` says in whose rows `all` or `ends and every 4th` are counted; holes say it themselves.",
            "Delete it.",
        )
        return None
    return PutPins(pattern=pattern, pins_from=values.get("pins from"), of=values.get("of", ()))


PIN_ACTIONS = (
    action(
        "place",
        NameList,
        "Placed parts and sub-assemblies, laid on in the order written.",
        _place,
        (
            Field(
                word="pins",
                kind=Pins(),
                help="Temporary fasteners: all, none, `ends and every 4th` of each row, or holes.",
            ),
            _PINS_FROM,
        ),
    ),
    action(
        "take off",
        NameList,
        "Placed parts and sub-assemblies that come off again, in the order written.",
        lambda _reading, values: TakeOff(names=values.get("take off")),
        refused=(("pins", "Pins go into parts that are there; `pull pins` takes them out."),),
    ),
    action(
        "pins",
        Pins(),
        "Puts pins in: all, `ends and every 4th` of each row, or holes.",
        _put_pins,
        (
            Field(
                word="of",
                kind=NameList,
                help="In the rows of these placed parts; left out: of those just placed.",
            ),
            _PINS_FROM,
        ),
    ),
    action(
        "pull pins",
        HoleText(),
        "Takes pins out.",
        lambda _reading, values: PullPins(holes=values.get("pull pins")),
    ),
    action(
        "move pins",
        _MOVE,
        "Puts pins in from another side.",
        lambda _reading, values: values.get("move pins"),
    ),
)
"""The tables of these actions."""
