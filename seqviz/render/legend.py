"""The line under a picture: what its marks mean, how many, and which side of the work faces up."""

from __future__ import annotations

from collections import Counter

import numpy as np
from PIL import ImageDraw

from seqviz.render.ink import BLACK, QUIET, SCALE, font
from seqviz.render.symbols import MEANING, draw_symbol
from seqviz.render.view import View
from seqviz.scene.picture import MarkKind, Scene, Turn

__all__ = ["LEGEND", "draw_forward", "draw_legend", "draw_turn"]

LEGEND = 72
_CAP = 26.0
_EDGE = 40
_SYMBOL = 14.0


def draw_legend(
    draw: ImageDraw.ImageDraw, scene: Scene, hidden: Counter[MarkKind], size: tuple[int, int]
) -> None:
    """Draw the key of the marks at the bottom left and the side up at the bottom right; at `SCALE`."""
    width, height = size
    middle = (height - LEGEND / 2) * SCALE
    face = font(_CAP * SCALE)
    x = float(_EDGE * SCALE)
    counts = Counter(mark.kind for mark in scene.marks)
    for kind in (kind for kind in MEANING if counts[kind]):
        drop = {"pin in": 0.95, "pin out": 1.3}.get(kind, 0.0) * _SYMBOL * SCALE
        radius = _SYMBOL * SCALE * (0.75 if kind == "pin out" else 1.0)
        draw_symbol(draw, kind, (x + _SYMBOL * SCALE, middle + drop), radius)
        text = f"{MEANING[kind]}: {counts[kind]}"
        if hidden[kind] and kind != "still open":
            text += f" ({hidden[kind]} hidden, dashed)"
        x += 2.8 * _SYMBOL * SCALE
        draw.text((x, middle), text, fill=BLACK, font=face, anchor="lm")
        x += face.getlength(text) + 40 * SCALE
    up = f"{scene.up_name} up"
    place = ((width - _EDGE) * SCALE, middle)
    draw.text(place, up, fill=QUIET, font=face, anchor="rm")


def draw_forward(draw: ImageDraw.ImageDraw, scene: Scene, view: View) -> None:
    """Draw an arrow with the word ``forward`` at the lower left of the work's picture."""
    axes = view.axes
    across, upward, _ = axes @ scene.forward
    along = np.array([across, -upward]) * 70 * SCALE
    if np.linalg.norm(along) < 12 * SCALE:
        return
    start = np.array([130.0 * SCALE, view.size[1] - 70.0 * SCALE]) - along / 2
    tip = start + along
    unit = along / np.linalg.norm(along)
    side = np.array([-unit[1], unit[0]])
    base = tip - unit * 20 * SCALE
    draw.line((*start, *base), fill=QUIET, width=4 * SCALE)
    draw.polygon([tuple(tip), tuple(base + side * 10 * SCALE), tuple(base - side * 10 * SCALE)], fill=QUIET)
    below = max(start[1], tip[1]) + 26 * SCALE
    draw.text((130 * SCALE, below), "forward", fill=QUIET, font=font(20.0 * SCALE), anchor="mm")


def draw_turn(draw: ImageDraw.ImageDraw, turn: Turn, view: View) -> None:
    """Draw, at the upper right of the work's picture, the axis of the turn and an arrow around it."""
    axes = view.axes
    middle = np.array([view.size[0] - 150.0 * SCALE, 130.0 * SCALE])
    across = np.cross(turn.axis, turn.before)
    # Three quarters of a turn around the axis, from what was up.
    turns = np.linspace(np.radians(-100), np.radians(170), 80)
    ring = np.cos(turns)[:, np.newaxis] * turn.before + np.sin(turns)[:, np.newaxis] * across
    flat = ring @ axes.T
    points = middle + flat[:, :2] * [1, -1] * 78 * SCALE
    rod = np.array([-1.0, 1.0])[:, np.newaxis] * (turn.axis @ axes.T)[:2] * [1, -1] * 120 * SCALE + middle
    draw.line([tuple(p) for p in rod], fill=QUIET, width=3 * SCALE)
    draw.line([tuple(p) for p in points], fill=BLACK, width=8 * SCALE, joint="curve")
    ahead = points[-1] - points[-6]
    ahead = ahead / max(float(np.linalg.norm(ahead)), 1e-9)
    side = np.array([-ahead[1], ahead[0]])
    tip = points[-1] + ahead * 30 * SCALE
    wings = [points[-1] + side * 20 * SCALE, points[-1] - side * 20 * SCALE]
    draw.polygon([tuple(tip), *(tuple(w) for w in wings)], fill=BLACK)
