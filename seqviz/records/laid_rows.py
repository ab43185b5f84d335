"""Entries of ``rows``: what lies over what at numbered holes, before anybody has measured where they are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from seqviz.findings import At
from seqviz.records.hole_widths import HoleWidth, OneSize, SizeName
from seqviz.records.holes import NUMBERS
from seqviz.records.kinds import Whole, YesNo
from seqviz.records.lists import Entries, ListOf, OneName
from seqviz.records.model import LaidRow, Name, OtherLayers, OtherSize
from seqviz.records.nodes import Items, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.rows import SUNK, one_size
from seqviz.records.tables import Field, Record, Values

__all__ = ["ROWS"]

_LAYERS = ListOf(each=OneName, label="a list of placed parts, head side first", least=2)
_SIZE = SizeName(label="a name in sizes, or none")


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeOrLayers:
    """What is said of single holes: another size, ``none``, or other layers."""

    label: str = "a name in sizes, none, or a list of layers, head side first"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> str | tuple[Name, ...] | None:
        """Return a size's name, or the layers."""
        if not isinstance(node, Items):
            return _SIZE.read(reading, node)
        return _layers(reading, node)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [_SIZE.schema(), _LAYERS.schema()]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Layers:
    """The layers at a hole, each part once."""

    label: str = _LAYERS.label
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> tuple[Name, ...] | None:
        """Return the layers, head side first."""
        return _layers(reading, node)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return _LAYERS.schema()


def _layers(reading: Reading, node: Node) -> tuple[Name, ...] | None:
    layers: tuple[Name, ...] | None = _LAYERS.read(reading, node)
    if layers is None:
        return None
    seen: set[str] = set()
    for layer in layers:
        if layer.text in seen:
            reading.bad(
                layer.at,
                f"`{layer.text}` stands twice among the layers.",
                "A part has one layer at a hole; two equal parts have two names in `placed`.",
                "Delete one of them, or give the second piece a name in `placed`.",
            )
            return None
        seen.add(layer.text)
    return layers


def _laid(reading: Reading, values: Values) -> LaidRow | None:
    if values.failed:
        return None
    said = _said_of_single_holes(reading, values)
    if said is None or not one_size(reading, values):
        return None
    sizes, others = said
    return LaidRow(
        name=values.name,
        layers=values.get("layers"),
        count=values.get("count"),
        size=values.get("size"),
        diameter=values.get("diameter"),
        exceptions=tuple(sizes),
        others=tuple(others),
        skip=values.get("skip", ()),
        at=reading.at(values.place),
        countersunk=values.get("countersunk"),
    )


def _said_of_single_holes(
    reading: Reading, values: Values
) -> tuple[list[OtherSize], list[OtherLayers]] | None:
    """Return other sizes and other layers; None where one of them is wrong."""
    sizes: list[OtherSize] = []
    others: list[OtherLayers] = []
    seen: dict[str, Scalar] = {}
    skipped = [
        _beyond(reading, values, (number, number), values.nodes["skip"]) for number in values.get("skip", ())
    ]
    wrong = any(skipped)
    for key, node in values.extra:
        text = key.text.strip()
        if text in seen:
            reading.duplicate(f"`{text}`", key, seen[text])
            wrong = True
            continue
        seen[text] = key
        first, last = (int(end) for end in (text.split("-") * 2)[:2])
        said = _OTHERWISE.read(reading, node)
        if said is None or _beyond(reading, values, (first, last), key):
            wrong = True
        elif isinstance(said, tuple):
            others.append(OtherLayers(first=first, last=last, layers=said, at=reading.at(node)))
        else:
            sizes.append(_other_size((first, last), said, reading.at(node)))
    return None if wrong else (sizes, others)


def _other_size(numbers: tuple[int, int], size: str, at: At) -> OtherSize:
    first, last = numbers
    return OtherSize(first=first, last=last, size=None if size.lower() == "none" else size, at=at)


def _beyond(reading: Reading, values: Values, numbers: tuple[int, int], place: Node) -> bool:
    """Note numbers that the row does not reach, or that run backwards."""
    count = values.get("count")
    if 1 <= numbers[0] <= numbers[1] <= count:
        return False
    reading.bad(
        place,
        f"The row {values.name} has {count} holes; "
        f"{'-'.join(map(str, dict.fromkeys(numbers)))} is not among them.",
        "Holes are numbered from 1; a range goes from the lower number to the higher.",
        "Correct the number, or the count.",
    )
    return True


_OTHERWISE = SizeOrLayers()

_LAID_ROW = Record(
    title="a row of `rows`",
    help="For parts without dimensions: what lies over what. Every layer gets the holes "
    "`PLACED.NAME.1` and so on. A part that is named here and has no entry in `placed` is placed under its "
    "own name. A key `N` or `N-M` gives those holes another size, `none`, or other layers.",
    fields=(
        Field(word="layers", kind=Layers(), help="Placed parts, head side first.", required=True),
        Field(word="count", kind=Whole(), help="How many holes.", required=True),
        Field(word="size", kind=OneSize, help="A name in `sizes`."),
        Field(word="diameter", kind=HoleWidth(), help="Instead of a size."),
        Field(word="countersunk", kind=YesNo(), help=SUNK),
        Field(
            word="skip",
            kind=ListOf(each=Whole(), label="a list of hole numbers"),
            help="Places without a hole; the numbers of the others stay.",
        ),
    ),
    build=_laid,
    extra=NUMBERS,
    extra_kind=_OTHERWISE,
)


def _entry(reading: Reading, name: str, key: Scalar, value: Node) -> Any | None:
    if name.isdigit():
        reading.bad(
            key,
            f"A row cannot be called `{name}`.",
            "A row's name is not only digits, so that it is not taken for a hole's number.",
            "Add a word: `row 3`.",
        )
        return None
    return _LAID_ROW.read_at(reading, value, key)


ROWS = Entries(entry=_entry, value=_LAID_ROW, label="rows by name")
"""``rows``."""
