"""How wide a hole is, as people write it: a length, or the drill that makes it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from seqviz.records.kinds import Length, NameText
from seqviz.records.lists import Word
from seqviz.records.nodes import Node
from seqviz.records.reading import Reading
from seqviz.records.words import as_name, name_mistake
from seqviz.trade.drills import DRILL_PATTERN, drill, looks_like_a_drill
from seqviz.units import Slip, length

__all__ = ["HoleWidth", "OneSize", "SizeName", "says_a_width"]

_LENGTH = Length(above=0.0, label="a hole's diameter")
_FRACTION = re.compile(r"\s*(?:[0-9]+[ -]+)?[0-9]+\s*/\s*[0-9]+\s*")
_WORDS = re.compile(r"\s*[A-Za-z#].*", re.DOTALL)
_WHY = "Here stands a hole's diameter: a length such as 3.3 or 3/32\", or a drill such as No. 30 or letter F."
_SERIES = "Drills by number are No. 80 (0.34 mm) to No. 1 (5.79 mm), by letter A (5.94 mm) to Z (10.49 mm)."


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleWidth:
    """The diameter of a hole in mm, above 0.

    A drill by number or letter counts by the table, a bare fraction is inches in any file: it is a drill too.
    """

    label: str = "a hole's diameter"
    unit: str = "mm"

    def read(self, reading: Reading, node: Node) -> float | None:
        """Return the diameter in mm."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        if looks_like_a_drill(text):
            found = drill(text)
            if found is None:
                fix = "Write a drill that there is, or the diameter itself."
                reading.bad(node, f"There is no drill `{text.strip()}`.", _SERIES, fix)
            return found.diameter if found else None
        if _WORDS.fullmatch(text):
            reading.bad(
                node,
                f"`{text.strip()}` is not a hole's diameter.",
                _WHY,
                "Write the diameter, or the drill as `No. 30` or `letter F`.",
            )
            return None
        return _LENGTH.of_text(reading, node, f"{text.strip()} in" if _FRACTION.fullmatch(text) else text)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [*_LENGTH.schema()["anyOf"], {"type": "string", "pattern": DRILL_PATTERN}]}


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeName:
    """The name of a size. A drill or a length in its place (`size: No. 30`) is told what it is."""

    label: str = "a name"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> str | None:
        """Return the name, inner blanks collapsed."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        if name_mistake(as_name(text)) is None or not says_a_width(text, reading.units):
            return NameText(label=self.label).read(reading, node)
        reading.bad(
            node,
            f"`{text.strip()}` is a width, not the name of a size.",
            "A size is an entry of `sizes`, with a diameter and a fastener.",
            f"Add `NAME: {{diameter: {text.strip()}}}` to `sizes` and write its name here.",
        )
        return None

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return NameText().schema()


OneSize = Word(of=SizeName())
"""The name of a size with its place."""


def says_a_width(text: str, units: str) -> bool:
    """Say whether ``text`` is a diameter or a drill, whatever its number; ``units`` of the file."""
    fraction = _FRACTION.fullmatch(text)
    return looks_like_a_drill(text) or bool(fraction) or not isinstance(length(text, units), Slip)
