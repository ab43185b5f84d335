"""The marks of holes: each has its own outline, so that a copy in black and white tells them apart."""

from __future__ import annotations

from collections.abc import Callable

from PIL import ImageDraw

from seqviz.render.ink import AMBER, BLACK, PAPER, QUIET, VERMILLION
from seqviz.scene.picture import MarkKind

__all__ = ["MEANING", "draw_dashed_ring", "draw_symbol"]

Draw = ImageDraw.ImageDraw
Point = tuple[float, float]

MEANING: dict[MarkKind, str] = {
    "set": "set now",
    "pin in": "pin in",
    "pin out": "pin out",
    "leave open": "leave open",
    "still open": "stays open",
    "open again": "free again",
    "drill": "drill",
    "drill out": "drilled out",
}


def draw_symbol(draw: Draw, kind: MarkKind, at: Point, radius: float) -> None:
    """Draw the mark of ``kind`` on the hole ``at``, pixels; ``radius`` is half its width."""
    _SYMBOLS[kind](draw, at, radius)


def draw_dashed_ring(draw: Draw, at: Point, radius: float) -> None:
    """Draw where a mark is that something hides."""
    x, y = at
    for grow, width, ink in ((0.12, 0.4, PAPER), (0.0, 0.2, BLACK)):
        wide = radius * (0.9 + grow)
        box = (x - wide, y - wide, x + wide, y + wide)
        for start in range(0, 360, 60):
            draw.arc(box, start, start + 36, fill=ink, width=max(round(radius * width), 2))


def _disc(draw: Draw, at: Point, radius: float, fill: tuple[int, int, int]) -> None:
    x, y = at
    draw.ellipse((x - radius, y - radius, x + radius, y + radius), fill=fill)


def _set(draw: Draw, at: Point, radius: float) -> None:
    _disc(draw, at, radius * 1.18, PAPER)
    _disc(draw, at, radius, BLACK)
    _disc(draw, at, radius * 0.82, VERMILLION)
    _disc(draw, at, radius * 0.3, PAPER)


def _pin_in(draw: Draw, at: Point, radius: float) -> None:
    """A wedge that stands with its point in the hole."""
    _wedge(draw, at, radius, AMBER, 1)


def _pin_out(draw: Draw, at: Point, radius: float) -> None:
    """An empty wedge that points away, out of the ring of the hole."""
    x, y = at
    _ring(draw, at, radius * 0.6, PAPER)
    _wedge(draw, (x, y - radius * 2.9), radius, PAPER, -1)


def _wedge(draw: Draw, at: Point, radius: float, fill: tuple[int, int, int], sense: int) -> None:
    x, y = at
    for grow, colour in ((0.32, PAPER), (0.16, BLACK), (-0.1, fill)):
        wide, high, low = radius * (0.85 + grow), radius * (1.9 + grow), radius * (-1.4 * grow)
        tip = y - low * sense
        flat = y - high * sense
        draw.polygon([(x, tip), (x - wide, flat), (x + wide, flat)], fill=colour)


def _ring(draw: Draw, at: Point, radius: float, fill: tuple[int, int, int]) -> None:
    _disc(draw, at, radius * 1.4, PAPER)
    _disc(draw, at, radius * 1.2, BLACK)
    _disc(draw, at, radius * 0.75, fill)


def _leave_open(draw: Draw, at: Point, radius: float) -> None:
    _crossed(draw, at, radius, BLACK)


def _still_open(draw: Draw, at: Point, radius: float) -> None:
    _crossed(draw, at, radius * 0.75, QUIET)


def _crossed(draw: Draw, at: Point, radius: float, ink: tuple[int, int, int]) -> None:
    x, y = at
    _disc(draw, at, radius * 1.2, PAPER)
    _disc(draw, at, radius, ink)
    _disc(draw, at, radius * 0.76, PAPER)
    arm, width = radius * 0.6, round(radius * 0.26)
    draw.line((x - arm, y - arm, x + arm, y + arm), fill=ink, width=width)
    draw.line((x - arm, y + arm, x + arm, y - arm), fill=ink, width=width)


def _open_again(draw: Draw, at: Point, radius: float) -> None:
    _ring(draw, at, radius * 0.8, PAPER)


def _drill(draw: Draw, at: Point, radius: float) -> None:
    """A ring with a dot where the drill is put."""
    _ring(draw, at, radius, PAPER)
    _disc(draw, at, radius * 0.35, BLACK)


def _drill_out(draw: Draw, at: Point, radius: float) -> None:
    """A fastener struck through once."""
    _disc(draw, at, radius * 1.18, PAPER)
    _disc(draw, at, radius, BLACK)
    _disc(draw, at, radius * 0.82, AMBER)
    x, y = at
    arm, width = radius * 1.25, round(radius * 0.3)
    draw.line((x - arm, y + arm, x + arm, y - arm), fill=BLACK, width=width)


_SYMBOLS: dict[MarkKind, Callable[[Draw, Point, float], None]] = {
    "set": _set,
    "pin in": _pin_in,
    "pin out": _pin_out,
    "leave open": _leave_open,
    "still open": _still_open,
    "open again": _open_again,
    "drill": _drill,
    "drill out": _drill_out,
}
