"""A close-up in a corner of the picture, where a new part would be too small to be made out."""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageDraw

from seqviz.geometry.pose import Array
from seqviz.render.ink import BLACK, PAPER
from seqviz.render.shots import Shot
from seqviz.render.view import Margins, View, fitted_view

__all__ = ["close_view", "corner_for", "paste_closeup"]

_SMALL = 0.01  # of the picture: below that a part needs a close-up (project choice)
_NEARER = 1.5  # times; less is not worth the room
_SHARE = (0.32, 0.44)  # of the picture's width and height
_EDGE = 60  # pixels of the large picture, kept free around it
_FRAME = 5


def close_view(shot: Shot, view: View) -> View | None:
    """Return the view of a close-up, as large as it is pasted; None where none is needed.

    Parameters
    ----------
    view
        Of the whole picture, at its drawn size.
    """
    seen, scene = shot.seen, shot.scene
    small = [k for k in seen.alone if seen.pixels(k) < _SMALL * seen.ids.size]
    if not small or not scene.arrows:
        return None
    drawn = np.concatenate([shot.bodies[k].vertices for k in small])
    names = {scene.items[k].name for k in small}
    behind = [arrow.anchors[:1] - 1.1 * arrow.way for arrow in scene.arrows if arrow.part in names]
    home = np.concatenate([shot.bodies[k].vertices - scene.items[k].shift for k in small])
    size = (round(view.size[0] * _SHARE[0]) // 16 * 16, round(view.size[1] * _SHARE[1]) // 16 * 16)
    around = Margins(left=size[0] * 0.12, right=size[0] * 0.12, top=size[1] * 0.12, bottom=size[1] * 0.12)
    close = fitted_view(np.concatenate([drawn, home, *behind]), view.towards, view.up, size, around)
    return close if close.scale >= _NEARER * view.scale else None


def corner_for(shot: Shot, view: View, size: tuple[int, int]) -> tuple[int, int]:
    """Return (left, top), pixels, of the corner in which a close-up of ``size`` covers least.

    The lower left one belongs to the forward arrow.
    """
    ids = shot.seen.ids
    factor = view.size[0] / ids.shape[1]
    width, height = (round(side / factor) for side in size)
    worth = (ids >= 0) + 20 * np.isin(ids, list(shot.seen.alone))
    right, bottom = view.size[0] - size[0] - _EDGE, view.size[1] - size[1] - _EDGE
    costs = {
        (right, bottom): int(worth[-height:, -width:].sum()),
        (right, _EDGE): int(worth[:height, -width:].sum()),
        (_EDGE, _EDGE): int(worth[:height, :width].sum()),
    }
    return min(costs, key=lambda corner: costs[corner])


def paste_closeup(picture: Image.Image, view: View, drawing: Image.Image, close: View, corner: Array) -> None:
    """Frame the close-up, paste it, and frame in the picture what it shows."""
    draw = ImageDraw.Draw(picture)
    centre = view.project(close.centre)[:2]
    half = np.array(close.size) / 2 / close.scale * view.scale
    for width, colour in ((_FRAME + 6, PAPER), (_FRAME, BLACK)):
        draw.rectangle((*(centre - half), *(centre + half)), outline=colour, width=width)
    low = corner - _FRAME
    draw.rectangle((*(low - 8), *(corner + np.array(close.size) + _FRAME + 8)), fill=PAPER)
    draw.rectangle((*low, *(corner + np.array(close.size) + _FRAME)), fill=BLACK)
    picture.paste(drawing, (int(corner[0]), int(corner[1])))
