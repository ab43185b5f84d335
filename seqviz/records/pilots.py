"""Pilot holes: smaller than the holes that they become."""

from __future__ import annotations

from collections.abc import Mapping

from seqviz.records.model import Row, Size
from seqviz.records.reading import Reading

__all__ = ["pilot_stands"]


def pilot_stands(reading: Reading, row: Row, sizes: Mapping[str, Size]) -> bool:
    """Say whether every hole of a row is wider than its pilot, as far as sizes are known; note where not.

    It is told once, however many parts repeat the row.
    """
    if row.pilot is None:
        return True
    named = [row.size.text] if row.size else []
    named += [other.size for other in row.exceptions if other.size is not None]
    wide = [sizes[name].diameter for name in named if name in sizes]
    wide += [row.diameter] if row.diameter else []
    if not wide or row.pilot < min(wide):
        return True
    place = row.pilot_at or row.at
    if place not in {finding.at for finding in reading.findings}:
        reading.bad(
            place,
            f"A pilot of {row.pilot:g} mm is no smaller than the hole of {min(wide):g} mm.",
            "A pilot is opened to the hole's size by a step `drill`.",
            "Write a smaller pilot, or leave it out if the hole is punched in its size.",
        )
    return False
