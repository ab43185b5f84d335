"""Tables of fields: one table per record drives its reader, the JSON Schema and the docs."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from seqviz.findings import At
from seqviz.records.kinds import Kind
from seqviz.records.nodes import Mapping, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.words import as_name, as_word, listed, meant

__all__ = ["Field", "Record", "Values", "by_name", "every_record", "lacks"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One word of a record: the kind of its value, what it says, and whether it must be there.

    ``instead`` is another word that may stand in its place where it must be there.
    """

    word: str
    kind: Kind
    help: str
    required: bool = False
    instead: str | None = None


@dataclass(slots=True, kw_only=True, eq=False)
class Values:
    """What one record holds, as far as it could be read.

    Attributes
    ----------
    found
        Word -> value, of those that are right.
    keys, nodes
        Word -> where it and its value stand, of all known words written.
    extra
        Keys and values of `Record.extra`.
    place
        Where the record stands: its name, or its first word.
    failed
        Something in it is wrong, and a finding was made.
    """

    place: Node
    found: dict[str, Any] = field(default_factory=dict)
    keys: dict[str, Scalar] = field(default_factory=dict)
    nodes: dict[str, Node] = field(default_factory=dict)
    extra: list[tuple[Scalar, Node]] = field(default_factory=list)
    failed: bool = False

    @property
    def name(self) -> str:
        """The name of an entry that has one."""
        return as_name(self.place.text) if isinstance(self.place, Scalar) else ""

    def get(self, word: str, otherwise: Any = None) -> Any:
        """Return the value of ``word``, or ``otherwise`` where it is not there."""
        return self.found.get(word, otherwise)

    def has(self, word: str) -> bool:
        """Say whether ``word`` is written, rightly or not."""
        return word in self.keys

    def fail(self) -> None:
        """Note that the record is wrong."""
        self.failed = True


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Record:
    """A map with known words.

    Attributes
    ----------
    title
        In words, with article: ``a row of holes``.
    help
        What it is for, for the docs.
    fields
        The table.
    build
        Makes the record from its values; None where it is wrong.
    not_yet
        Words of the file format that this version does not know yet.
    refused
        Words that have no sense here, and why.
    extra, extra_kind
        Keys that are no words (hole numbers): their pattern, and the kind of their values.
    """

    title: str
    help: str
    fields: tuple[Field, ...]
    build: Callable[[Reading, Values], Any]
    not_yet: tuple[str, ...] = ()
    refused: tuple[tuple[str, str], ...] = ()
    extra: str | None = None
    extra_kind: Kind | None = None
    unit: str = ""
    _by_word: dict[str, Field] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self._by_word.update({as_word(entry.word): entry for entry in self.fields})

    @property
    def label(self) -> str:
        """The title."""
        return self.title

    def read(self, reading: Reading, node: Node) -> Any | None:
        """Return the record that stands at ``node``."""
        return self.read_at(reading, node, node)

    def read_at(self, reading: Reading, node: Node, place: Node) -> Any | None:
        """Return the record at ``node``; what it lacks is told at ``place``."""
        values = self.values(reading, node, place)
        return None if values is None else self.build(reading, values)

    def values(self, reading: Reading, node: Node, place: Node) -> Values | None:
        """Read all words, note what is unknown, missing or wrong; None where ``node`` is no map."""
        mapping = reading.mapping(node, self.title)
        if mapping is None:
            return None
        values = Values(place=place)
        unknown: list[Scalar] = []
        meant_words: set[str | None] = set()
        for index, (key, value) in enumerate(mapping.pairs):
            entry = self._by_word.get(as_word(key.text))
            if (
                entry is None
                and self.extra
                and re.fullmatch(self.extra, key.text.strip())
                and not _bare(value)
            ):
                values.extra.append((key, value))
            elif entry is not None:
                self._take(reading, values, entry, (key, value))
            else:
                values.fail()
                if _glued(reading, key, value):
                    meant_words.add(as_word(key.text.partition(":")[0]))
                elif not _split_by_comma(reading, mapping, index):
                    unknown.append(key)
        meant_words |= {self._unknown(reading, key, values) for key in unknown}
        self._missing(reading, values, meant_words)
        return values

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema; spaces, underscores and hyphens in words are alike."""
        properties: dict[str, Any] = {}
        patterns: dict[str, Any] = {}
        for entry in self.fields:
            shown = {**entry.kind.schema(), "description": entry.help}
            properties[entry.word] = shown
            if " " in entry.word:
                patterns[f"^{entry.word.replace(' ', '[ _-]')}$"] = entry.kind.schema()
        if self.extra and self.extra_kind:
            patterns[f"^{self.extra}$"] = self.extra_kind.schema()
        form: dict[str, Any] = {"type": "object", "properties": properties, "additionalProperties": False}
        if patterns:
            form["patternProperties"] = patterns
        needed = [entry for entry in self.fields if entry.required and entry.instead is None]
        required = [entry.word for entry in needed if " " not in entry.word]
        if required:
            form["required"] = required
        return form

    def _take(self, reading: Reading, values: Values, entry: Field, pair: tuple[Scalar, Node]) -> None:
        key, value = pair
        if entry.word in values.keys:
            reading.duplicate(f"`{entry.word}`", key, values.keys[entry.word])
            values.fail()
            return
        values.keys[entry.word] = key
        values.nodes[entry.word] = value
        found = None
        if isinstance(value, Scalar) and value.empty and not value.lost:
            # A list or a map that may be empty needs no brackets for that.
            found = getattr(entry.kind, "nothing", None)
        if found is None and not reading.without_value(key, value, entry.kind.label):
            found = entry.kind.read(reading, value)
        if found is None:
            values.fail()
        else:
            values.found[entry.word] = found

    def _unknown(self, reading: Reading, key: Scalar, values: Values) -> str | None:
        """Note an unknown word; return the word that was probably meant."""
        word = as_word(key.text)
        open_words = [entry.word for entry in self.fields if entry.word not in values.keys]
        near = meant(word, open_words)
        why = f"The words of {self.title}: {listed((entry.word for entry in self.fields), most=30)}."
        message, fix = (
            f"`{key.text}` is no word of {self.title}.",
            "Use one of these words, or delete the line.",
        )
        if word in self.not_yet:
            message, fix = f"This version of seqviz does not know `{word}` yet.", "Leave it out for now."
        elif word in dict(self.refused):
            message, why = f"`{key.text}` has no sense in {self.title}.", dict(self.refused)[word]
            fix = "Delete it."
        elif near:
            fix = f"Did you mean `{near}`?"
        reading.report("unknown-word", key, message, why, fix)
        return near

    def _missing(self, reading: Reading, values: Values, guesses: set[str | None]) -> None:
        for entry in self.fields:
            if entry.required and not values.keys.keys() & {entry.word, entry.instead}:
                values.fail()
                if entry.word not in guesses:
                    lacks(reading, values.place, self.title, entry)


def lacks(reading: Reading, place: Node | At, title: str, entry: Field) -> None:
    """Note that ``entry`` is missing from ``title``."""
    reading.report(
        "missing-word",
        place,
        f"`{entry.word}` is missing.",
        f"It is needed in {title}: {entry.help}",
        f"Add `{entry.word}: ` and {entry.kind.label}.",
    )


def by_name(record: Record) -> Callable[[Reading, str, Scalar, Node], Any | None]:
    """Return what reads an entry of that record under its name, for `Entries`."""
    return lambda reading, _name, key, value: record.read_at(reading, value, key)


def every_record(kind: Kind, seen: set[int]) -> Iterator[Record]:
    """Yield the records that ``kind`` consists of, each once, outer ones first."""
    parts: list[Any] = []
    if isinstance(kind, Record):
        if id(kind) in seen:
            return
        seen.add(id(kind))
        yield kind
        parts = [entry.kind for entry in kind.fields]
    parts += [
        getattr(kind, name) for name in ("each", "value", "of", "extra_kind") if getattr(kind, name, None)
    ]
    parts += getattr(kind, "alternatives", ())
    for part in parts:
        yield from every_record(part, seen)


def _bare(value: Node) -> bool:
    return isinstance(value, Scalar) and value.empty


def _split_by_comma(reading: Reading, mapping: Mapping, index: int) -> bool:
    """Note ``{diameter: 3,3}``, which YAML reads as 3 and a word 3 without a value."""
    key, value = mapping.pairs[index]
    if not _bare(value) or index == 0:
        return False
    before = mapping.pairs[index - 1][1]
    if (
        not isinstance(before, Scalar)
        or not re.match(r"[0-9]", key.text)
        or not re.search(r"[0-9]$", before.text)
    ):
        return False
    if (before.line, before.column + len(before.text) + 1) != (key.line, key.column):
        return False
    reading.bad(
        before,
        f"A comma splits `{before.text},{key.text}` in two.",
        "Inside {..} and [..] a comma tells entries apart.",
        f"A decimal point: `{before.text}.{key.text}`. Several holes: a list, each written out.",
    )
    return True


def _glued(reading: Reading, key: Scalar, value: Node) -> bool:
    """Note ``{foot.1:rail.1}``, which YAML reads as one word without a value."""
    before, colon, behind = key.text.partition(":")
    if not _bare(value) or not colon or not behind.strip():
        return False
    reading.bad(
        key,
        f"A colon without a space after it: `{key.text}`.",
        "Word and value are told apart by a colon and a space.",
        f"Write `{before}: {behind}`.",
    )
    return True
