"""Which holes a step is about: everything ready, filters, a template, the side of the head."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from seqviz.records.holes import HoleText, hole_choice
from seqviz.records.kinds import Choice, Length
from seqviz.records.lists import NameList, OneName
from seqviz.records.model import HoleChoice, Name
from seqviz.records.nodes import Items, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.steps import HoleFilter
from seqviz.records.tables import Field, Values
from seqviz.records.trade_entries import OneFastener
from seqviz.records.words import as_name, as_word, meant, name_mistake
from seqviz.units import Slip

__all__ = ["FILTERS", "THROUGH", "Head", "NamesOrHoles", "ReadyHoles", "TemplateOrNames", "narrowed"]

_READY = "everything ready"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyHoles:
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
        found: tuple[HoleChoice, ...] | None = HoleText().read(reading, node)
        return found

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [{"const": _READY}, *HoleText().schema()["anyOf"]]}


@dataclass(frozen=True, slots=True, kw_only=True)
class NamesOrHoles:
    """Placed parts, holes, or a list of them."""

    label: str = "placed parts, holes, or a list of them"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> tuple[Name | HoleChoice, ...] | None:
        """Return what is named, in the order written; a name without a point is a part."""
        items = node.items if isinstance(node, Items) else [node]
        if not items:
            reading.bad(node, "The list is empty.", f"Here belong {self.label}.", "Write parts or holes.")
            return None
        found = tuple(self._one(reading, item) for item in items)
        return None if None in found else tuple(one for one in found if one is not None)

    def _one(self, reading: Reading, node: Node) -> Name | HoleChoice | None:
        text = reading.text(node, self.label)
        if text is None:
            return None
        if "." not in text:
            name: Name | None = OneName.read(reading, node)
            return name
        choice = hole_choice(text, reading.at(node))
        if isinstance(choice, Slip):
            reading.slip(node, choice)
            return None
        return choice

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return NameList.schema()


@dataclass(frozen=True, slots=True, kw_only=True)
class TemplateOrNames:
    """A row of a template, through which the drill is led; or placed parts that the stacks must have."""

    label: str = "a row `TEMPLATE.ROW`, or placed parts"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> HoleChoice | tuple[Name, ...] | None:
        """Return the row of the template, or the parts."""
        items = node.items if isinstance(node, Items) else [node]
        rows = [item for item in items if isinstance(item, Scalar) and "." in item.text]
        if not rows:
            names: tuple[Name, ...] | None = NameList.read(reading, node)
            return names
        if len(items) > 1:
            reading.bad(
                rows[0],
                f"`{as_name(rows[0].text)}` does not go with other names.",
                "A drill is led through one row of one template; parts without a row narrow the choice.",
                "Write the row alone, and a step for each row.",
            )
            return None
        row: HoleChoice | None = HoleText(several=False).read(reading, rows[0])
        return row

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return NameList.schema()


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


_HEADS = Choice(words=("upper", "lower", "outside", "inside"), label="a side of the head")

THROUGH = Field(word="through", kind=NameList, help="Only stacks that have these placed parts as layers.")
FILTERS = (
    Field(word="size", kind=OneName, help="Only holes of this size."),
    Field(word="with", kind=OneFastener, help="Only holes for this fastener."),
    Field(
        word="forward of",
        kind=ForwardOf(),
        help="Only holes forward of a placed part, or of a line such as `x=200`, `y=6`.",
    ),
    Field(word="except", kind=HoleText(), help="Not these holes."),
)
"""What narrows a choice of holes down, `THROUGH` apart."""


def narrowed(values: Values, through: tuple[Name, ...] | None = None) -> HoleFilter:
    """Return the filters of a step; ``through`` None: as written."""
    return HoleFilter(
        through=values.get("through", ()) if through is None else through,
        size=values.get("size"),
        fastener=values.get("with"),
        forward_of=values.get("forward of"),
        excluded=values.get("except", ()),
    )
