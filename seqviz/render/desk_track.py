"""The slider below the work: a tick a step, higher where the work is turned over; one drags along it."""

from __future__ import annotations

import math
from collections.abc import Collection

from PIL import Image, ImageDraw

from seqviz.render.ink import BLACK, BLUE, PAPER, QUIET, SCALE, font

__all__ = ["HEIGHT", "draw_track", "place_of", "step_at"]

HEIGHT = 58
"""Pixels at the lower edge that belong to the slider."""

_EDGE = 44.0
_BASE = 40.0
_CAP = 9.0
_LEAST_APART = 5.0


def step_at(x: float, width: int, steps: int) -> int:
    """Return the step, from 0, whose tick is nearest to ``x`` pixels from the left."""
    share = (x - _EDGE) / max(width - 2 * _EDGE, 1.0)
    return min(max(round(share * (steps - 1)), 0), steps - 1)


def place_of(step: float, width: int, steps: int) -> float:
    """Return the pixels from the left of a step's tick, of a time between two steps in between."""
    return _EDGE + (width - 2 * _EDGE) * (step / (steps - 1) if steps > 1 else 0.0)


def draw_track(time: float, steps: int, turns: Collection[int], width: int) -> Image.Image:
    """Return the slider, RGBA, ``width`` by `HEIGHT` pixels.

    Parameters
    ----------
    time
        The step that is done, from 0; at 2.5 half of step 3 is done, and the hand says so.
    turns
        Steps in which the work is turned over.
    """
    sheet = Image.new("RGBA", (width * SCALE, HEIGHT * SCALE), (*PAPER, 0))
    draw = ImageDraw.Draw(sheet)
    ends = (place_of(0, width, steps), place_of(steps - 1, width, steps))
    draw.line((ends[0] * SCALE, _BASE * SCALE, ends[1] * SCALE, _BASE * SCALE), fill=QUIET, width=2 * SCALE)
    every = -(-steps * _LEAST_APART // max(ends[1] - ends[0], 1.0)) or 1
    for step in range(steps):
        if step % every == 0 or step in turns or step == steps - 1:
            x, high = place_of(step, width, steps) * SCALE, (11 if step in turns else 5) * SCALE
            draw.line((x, _BASE * SCALE - high, x, _BASE * SCALE + high), fill=QUIET, width=SCALE)
    _draw_hand(draw, place_of(max(time, 0.0), width, steps), str(math.ceil(time - 1e-9) + 1))
    return sheet.reduce(SCALE)


def _draw_hand(draw: ImageDraw.ImageDraw, x: float, text: str) -> None:
    """Draw the hand with the step's number on it."""
    face = font(_CAP * SCALE, bold=True)
    half = face.getlength(text) / 2 / SCALE + 7
    box = (x - half, _BASE - 11, x + half, _BASE + 11)
    draw.rounded_rectangle([side * SCALE for side in box], 5 * SCALE, fill=BLUE, outline=BLACK, width=SCALE)
    draw.text((x * SCALE, _BASE * SCALE), text, fill=BLACK, font=face, anchor="mm")
