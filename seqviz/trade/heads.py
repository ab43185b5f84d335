"""Sizes of heads and tails: what stands above the sheet on both ends of a fastener, mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from seqviz.trade.bolts import nuts, washers
from seqviz.trade.formed_heads import formed_head_target
from seqviz.trade.tables import INCH, Row, rows, same_size

__all__ = [
    "CUSTOM",
    "FLUSH_ANGLE",
    "INCH",
    "Head",
    "flush_head",
    "head_size",
    "sunk_head",
    "tail_size",
    "unset_shank",
    "washer_height",
]

CUSTOM = "common practice, no source"

FLUSH_ANGLE = 100.0
"""Degrees, from side to side of a countersunk head of which nobody says more (MS20426, from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A head or tail as a round solid: ``diameter`` and ``height`` in mm, and where the figures come from."""

    diameter: float
    height: float
    source: str


@cache
def head_size(kind: str, diameter: float) -> Head:
    """Return the manufactured head of a fastener of ``kind`` with a shank of ``diameter`` mm.

    A kind other than ``solid rivet`` and ``bolt`` is taken as a blind rivet.
    """
    if kind == "solid rivet":
        return _listed_head("universal", diameter) or _by_rule(kind, "head", diameter)
    return _by_rule("bolt" if kind == "bolt" else "blind rivet", "head", diameter)


@cache
def flush_head(diameter: float) -> Head | None:
    """Return the 100 degree countersunk head of a solid rivet of ``diameter`` mm, or None: not listed.

    Its ``height`` is how deep it sits in the sheet.
    """
    return _listed_head("countersunk 100", diameter)


@cache
def sunk_head(
    kind: str,
    diameter: float,
    angle: float = FLUSH_ANGLE,
    across: float | None = None,
    deep: float | None = None,
) -> Head:
    """Return a head that lies flush: how wide it is at the face, and how deep it sits.

    Parameters
    ----------
    kind, diameter
        Of the fastener; the shank in mm.
    angle
        Degrees, of the cone from side to side.
    across, deep
        Diameter and height of the head, mm, as its maker tells them; None: not told.

    Notes
    -----
    100 degree solid rivets are listed (MS20426). What is not told or listed is 1.8 D wide, the proportion of
    those, and as deep as the angle makes it: half of what the head is wider than the shank, by the tangent of
    half the angle.
    """
    listed = flush_head(diameter) if kind == "solid rivet" and angle == FLUSH_ANGLE else None
    known = listed or _by_rule("solid rivet", "flush head", diameter)
    wide = across or known.diameter
    computed = max(0.0, wide - diameter) / 2 / math.tan(math.radians(angle) / 2)
    if across is None and deep is None and listed:
        return listed
    return Head(
        diameter=wide,
        height=deep or computed,
        source="the maker's head in `hardware`" if across or deep else known.source,
    )


@cache
def tail_size(kind: str, diameter: float) -> Head:
    """Return what is on the other end once the fastener is set: formed head, bulb, or washer and nut.

    How far a blind rivet's bulb stands out depends on its length and the grip; its height here is the rule
    of thumb that `seqviz.trade.fasteners.protrusion` falls back on.
    """
    if kind == "solid rivet":
        formed = formed_head_target(diameter)
        return Head(diameter=formed.width, height=formed.height, source=formed.citation)
    return _nut(diameter) if kind == "bolt" else _by_rule("blind rivet", "tail", diameter)


@cache
def washer_height(diameter: float) -> float:
    """Return how much of a bolt's tail is its washer, mm: an AN960 one, of other sizes 0.3 D (`CUSTOM`)."""
    listed = washers(diameter)
    return listed[0].thickness if listed else _by_rule("bolt", "washer", diameter).height


@cache
def unset_shank(diameter: float) -> Head:
    """Return what stands out of a solid rivet of ``diameter`` mm before it is driven, 1.5 D."""
    return _by_rule("solid rivet", "shank before driving", diameter)


def _listed_head(style: str, diameter: float) -> Head | None:
    for row in rows("rivet_heads"):
        if row.text("head") == style and same_size(row.mm("shank"), diameter):
            return Head(diameter=row.mm("head diameter"), height=row.mm("head height"), source=row.citation)
    return None


def _by_rule(kind: str, what: str, diameter: float) -> Head:
    row: Row = next(row for row in rows("head_rules") if (row.text("kind"), row.text("what")) == (kind, what))
    return Head(
        diameter=row.number("diameter D") * diameter,
        height=row.number("height D") * diameter,
        source=row.citation,
    )


def _nut(diameter: float) -> Head:
    wide = _by_rule("bolt", "nut", diameter)
    listed = nuts(diameter)
    if not listed:
        return wide
    height = listed[0].height + washer_height(diameter)
    return Head(diameter=wide.diameter, height=height, source="AN365 nut on an AN960 washer, from memory")
