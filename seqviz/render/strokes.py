"""Lines that know what stands before them: the arrow of a way in, and dashed guides."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from seqviz.geometry.pose import Array
from seqviz.render.ink import BLACK, PAPER, VERMILLION
from seqviz.render.seen import points_seen
from seqviz.render.view import View
from seqviz.scene.picture import Arrow

__all__ = ["arrow_mask", "best_anchor", "draw_arrow", "draw_guides"]

# Pixels of the large picture.
_SHAFT, _HEAD, _HEAD_LENGTH, _RIM, _HALO = 12.0, 34.0, 58.0, 5.0, 10.0
_DASH, _GAP, _GUIDE = 16.0, 12.0, 4
_FREE = 0.55


def draw_guides(picture: Image.Image, view: View, depth: Array, arrow: Arrow) -> None:
    """Draw from each guide hole a dashed line along the way in, where nothing stands before it."""
    draw = ImageDraw.Draw(picture)
    for start in arrow.guides:
        ends = view.project(np.array([start, start + arrow.way]))[:, :2]
        length = float(np.linalg.norm(ends[1] - ends[0]))
        for at in np.arange(0.0, length, _DASH + _GAP):
            span = np.array([at, min(at + _DASH, length)]) / max(length, 1e-9)
            points = start + span[:, np.newaxis] * arrow.way
            if points_seen(view, depth, points).all():
                draw.line([tuple(p) for p in view.project(points)[:, :2]], fill=BLACK, width=_GUIDE)


def best_anchor(view: View, depth: Array, arrow: Arrow) -> Array:
    """Return the anchor from which most of the arrow is seen; of equals the one nearest to the middle."""
    shares = []
    for anchor in arrow.anchors:
        points = anchor + np.linspace(0.1, 1.0, 19)[:, np.newaxis] * arrow.way
        shares.append(float(points_seen(view, depth, points).mean()))
    good = np.array(shares) >= max(shares) - 0.06
    return np.asarray(arrow.anchors[int(np.argmax(good))])


def draw_arrow(picture: Image.Image, view: View, depth: Array, arrow: Arrow) -> NDArray[np.bool_]:
    """Draw the arrow of a way in; return ``(height, width)`` where it stands."""
    start = best_anchor(view, depth, arrow)
    ends = view.project(np.array([start, start + arrow.way]))
    free = arrow_mask(ends, depth, _HALO, view.scale)
    whole = arrow_mask(ends, np.full_like(depth, -np.inf), _HALO, view.scale)
    hidden = free.sum() < _FREE * whole.sum()
    for grow, colour in ((_HALO, PAPER), (_RIM, BLACK), (0.0, VERMILLION)):
        flat = arrow_mask(ends, np.full_like(depth, -np.inf) if hidden else depth, grow, view.scale)
        picture.paste(colour, mask=Image.fromarray((flat * 255).astype(np.uint8)))
    return whole if hidden else free


def arrow_mask(ends: Array, depth: Array, grow: float, scale: float) -> NDArray[np.bool_]:
    """Return the arrow's pixels that nothing in ``depth`` hides.

    Parameters
    ----------
    ends
        ``(2, 3)`` pixels, pixels, mm towards the eye: where it starts and where its tip is.
    grow
        Pixels by which its outline is let out.
    scale
        Pixels a mm, for the depth that a face changes by within a pixel.
    """
    height, width = depth.shape
    along = ends[1, :2] - ends[0, :2]
    length = max(float(np.linalg.norm(along)), 1.0)
    along = along / length
    rows, columns = np.mgrid[0:height, 0:width]
    x, y = columns + 0.5 - ends[0, 0], rows + 0.5 - ends[0, 1]
    at, off = x * along[0] + y * along[1], np.abs(x * along[1] - y * along[0])
    head = min(_HEAD_LENGTH, 0.6 * length)
    in_head = (at >= length - head - grow) & (off <= (length - at) * _HEAD / head + grow * 1.6)
    in_head &= at <= length + grow
    in_shaft = (at >= -grow) & (at <= length - head) & (off <= _SHAFT + grow)
    near = ends[0, 2] + (ends[1, 2] - ends[0, 2]) * np.clip(at / length, 0, 1)
    return np.asarray((in_head | in_shaft) & (depth <= near + 0.6 + 3.0 / scale))
