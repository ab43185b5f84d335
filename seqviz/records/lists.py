"""Kinds of values with several entries: points, pairs, lists, names with entries."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from seqviz.records.kinds import Kind, Length, NameText
from seqviz.records.model import Name
from seqviz.records.nodes import Items, Mapping, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.words import likely_names

__all__ = ["Entries", "ListOf", "NameList", "Numbers", "OneName", "OneOrMore", "ReadEntries", "Word"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbers:
    """A fixed count of values of one kind: a point, a pair of legs."""

    count: int
    each: Kind = field(default_factory=Length)
    label: str = "a point [x, y]"

    @property
    def unit(self) -> str:
        """The unit of each."""
        return self.each.unit

    def read(self, reading: Reading, node: Node) -> tuple[Any, ...] | None:
        """Return the values."""
        items = reading.items(node, self.label)
        if items is None:
            return None
        if len(items) != self.count:
            comma = " A decimal comma would split a number in two." if len(items) > self.count else ""
            reading.bad(
                node,
                f"{len(items)} values stand here, not {self.count}.",
                f"Here belongs {self.label}.{comma}",
                f"Write {self.count} values with a comma between; decimals with a point.",
            )
            return None
        values = tuple(self.each.read(reading, item) for item in items)
        return None if None in values else values

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": "array", "items": self.each.schema(), "minItems": self.count, "maxItems": self.count}


@dataclass(frozen=True, slots=True, kw_only=True)
class ListOf:
    """A list of values of one kind, ``least`` of them at least.

    ``alone``: one may stand without brackets. ``keep``: wrong entries are left out and spoil nothing else.
    """

    each: Kind
    label: str
    least: int = 1
    alone: bool = False
    keep: bool = False

    @property
    def unit(self) -> str:
        """The unit of each."""
        return self.each.unit

    @property
    def nothing(self) -> tuple[Any, ...] | None:
        """What an empty value means, None where it is a mistake."""
        return None if self.least else ()

    def read(self, reading: Reading, node: Node) -> tuple[Any, ...] | None:
        """Return the values, None where one of them is wrong."""
        if self.alone and isinstance(node, Scalar | Mapping):
            value = self.each.read(reading, node)
            return None if value is None else (value,)
        items = reading.items(node, self.label)
        if items is None:
            return None
        values = tuple(self.each.read(reading, item) for item in items)
        if len(items) < self.least:
            reading.bad(
                node,
                f"{len(items) or 'No'} entries stand here.",
                f"Here belongs {self.label}, {self.least} at least.",
                "Add what is missing.",
            )
            return None
        good = tuple(value for value in values if value is not None)
        return good if self.keep or len(good) == len(values) else None

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        many = {"type": "array", "items": self.each.schema(), "minItems": self.least}
        return {"anyOf": [self.each.schema(), many]} if self.alone else many


@dataclass(frozen=True, slots=True, kw_only=True)
class OneOrMore:
    """A list of lists of numbers, or one of them without the outer brackets."""

    each: Numbers
    label: str

    @property
    def unit(self) -> str:
        """The unit of each."""
        return self.each.unit

    def read(self, reading: Reading, node: Node) -> tuple[Any, ...] | None:
        """Return all of them, one as a tuple of one."""
        if isinstance(node, Items) and node.items and all(isinstance(item, Scalar) for item in node.items):
            value = self.each.read(reading, node)
            return None if value is None else (value,)
        return ListOf(each=self.each, label=self.label).read(reading, node)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [self.each.schema(), ListOf(each=self.each, label=self.label).schema()]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """A value of another kind, kept with its place as a `Name`."""

    of: Kind

    @property
    def label(self) -> str:
        """The other kind's."""
        return self.of.label

    @property
    def unit(self) -> str:
        """The other kind's."""
        return self.of.unit

    def read(self, reading: Reading, node: Node) -> Name | None:
        """Return the text with its place."""
        text = self.of.read(reading, node)
        return None if text is None else Name(text=text, at=reading.at(node))

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return self.of.schema()


OneName = Word(of=NameText())
"""A name with its place."""

NameList = ListOf(each=OneName, label="a name or a list of names", alone=True)
"""One name or several."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReadEntries:
    """Entries by name.

    Attributes
    ----------
    good
        Name -> what was read.
    broken
        Names of entries with a mistake.
    """

    good: dict[str, Any]
    broken: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entries:
    """Names, each with an entry.

    Attributes
    ----------
    entry
        Reads one: ``entry(reading, name, key, value)``; None where it is wrong.
    value
        The kind of the value, for schema and docs.
    name
        The kind of the names.
    """

    entry: Callable[[Reading, str, Scalar, Node], Any | None]
    value: Kind
    label: str
    name: NameText = field(default_factory=NameText)
    unit: str = ""

    @property
    def nothing(self) -> ReadEntries:
        """What an empty value means."""
        return ReadEntries(good={}, broken=frozenset())

    def read(self, reading: Reading, node: Node) -> ReadEntries | None:
        """Return all entries, good and broken; None where ``node`` holds no entries."""
        mapping = reading.mapping(node, self.label)
        if mapping is None:
            return None
        good: dict[str, Any] = {}
        broken: set[str] = set()
        seen: dict[str, Scalar] = {}
        for key, value in mapping.pairs:
            name = self.name.read(reading, key)
            if name is None:
                broken.update(likely_names(key.text))
                continue
            if name in seen:
                reading.duplicate(f"`{name}`", key, seen[name])
                broken.add(name)
                continue
            seen[name] = key
            empty = reading.without_value(key, value, self.value.label)
            entry = None if empty else self.entry(reading, name, key, value)
            if entry is None:
                broken.add(name)
            else:
                good[name] = entry
        good = {name: entry for name, entry in good.items() if name not in broken}
        return ReadEntries(good=good, broken=frozenset(broken))

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": "object", "additionalProperties": self.value.schema()}
