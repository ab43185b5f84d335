"""How the work lies: which side of it is up, on what it lies, what stands out over the edge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from seqviz.records.kinds import Choice
from seqviz.records.lists import NameList
from seqviz.records.model import Name
from seqviz.records.nodes import Mapping, Node
from seqviz.records.reading import Reading
from seqviz.records.steps import TurnOver
from seqviz.records.tables import Field, Record, Values
from seqviz.records.words import as_name, as_word, meant, name_mistake

__all__ = ["BENCH", "OVER_THE_EDGE", "SIDE", "Facing", "Turn", "Up"]

Facing = tuple[Name, str, str]
"""A placed part, one of its flats, and which face of it."""

SIDE = Choice(
    words=("upper", "lower", "left side", "right side", "forward end", "aft end"), label="a side of the base"
)
BENCH = Choice(words=("flat", "trestles", "blocks"), label="a bench")
OVER_THE_EDGE = Field(
    word="over the edge",
    kind=NameList,
    help="Placed parts that stand out over the edge of a flat bench, so that it closes nothing at them.",
)
_FACES = ("outside", "inside")


@dataclass(frozen=True, slots=True, kw_only=True)
class Up:
    """What is up: a side of the base, or one face of a flat of a placed part."""

    label: str = "a side of the base, or `PLACED.FLAT outside` (or inside)"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> str | Facing | None:
        """Return the side, or the part, its flat and the face."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        name = as_name(text)
        before, _, face = name.rpartition(" ")
        if "." not in name and as_word(face) not in _FACES:
            return SIDE.read(reading, node)
        if as_word(face) not in _FACES:
            self._wrong(reading, node, f"`{name}` does not say which face.", f"Write `{name} outside`.")
            return None
        placed, dot, flat = (part.strip() for part in before.partition("."))
        if not dot or not placed or not flat:
            fix = f"Write the placed part, its flat and the face: `{before or 'PLACED'}.face outside`."
            self._wrong(reading, node, f"`{name}` names no flat.", fix)
            return None
        wrong = name_mistake(placed) or name_mistake(flat, allowed=".")
        if wrong is not None:
            self._wrong(reading, node, f"`{name}` holds `{wrong}`.", f"Write it without `{wrong}`.")
            return None
        return Name(text=placed, at=reading.at(node)), flat, as_word(face)

    def _wrong(self, reading: Reading, node: Node, message: str, fix: str) -> None:
        reading.bad(node, message, f"Here belongs {self.label}.", fix)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [SIDE.schema(), {"type": "string", "pattern": r"^.+\..+ (outside|inside) *$"}]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """``sideways``, ``end over end``, or ``{up: SIDE}`` with what else changes."""

    label: str = "sideways, end over end, or {up: SIDE}"
    unit: str = ""

    @property
    def alternatives(self) -> tuple[Record, ...]:
        """The table of the longer form."""
        return (_TURNED,)

    def read(self, reading: Reading, node: Node) -> TurnOver | None:
        """Return how the work is turned."""
        if isinstance(node, Mapping):
            turned: TurnOver | None = _TURNED.read(reading, node)
            return turned
        text = reading.text(node, self.label)
        if text is None:
            return None
        if as_word(text) in _TURNS:
            return TurnOver(how=as_word(text))
        near = meant(text, _TURNS)
        fix = "Write one of these. A sub-assembly is turned by a step among its own."
        why = f"Here belongs {self.label}."
        message = f"`{text.strip()}` is no way to turn the work."
        reading.report("unknown-word", node, message, why, f"Did you mean `{near}`?" if near else fix)
        return None

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [{"enum": list(_TURNS)}, _TURNED.schema()]}


def _turned(_reading: Reading, values: Values) -> TurnOver | None:
    if values.failed:
        return None
    return TurnOver(
        how="up",
        side=values.get("up"),
        bench=values.get("bench"),
        over_the_edge=values.get("over the edge", ()),
    )


_TURNS = ("sideways", "end over end")
_TURNED = Record(
    title="a turn",
    help="Which side is up then, and what the work lies on.",
    fields=(
        Field(
            word="up",
            kind=SIDE,
            help="The side of the base that is up then; of a sub-assembly as it stands in the structure.",
            required=True,
        ),
        Field(word="bench", kind=BENCH, help="What it lies on from then on; left out: as before."),
        OVER_THE_EDGE,
    ),
    build=_turned,
)
