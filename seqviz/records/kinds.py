"""Kinds of single values: how each is read from a node, and how the JSON Schema and the docs tell of it.

A kind's ``read`` returns None where the value is wrong; the finding is made by then.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Protocol

from seqviz.records.nodes import Node
from seqviz.records.reading import Reading
from seqviz.records.words import as_name, as_word, listed, meant, name_mistake
from seqviz.units import LENGTH_PATTERN, Slip, degrees, length, number

__all__ = ["Angle", "Choice", "FreeName", "Kind", "Length", "NameText", "Number", "Text", "Whole", "YesNo"]

LONGEST = 100_000.0
"""mm; a longer part is a slip of the unit."""


class Kind(Protocol):
    """What a value may be."""

    @property
    def label(self) -> str:
        """The kind in words: ``a length``."""

    @property
    def unit(self) -> str:
        """``mm``, ``degrees`` or nothing."""

    def read(self, reading: Reading, node: Node) -> Any | None:
        """Return the value, or None where it is wrong."""

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema of the value."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """Any text."""

    label: str = "a text"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> str | None:
        """Return the text as written."""
        text = reading.text(node, self.label)
        return None if text is None else text.strip()

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema: numbers are texts too."""
        return {"type": ["string", "number"]}


@dataclass(frozen=True, slots=True, kw_only=True)
class NameText:
    """A name: letters, digits, spaces, hyphens (and the signs ``allowed``)."""

    label: str = "a name"
    allowed: str = ""
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> str | None:
        """Return the name, inner blanks collapsed."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        name = as_name(text)
        wrong = name_mistake(name, self.allowed)
        if wrong is None:
            return name
        reading.bad(
            node,
            f"`{name}` holds `{wrong}`.",
            "Names hold letters, digits, spaces and hyphens, so that `PLACED.ROW.N` can be told apart.",
            f"Write it without `{wrong}`.",
        )
        return None

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": ["string", "number"]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length in mm, from ``low`` on; ``above``: longer than that."""

    low: float | None = None
    above: float | None = None
    label: str = "a length"
    unit: str = "mm"

    def read(self, reading: Reading, node: Node) -> float | None:
        """Return the length in mm."""
        text = reading.text(node, self.label)
        return None if text is None else self.of_text(reading, node, text)

    def of_text(self, reading: Reading, node: Node, text: str) -> float | None:
        """Return the length that ``text`` says, mm; a finding stands at ``node``."""
        value = length(text, reading.units)
        if isinstance(value, Slip):
            reading.slip(node, value)
            return None
        if self.above is not None and value <= self.above:
            reading.bad(
                node, f"`{text}` is too small.", f"Here belongs a length above {self.above:g}.", "Correct it."
            )
            return None
        if self.low is not None and value < self.low:
            reading.bad(
                node, f"`{text}` is too small.", f"Here belongs a length from {self.low:g} on.", "Correct it."
            )
            return None
        if abs(value) > LONGEST:
            reading.bad(
                node, f"`{text}` is more than 100 m.", "No part is.", "Check the number and its unit."
            )
            return None
        return value

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        numeric: dict[str, Any] = {"type": "number"}
        if self.above is not None:
            numeric["exclusiveMinimum"] = self.above
        if self.low is not None:
            numeric["minimum"] = self.low
        return {"anyOf": [numeric, {"type": "string", "pattern": LENGTH_PATTERN}]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Angle:
    """An angle in degrees from ``low`` to ``high``."""

    low: float
    high: float
    label: str = "an angle"
    unit: str = "degrees"

    def read(self, reading: Reading, node: Node) -> float | None:
        """Return the angle in degrees."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        value = degrees(text)
        return _within(reading, node, text, value, (self.low, self.high))

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        numeric = {"type": "number", "minimum": self.low, "maximum": self.high}
        return {"anyOf": [numeric, {"type": "string", "pattern": "^ *[0-9.]+ *(deg|degree|degrees|°)? *$"}]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A plain number from ``low`` to ``high``."""

    low: float = 0.0
    high: float = 1e6
    label: str = "a number"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> float | None:
        """Return the number."""
        text = reading.text(node, self.label)
        return None if text is None else _within(reading, node, text, number(text), (self.low, self.high))

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": "number", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """A whole number from ``low`` to ``high``."""

    low: int = 1
    high: int = 10_000
    label: str = "a whole number"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> int | None:
        """Return the number; ``010`` is 10."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        if re.fullmatch(r"\s*[+-]?[0-9]{1,12}\s*", text):
            value = _within(reading, node, text, float(int(text)), (self.low, self.high))
            return None if value is None else int(value)
        slip = number(text)
        if isinstance(slip, Slip):
            reading.slip(node, slip)
        else:
            reading.bad(
                node, f"`{text}` is no whole number.", "Here things are counted.", "Write a whole number."
            )
        return None

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True, slots=True, kw_only=True)
class YesNo:
    """Yes or no."""

    label: str = "yes or no"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> bool | None:
        """Return True for yes."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        said = {"yes": True, "true": True, "no": False, "false": False}.get(as_word(text))
        if said is None:
            reading.bad(
                node, f"`{text}` is neither yes nor no.", "Here belongs yes or no.", "Write yes or no."
            )
        return said

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema; YAML 1.1 editors see yes and no as booleans."""
        return {"enum": ["yes", "no", True, False]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One of some ``words``; ``not_yet`` are words of the file format that this version does not know yet.

    ``exact``: a hyphen is a minus sign here, not a blank. ``mistake``: the finding's kind for any other word.
    """

    words: tuple[str, ...]
    label: str
    not_yet: tuple[str, ...] = ()
    exact: bool = False
    mistake: str = "unknown-word"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> str | None:
        """Return the word in its usual form."""
        text = reading.text(node, self.label)
        return None if text is None else self.of_text(reading, node, text)

    def of_text(self, reading: Reading, node: Node, text: str) -> str | None:
        """Return the word that ``text`` is; a finding stands at ``node``."""
        form = str.strip if self.exact else as_word
        word = form(text)
        for known in self.words:
            if word == form(known):
                return known
        why = f"Here belongs {self.label}: {listed(self.words)}."
        if word in self.not_yet:
            reading.report(
                "unknown-word",
                node,
                f"This version of seqviz does not know `{word}` yet.",
                why,
                "Leave it out for now.",
            )
            return None
        near = meant(text, self.words)
        fix = f"Did you mean `{near}`?" if near else "Write one of these."
        reading.report(self.mistake, node, f"`{text.strip()}` is not {self.label}.", why, fix)
        return None

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"enum": list(self.words)}


FreeName = NameText(label="a fastener's name", allowed='./"″')
"""The name of a fastener, as in ``hardware``: ``blind rivet 3.2``, ``solid rivet 1/8``."""


def _within(
    reading: Reading, node: Node, text: str, value: float | Slip, limits: tuple[float, float]
) -> float | None:
    if isinstance(value, Slip):
        reading.slip(node, value)
        return None
    if limits[0] <= value <= limits[1]:
        return value
    reading.bad(
        node,
        f"`{text.strip()}` is out of range.",
        f"Here belongs a number from {limits[0]:g} to {limits[1]:g}.",
        "Correct it.",
    )
    return None
