"""Rows entered once for both sides of the mirror line."""

from __future__ import annotations

import numpy as np

from seqviz.findings import Finding
from seqviz.geometry.pose import Array
from seqviz.parts.edges import directions
from seqviz.parts.mistakes import bad_value, missing_word
from seqviz.parts.part import Flat
from seqviz.records.model import MirrorLine, Row

__all__ = ["twin_places", "twin_words"]

ON_THE_LINE = 0.01
"""mm: a hole nearer to the mirror line than this lies on it."""


def twin_words(forward: str, line: MirrorLine) -> tuple[str, str]:
    """Return what the two sides are called: left and right, or forward and aft where the line runs across."""
    return ("forward", "aft") if line.axis == forward[-1] else ("left", "right")


def twin_places(
    row: Row, flat: Flat, places: Array, forward: str, line: MirrorLine | None
) -> dict[str, Array] | Finding:
    """Return the rows that a row for both sides makes: name -> places, left (or forward) first.

    ``places`` is (n, 2), mm, on ``flat``, whose coordinates must be those of the base. Place k of the one
    mirrors place k of the other.
    """
    if line is None:
        return missing_word(
            row.at,
            f"Row {row.name} is for both sides, but the model has no mirror line.",
            "Both sides are the two sides of the mirror line.",
            "Write mirror line: y=.. or x=.. at the top of the model.",
        )
    if not np.array_equal(flat.frame.rotation, np.eye(3)):
        return bad_value(
            row.at,
            f"Row {row.name}: both sides does not work on {flat.name}.",
            "The mirror line lies in the base's own x and y.",
            "Write a row for each side.",
        )
    column = 0 if line.axis == "x" else 1
    offset = places[:, column] - line.value
    if not ((offset > ON_THE_LINE).all() or (offset < -ON_THE_LINE).all()):
        return bad_value(
            row.at,
            f"Row {row.name} crosses the mirror line {line.axis}={line.value:g} or lies on it.",
            "A row for both sides lies wholly on one side; the other is its mirror image.",
            "Write one side only, or leave out both sides.",
        )
    mirrored = places.copy()
    mirrored[:, column] = 2 * line.value - places[:, column]
    words = twin_words(forward, line)
    towards = directions(forward)[words[0]][column]
    first_is_own = float(offset.mean()) * towards > 0
    pair = (places, mirrored) if first_is_own else (mirrored, places)
    return {f"{row.name} {word}": side for word, side in zip(words, pair, strict=True)}
