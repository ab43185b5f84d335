"""How large a section is drawn, and where its layers lie; too thick ones are broken, thin ones thickened."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from seqviz.drawing.hatching import Box
from seqviz.drawing.section import Section, SectionLayer

__all__ = ["CENTRE", "LEFT", "RIGHT", "Band", "Levels", "Untrue", "levels_of"]

Untrue = Literal["broken", "thin", "other"]
"""What is not to scale in height: layers with a break, thin layers, something else."""

LEFT, RIGHT = 24.0, 62.0
"""mm on the page: where the layers end."""

CENTRE = (LEFT + RIGHT) / 2

_REACH = 30.0  # mm: what the widest thing takes between them
_LARGEST = 8.0  # a hole of 1.6 mm need not fill the drawing
_THINNEST, _THICKEST = 2.0, 26.0  # mm on the page, of a layer
_NARROWEST, _WIDEST = 1.4, 14.0  # mm on the page, of a gap
_STICKING_OUT = 30.0  # mm on the page, of a head or a tail
_BREAK = 1.6  # mm on the page between the two lines of a break


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A layer on the page: its top and bottom, and whether a piece out of its middle is left out."""

    layer: SectionLayer
    top: float
    bottom: float
    broken: bool

    @property
    def middle(self) -> float:
        """Half way down, mm on the page."""
        return (self.top + self.bottom) / 2

    @property
    def parts(self) -> tuple[tuple[float, float], ...]:
        """(top, bottom) of what is drawn of it: the whole, or above and below the break."""
        if not self.broken:
            return ((self.top, self.bottom),)
        return ((self.top, self.middle - _BREAK / 2), (self.middle + _BREAK / 2, self.bottom))

    def boxes(self, scale: float, centre: float) -> tuple[Box, ...]:
        """Return what is solid of it; the hole lies about ``centre`` + its aside."""
        if self.layer.hole is None:
            return tuple((LEFT, top, RIGHT, bottom) for top, bottom in self.parts)
        left, right = self.hole(scale, centre)
        return tuple(
            box
            for top, bottom in self.parts
            for box in ((LEFT, top, left, bottom), (right, top, RIGHT, bottom))
        )

    def hole(self, scale: float, centre: float) -> tuple[float, float]:
        """Return where the two sides of its hole are, mm on the page."""
        middle = centre + self.layer.aside * scale
        half = (self.layer.hole or 0.0) * scale / 2
        return middle - half, middle + half


@dataclass(frozen=True, slots=True, kw_only=True)
class Levels:
    """The section on the page, mm.

    Attributes
    ----------
    scale
        mm on the page to a mm.
    bands
        Layer 1 first.
    above, below
        How far the fastener stands out on the page at both ends.
    untrue
        What is not to scale.
    """

    scale: float
    bands: tuple[Band, ...]
    above: float
    below: float
    untrue: tuple[Untrue, ...]

    @property
    def top(self) -> float:
        """Top of layer 1."""
        return self.bands[0].top

    @property
    def bottom(self) -> float:
        """Bottom of the last layer."""
        return self.bands[-1].bottom

    def high(self, millimetres: float) -> float:
        """Return how high what sticks out is drawn."""
        return min(millimetres * self.scale, _STICKING_OUT)


def levels_of(section: Section, start: float) -> Levels:
    """Return where everything lies when the fastener's top, or layer 1's, is drawn at ``start``."""
    scale = min(_REACH / _widest(section), _LARGEST)
    ends = _standing_out(section)
    above, below = (min(end * scale, _STICKING_OUT) for end in ends)
    other = max(ends) * scale > _STICKING_OUT
    bands: list[Band] = []
    y = start + above
    for layer in section.layers:
        wanted = layer.thickness * scale
        high = min(max(wanted, _THINNEST), _THICKEST)
        bands.append(Band(layer=layer, top=y, bottom=y + high, broken=wanted > _THICKEST))
        space = 0.0 if not layer.gap or layer.shut else layer.gap * scale
        clear = min(max(space, _NARROWEST), _WIDEST) if space else 0.0
        other = other or clear != space
        y += high + clear
    found: dict[Untrue, bool] = {
        "broken": any(band.broken for band in bands),
        "thin": any(band.layer.thickness * scale < _THINNEST for band in bands),
        "other": other,
    }
    untrue = tuple(what for what, so in found.items() if so)
    return Levels(scale=scale, bands=tuple(bands), above=above, below=below, untrue=untrue)


def _widest(section: Section) -> float:
    """Return what must find room between the ends of the layers, mm."""
    holes = [2 * abs(layer.aside) + 1.3 * (layer.hole or 0.0) for layer in section.layers]
    fastener = section.fastener
    ends = [fastener.head[0], fastener.tail[0]] if fastener else []
    return max(1.0, *holes, *ends)


def _standing_out(section: Section) -> tuple[float, float]:
    """Return how far the fastener stands out at the top and at the bottom, mm."""
    fastener = section.fastener
    if fastener is None:
        return 0.0, 0.0
    ends = (fastener.head[1], fastener.tail[1] + fastener.end)
    return ends if fastener.head_on_top else ends[::-1]
