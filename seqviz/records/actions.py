"""What a step may do: a table of words for each action."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from seqviz.records.holes import HoleText, hole_list
from seqviz.records.kinds import Choice, Kind, Length, Text
from seqviz.records.lists import NameList, OneName
from seqviz.records.model import HoleChoice, Name
from seqviz.records.nodes import Mapping, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.steps import (
    HoleFilter,
    LeaveOpen,
    MovePins,
    Note,
    OpenNoLonger,
    PinPattern,
    Place,
    PullPins,
    Rivet,
    TurnOver,
)
from seqviz.records.tables import Field, Record, Values
from seqviz.records.trade_entries import OneFastener
from seqviz.records.words import as_name, as_word, meant, name_mistake

__all__ = ["ACTIONS", "NOT_YET", "SIDE"]

NOT_YET = (
    *("apart", "drill", "bolt", "check", "inspect", "fit", "deburr", "prime", "seal", "take off"),
    "drill out",
)
"""Actions that this version does not know yet."""

SIDE = Choice(
    words=("upper", "lower", "left side", "right side", "forward end", "aft end"), label="a side of the base"
)
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


_READY = "everything ready"


@dataclass(frozen=True, slots=True, kw_only=True)
class RivetHoles:
    """Holes, or ``everything ready``."""

    label: str = "holes, or `everything ready`"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> tuple[HoleChoice, ...] | None:
        """Return the holes; none at all for everything ready."""
        if isinstance(node, Scalar) and as_word(node.text) == _READY:
            return ()
        if isinstance(node, Scalar) and "." not in node.text and meant(node.text, (_READY,)):
            why, fix = f"Here belong {self.label}.", f"Did you mean `{_READY}`?"
            reading.bad(node, f"`{node.text}` names no hole.", why, fix)
            return None
        return hole_list(reading, node, self.label)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [{"const": "everything ready"}, *HoleText().schema()["anyOf"]]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """``sideways``, ``end over end``, or ``{up: SIDE}``."""

    label: str = "sideways, end over end, or {up: SIDE}"
    unit: str = ""

    @property
    def alternatives(self) -> tuple[Record, ...]:
        """The table of the longer form."""
        return (_UP,)

    def read(self, reading: Reading, node: Node) -> TurnOver | None:
        """Return how the work is turned."""
        if isinstance(node, Mapping):
            side: str | None = _UP.read(reading, node)
            return None if side is None else TurnOver(how="up", side=side)
        how = _TURNS.read(reading, node)
        return None if how is None else TurnOver(how=how)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [_TURNS.schema(), _UP.schema()]}


@dataclass(frozen=True, slots=True, kw_only=True)
class ForwardOf:
    """A placed part, or ``x=200``."""

    label: str = "a placed part, or `x=200`"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> Name | tuple[str, float] | None:
        """Return the name, or the axis and the value in mm."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        found = re.fullmatch(r"\s*([xyzXYZ])\s*=\s*(.+?)\s*", text)
        if found is None:
            name: Name | None = OneName.read(reading, node)
            return name
        value = Length().of_text(reading, node, found[2])
        return None if value is None else (found[1].lower(), value)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": "string"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """The side of the manufactured head."""

    label: str = "upper, lower, outside, inside or `on PLACED`"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> Name | None:
        """Return the side, or ``on`` and the placed part."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        first, _, name = as_name(text).partition(" ")
        if first.lower() == "on" and name and name_mistake(name) is None:
            return Name(text=f"on {name}", at=reading.at(node))
        side = _HEADS.read(reading, node)
        return None if side is None else Name(text=side, at=reading.at(node))

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": "string", "pattern": "^(upper|lower|outside|inside|on .+)$"}


