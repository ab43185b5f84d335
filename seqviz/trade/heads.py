"""Sizes of heads and tails: what stands above the sheet on both ends of a fastener, mm."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["CUSTOM", "INCH", "Head", "head_size", "tail_size", "washer_height"]

INCH = 25.4
CUSTOM = "common practice, no source"

# MS20470 universal head, from memory (not read in the standard): shank, head diameter, head height, in.
_MS20470 = (
    (3 / 32, 0.187, 0.040),
    (1 / 8, 0.250, 0.054),
    (5 / 32, 0.312, 0.067),
    (3 / 16, 0.375, 0.080),
)
# AN365 self-locking nuts, from memory, to be checked: shank, height, in.
_AN365 = ((3 / 16, 0.250), (1 / 4, 0.328), (5 / 16, 0.359), (3 / 8, 0.453))
_WASHER = 0.063  # AN960, in, from memory
_SAME_SIZE = 0.02  # mm: a metric writing of an inch size (3.18 for 1/8 in) is that size


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A head or tail as a round solid: ``diameter`` and ``height`` in mm, and where the figures come from."""

    diameter: float
    height: float
    source: str


def head_size(kind: str, diameter: float) -> Head:
    """Return the manufactured head of a fastener of ``kind`` with a shank of ``diameter`` mm.

    A kind other than ``solid rivet`` and ``bolt`` is taken as a blind rivet.
    """
    if kind == "solid rivet":
        return _solid_head(diameter)
    if kind == "bolt":
        return Head(diameter=2.3 * diameter, height=0.7 * diameter, source=CUSTOM)
    return Head(diameter=2.0 * diameter, height=0.3 * diameter, source=CUSTOM)


def tail_size(kind: str, diameter: float) -> Head:
    """Return what is on the other end once the fastener is set: formed head, bulb, or washer and nut.

    How far a blind rivet's bulb stands out depends on its length and the grip; its height here is the rule
    of thumb that `seqviz.trade.fasteners.protrusion` falls back on.
    """
    if kind == "solid rivet":
        source = "FAA AC 43.13-1B, figure 4-6a, 1.5 D wide and 0.5 D high (secondary)"
        return Head(diameter=1.5 * diameter, height=0.5 * diameter, source=source)
    if kind == "bolt":
        return _nut(diameter)
    return Head(diameter=1.6 * diameter, height=1.5 * diameter, source=CUSTOM)


def washer_height(diameter: float) -> float:
    """Return how much of a bolt's tail is its washer, mm: an AN960 one, of other sizes 0.3 D (`CUSTOM`)."""
    listed = any(abs(shank * INCH - diameter) <= _SAME_SIZE for shank, _ in _AN365)
    return _WASHER * INCH if listed else 0.3 * diameter


def _solid_head(diameter: float) -> Head:
    for shank, width, height in _MS20470:
        if abs(shank * INCH - diameter) <= _SAME_SIZE:
            return Head(diameter=width * INCH, height=height * INCH, source="MS20470, from memory")
    source = "2.0 D x 0.43 D, the proportions of MS20470, from memory"
    return Head(diameter=2.0 * diameter, height=0.43 * diameter, source=source)


def _nut(diameter: float) -> Head:
    for shank, height in _AN365:
        if abs(shank * INCH - diameter) <= _SAME_SIZE:
            source = "AN365 nut on an AN960 washer, from memory"
            return Head(diameter=2.3 * diameter, height=(height + _WASHER) * INCH, source=source)
    return Head(diameter=2.3 * diameter, height=1.7 * diameter, source=CUSTOM)
