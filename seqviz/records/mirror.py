"""The mirror line, and outlines of which one half is written."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from seqviz.records.kinds import Length
from seqviz.records.model import MirrorLine
from seqviz.records.nodes import Node
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Values

__all__ = ["HALF_OUTLINE", "OWN_MIRROR_LINE", "MirrorText", "whole_outline"]

ON_THE_LINE = 0.01
"""mm: a corner nearer to the mirror line than this lies on it."""

Ring = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MirrorText:
    """``y=180`` or ``x=0``."""

    label: str = "a line `y=180` or `x=0`"
    unit: str = "mm"

    def read(self, reading: Reading, node: Node) -> MirrorLine | None:
        """Return the line."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        found = re.fullmatch(r"\s*([xyXY])\s*=\s*(.+?)\s*", text)
        if found is None:
            reading.bad(
                node, f"`{text}` is no line.", f"Here belongs {self.label}.", "Write y= or x= and a length."
            )
            return None
        value = Length().of_text(reading, node, found[2])
        return None if value is None else MirrorLine(axis=found[1].lower(), value=value)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": "string", "pattern": "^ *[xyXY] *= *.+$"}


OWN_MIRROR_LINE = Field(
    word="mirror line",
    kind=MirrorText(),
    help="Its own, in its own x and y, for a half outline and rows across; left out: that of the model.",
)
"""The word of a part."""

HALF_OUTLINE = "half outline"
"""The word that may stand for ``outline``."""


def whole_outline(reading: Reading, values: Values) -> bool:
    """Put the whole outline in the place of a half one; say whether there is nothing wrong with it.

    The half begins and ends on the mirror line and lies on one side of it. The other half follows from its
    end, mirrored.
    """
    if not values.has(HALF_OUTLINE):
        return True
    if values.has("outline"):
        reading.bad(
            values.keys[HALF_OUTLINE],
            "`half outline` does not go with `outline`.",
            "An outline is written wholly, or half of it where the other half is its mirror image.",
            "Keep one of them.",
        )
        return False
    line = values.get("mirror line") or reading.mirror_line
    if line is None:
        if not reading.mirror_lost:
            _no_line(reading, values)
        return False
    half: Ring = values.get(HALF_OUTLINE)
    column = "xy".index(line.axis)
    away = [point[column] - line.value for point in half]
    ends = abs(away[0]) <= ON_THE_LINE and abs(away[-1]) <= ON_THE_LINE
    if not ends or min(away) < -ON_THE_LINE < ON_THE_LINE < max(away):
        reading.bad(
            values.nodes[HALF_OUTLINE],
            f"This is no half of an outline about the mirror line {line.axis}={line.value:g}.",
            "Its first and its last corner lie on the mirror line, all others on one side of it.",
            "Write the corners in order from the line round one side and back to the line.",
        )
        return False
    values.found["outline"] = half + tuple(_mirrored(point, column, line.value) for point in half[-2:0:-1])
    return True


def _no_line(reading: Reading, values: Values) -> None:
    reading.report(
        "missing-word",
        values.keys[HALF_OUTLINE],
        "`mirror line` is missing.",
        "The other half of an outline is mirrored about the part's own mirror line, or that of the model.",
        "Add `mirror line: y=..` or `x=..` to the part, or to the model.",
    )


def _mirrored(point: tuple[float, float], column: int, value: float) -> tuple[float, float]:
    x, y = point
    return (2 * value - x, y) if column == 0 else (x, 2 * value - y)
