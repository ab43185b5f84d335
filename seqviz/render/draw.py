"""The drawn work without words: quiet grey for what is there, blue and heavier lines for what is new."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from seqviz.render.ink import BLUE, BLUE_LINE, FIT_GREY, GREY, GREY_LINE, PIN_GREY
from seqviz.render.meshes import Body, joined_bodies, round_body
from seqviz.render.view import View
from seqviz.render.window import Depths, Pixels, Window
from seqviz.scene.picture import Scene

__all__ = ["Drawing", "draw_close", "draw_work"]

_OLD_WIDTH, _NEW_WIDTH = 3.0, 5.0  # pixels of the large picture
_NEARER = 0.25  # mm by which edges are moved to the eye, so that faces do not eat them
_NOTHING = np.zeros(3)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawing:
    """The drawn work: ``pixels`` (height, width, 3) and ``depth`` (height, width) mm, seen in ``view``."""

    view: View
    pixels: Pixels
    depth: Depths


def draw_close(window: Window, scene: Scene, bodies: Sequence[Body], close: View, full: View) -> Drawing:
    """Return the drawing of a view smaller than the window: the middle of a full one is cut out."""
    whole = draw_work(window, scene, bodies, replace(close, size=full.size))
    width, height = close.size
    left, top = (full.size[0] - width) // 2, (full.size[1] - height) // 2
    cut = (slice(top, top + height), slice(left, left + width))
    return Drawing(view=close, pixels=whole.pixels[cut], depth=whole.depth[cut])


def draw_work(window: Window, scene: Scene, bodies: Sequence[Body], view: View) -> Drawing:
    """Return the drawing of a scene's items and of the fasteners set before.

    Parameters
    ----------
    window
        As large as ``view``.
    bodies
        The scene's items as meshes, in the same order.
    """
    window.clear()
    nearer = view.towards * _NEARER
    for role, colour, line, width in (
        ("there", GREY, GREY_LINE, _OLD_WIDTH),
        ("new", BLUE, BLUE_LINE, _NEW_WIDTH),
    ):
        body = joined_bodies(b for b, item in zip(bodies, scene.items, strict=True) if item.role == role)
        window.faces(role, body, colour)
        window.lines(f"{role} edges", body, line, width, nearer)
    for name, pin, colour in (("fitted", False, FIT_GREY), ("pins", True, PIN_GREY)):
        body = joined_bodies(round_body(fitted) for fitted in scene.fitted if fitted.pin == pin)
        window.faces(name, body, colour)
        window.lines(f"{name} edges", body, GREY_LINE, _OLD_WIDTH, _NOTHING)
    corners = joined_bodies(bodies).vertices
    window.look(view, float(np.linalg.norm(corners - view.centre, axis=1).max(initial=0.0)) + 50.0)
    return Drawing(view=view, pixels=window.picture(), depth=window.depth())
