"""``measured to``: how far lengths taken with a tape may be off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from seqviz.records.kinds import Length
from seqviz.records.model import Measured
from seqviz.records.nodes import Node
from seqviz.records.reading import Reading
from seqviz.records.tables import Field

__all__ = ["MEASURED_TO", "MeasuredTo"]

_LOOSEST = 10.0
"""mm: with more nothing would be left to check (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredTo:
    """A length above 0 and up to 10 mm, kept with its place."""

    label: str = "a length"
    unit: str = "mm"

    def read(self, reading: Reading, node: Node) -> Measured | None:
        """Return the length and where it stands."""
        value = Length(above=0.0).read(reading, node)
        if value is None or value <= _LOOSEST:
            return None if value is None else Measured(to=value, at=reading.at(node))
        reading.bad(
            node,
            "More than 10 mm are no measure.",
            "Holes, gaps and interference of up to this much are not reported.",
            "Measure again, or leave the dimensions out (shape: sketch).",
        )
        return None

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return Length(above=0.0).schema()


MEASURED_TO = Field(
    word="measured to",
    kind=MeasuredTo(),
    help="How far taped lengths may be off: so much more may holes, gaps and interference be; told once.",
)
"""The word of a model, and of a part."""
