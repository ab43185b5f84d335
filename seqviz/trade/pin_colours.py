"""The colours of temporary fasteners: a custom, and black stands for two sizes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from seqviz.trade.tables import rows, same_size

__all__ = ["PinColour", "colour_of", "sizes_of_colour"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PinColour:
    """The ``colour`` of a temporary fastener for holes of ``diameter`` mm (nominal)."""

    diameter: float
    colour: str
    citation: str


def colour_of(diameter: float) -> PinColour | None:
    """Return the customary colour for rivets of ``diameter`` mm, or None."""
    return next((one for one in _all() if same_size(one.diameter, diameter)), None)


def sizes_of_colour(colour: str) -> tuple[PinColour, ...]:
    """Return every size with that colour, the thinnest first; black has two: look at the stamp."""
    word = colour.casefold()
    return tuple(one for one in _all() if word in one.colour)


@cache
def _all() -> tuple[PinColour, ...]:
    return tuple(
        PinColour(diameter=row.mm("diameter"), colour=row.text("colour"), citation=row.citation)
        for row in rows("pin_colours")
    )