_TURNS = Choice(words=("sideways", "end over end"), label="a way to turn the work")
_HEADS = Choice(words=("upper", "lower", "outside", "inside"), label="a side of the head")
_UP = Record(
    title="a turn",
    help="Which side is up then.",
    fields=(Field(word="up", kind=SIDE, help="The side of the base that is up then.", required=True),),
    build=lambda _reading, values: None if values.failed else values.get("up"),
)
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


def _rivet(_reading: Reading, values: Values) -> Rivet:
    narrowed = HoleFilter(
        through=values.get("through", ()),
        size=values.get("size"),
        fastener=values.get("with"),
        forward_of=values.get("forward of"),
        excluded=values.get("except", ()),
    )
    return Rivet(
        holes=values.get("rivet") or None,
        narrowed=narrowed,
        use=values.get("use"),
        head=values.get("head"),
    )


def _place(_reading: Reading, values: Values) -> Place:
    return Place(names=values.get("place"), pins=values.get("pins"), pins_from=values.get("pins from"))


def _leave_open(_reading: Reading, values: Values) -> LeaveOpen:
    return LeaveOpen(holes=values.get("leave open"), reason=values.get("for"))


_NOTE = Field(word="note", kind=Text(), help="Words beside the action.")


def _action(word: str, kind: Kind, help_text: str, build: Any, others: tuple[Field, ...] = ()) -> Record:
    first = Field(word=word, kind=kind, help=help_text, required=True)
    return Record(
        title=f"a step `{word}`",
        help=help_text,
        fields=(first, *others, *(() if word == "note" else (_NOTE,))),
        build=build,
        not_yet=NOT_YET,
    )


_ALL: tuple[Record, ...] = (
    _action(
        "place",
        NameList,
        "Placed parts, laid on in the order written.",
        _place,
        (
            Field(
                word="pins",
                kind=Pins(),
                help="Temporary fasteners: all, none, `ends and every 4th` of each row, or holes.",
            ),
            Field(word="pins from", kind=SIDE, help="The side they are put in from; left out: the side up."),
        ),
    ),
    _action("pull pins", HoleText(), "Takes pins out.", lambda _r, v: PullPins(holes=v.get("pull pins"))),
    _action("move pins", _MOVE, "Puts pins in from another side.", lambda _r, v: v.get("move pins")),
    _action(
        "rivet",
        RivetHoles(),
        "Sets rivets in holes, or in `everything ready`: all whose layers are there, none left open.",
        _rivet,
        (
            Field(word="through", kind=NameList, help="Only stacks that have these placed parts as layers."),
            Field(word="size", kind=OneName, help="Only holes of this size."),
            Field(word="with", kind=OneFastener, help="Only holes for this fastener."),
            Field(
                word="forward of",
                kind=ForwardOf(),
                help="Only holes forward of a placed part, or of a line such as `x=200`, `y=6`.",
            ),
            Field(word="except", kind=HoleText(), help="Not these holes."),
            Field(word="use", kind=OneFastener, help="Sets this fastener, whatever the sizes say."),
            Field(
                word="head",
                kind=Head(),
                help="Where the manufactured head is: upper, lower, `on PLACED`; outside, inside of the "
                "layer nearest to the base. Left out: where a tool reaches, layer 1 first.",
            ),
        ),
    ),
    _action(
        "leave open",
        HoleText(),
        "Keeps holes empty.",
        _leave_open,
        (
            Field(
                word="for",
                kind=Text(),
                help="A placed part (open until it is placed), or any text (until `open no longer`).",
            ),
        ),
    ),
    _action(
        "open no longer",
        HoleText(),
        "Ends `leave open`.",
        lambda _r, v: OpenNoLonger(holes=v.get("open no longer")),
    ),
    _action("turn over", Turn(), "Turns the work on the bench.", lambda _r, v: v.get("turn over")),
    _action("note", Text(), "Words for the builder.", lambda _r, v: Note(text=v.get("note"))),
)

ACTIONS: dict[str, Record] = {record.fields[0].word: record for record in _ALL}
"""Action word -> the table of its step."""
