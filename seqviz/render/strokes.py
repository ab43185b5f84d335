"""Lines that know what stands before them: the arrow of a way in, and dashed guides."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from seqviz.geometry.pose import Array
from seqviz.render.ink import BLACK, BLUE_LINE, PAPER, VERMILLION
from seqviz.render.marks import Spot
from seqviz.render.meshes import Body
from seqviz.render.seen import points_seen
from seqviz.render.view import View
from seqviz.render.window import Depths
from seqviz.scene.picture import Arrow

__all__ = ["arrow_ends", "arrow_mask", "draw_arrow", "draw_guides", "draw_through"]

# Pixels of the large picture.
_SHAFT, _HEAD, _HEAD_LENGTH, _RIM, _HALO = 12.0, 34.0, 58.0, 5.0, 10.0
_DASH, _GAP, _GUIDE = 16.0, 12.0, 4
_BESIDE = 80.0  # pixels around an arrow's ends that hold all of it
_MARK = 60.0  # pixels around a mark's middle that an arrow keeps out of
_FREE = 0.8


def draw_guides(picture: Image.Image, view: View, depth: Depths, arrow: Arrow) -> None:
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


def draw_through(picture: Image.Image, view: View, body: Body) -> None:
    """Draw the edges of a body over everything: a part that no view shows."""
    draw = ImageDraw.Draw(picture)
    places = view.project(body.vertices)[:, :2]
    for width, colour in ((_GUIDE + 6, PAPER), (_GUIDE, BLUE_LINE)):
        for edge in body.edges:
            draw.line([tuple(place) for place in places[edge]], fill=colour, width=width)


def arrow_ends(view: View, depth: Depths, arrow: Arrow, spots: Sequence[Spot] = ()) -> Array:
    """Return ``(2, 3)`` mm, where the arrow starts and where its tip is.

    It goes from the part to its place where most of that is seen, as near to the part's middle as it can and
    clear of marks; else it points at the part from behind, which is always free: from there it came.
    """
    behind = arrow.anchors - 1.08 * arrow.way
    for first, starts, least in ((0.1, arrow.anchors, _FREE), (0.0, behind, 0.0)):
        points = starts[:, np.newaxis] + np.linspace(first, 1.0, 25)[:, np.newaxis] * arrow.way
        shares = points_seen(view, depth, points.reshape(-1, 3)).reshape(points.shape[:2]).mean(axis=1)
        if shares.max() >= least:
            worth = np.minimum(shares, shares.max() - 0.08) - 0.3 * _near_marks(view.project(points), spots)
            return np.asarray(points[int(np.argmax(worth)), [0, -1]])
    raise AssertionError("an arrow from behind is never refused")


def _near_marks(lines: Array, spots: Sequence[Spot]) -> NDArray[np.bool_]:
    """Say for each of ``(n, k, 3)`` projected lines whether it goes through a mark."""
    marks = np.array([spot.at for spot in spots if spot.at is not None]).reshape(-1, 2)
    away = np.linalg.norm(lines[:, :, np.newaxis, :2] - marks - [0.0, -_MARK / 2], axis=3)
    return np.asarray(away.min(axis=(1, 2), initial=np.inf) < _MARK)


def draw_arrow(
    picture: Image.Image, view: View, depth: Depths, arrow: Arrow, spots: Sequence[Spot] = ()
) -> NDArray[np.bool_]:
    """Draw the arrow of a way in, clear of the marks; return ``(height, width)`` where it stands."""
    ends = view.project(arrow_ends(view, depth, arrow, spots))
    height, width = depth.shape
    low = np.clip(ends[:, :2].min(axis=0) - _BESIDE, 0, [width, height]).astype(int)
    high = np.clip(ends[:, :2].max(axis=0) + _BESIDE, 0, [width, height]).astype(int)
    window = (slice(low[1], high[1]), slice(low[0], high[0]))
    near = ends - [*low, 0.0]
    for grow, colour in ((_HALO, PAPER), (_RIM, BLACK), (0.0, VERMILLION)):
        seen = arrow_mask(near, depth[window], grow, view.scale)
        picture.paste(colour, (int(low[0]), int(low[1])), Image.fromarray((seen * 255).astype(np.uint8)))
    drawn = np.zeros(depth.shape, dtype=bool)
    drawn[window] = arrow_mask(near, depth[window], _HALO, view.scale)
    return drawn


def arrow_mask(ends: Array, depth: Depths, grow: float, scale: float) -> NDArray[np.bool_]:
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
