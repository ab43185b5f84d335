"""What is there after a step, or once everything is in its place: for a file of solids."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seqviz.build import Build
from seqviz.geometry.pose import Array, frozen
from seqviz.scene.film import film_of
from seqviz.scene.film_types import Fixed
from seqviz.scene.picture import Item
from seqviz.scene.playing import instant, lies_of
from seqviz.scene.whole import whole_film

__all__ = ["Still", "axes_up", "still_of"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Still:
    """Solid things in their places, base frame, mm.

    Attributes
    ----------
    items, fixed
        Parts that have dimensions; heads, tails and pins that are in.
    lie
        ``(3, 3)`` rotation, base frame to the bench's: x is to the right, y ahead, z up.
    undrawn
        Placed parts that are there and have no dimensions.
    """

    items: tuple[Item, ...]
    fixed: tuple[Fixed, ...]
    lie: Array
    undrawn: tuple[str, ...]


def still_of(build: Build, step: int | None) -> Still:
    """Return what is there after ``step`` in its work, or for None the whole structure.

    The whole structure has all parts, placed by a step or not, but no templates; in its holes is what is set
    at the end.
    """
    if step is not None:
        film = film_of(build)
        now = instant(film, step - 1, 1.0)
        scene = film.moments[step - 1].scene
        there = tuple(item for item in scene.items if item.name in now.offsets)
        fixed = tuple(film.fixed[k] for k in now.fixed)
        return Still(items=there, fixed=fixed, lie=lies_of(film)[step - 1].after, undrawn=scene.undrawn)
    film = whole_film(build)
    scene = film.moments[0].scene
    return Still(
        items=tuple(item for item in scene.items if not item.part.tool),
        fixed=_set_at_the_end(build),
        lie=lies_of(film)[0].after,
        undrawn=scene.undrawn,
    )


def _set_at_the_end(build: Build) -> tuple[Fixed, ...]:
    """Return head and tail of every fastener that is in at the end, on the complete stacks."""
    if build.replay is None:
        return ()
    last: dict[tuple[int, str], Fixed] = {}
    film = film_of(build)
    for moment in film.moments:
        # What comes later stands on more layers.
        last |= {(film.fixed[k].stack, film.fixed[k].kind): film.fixed[k] for k in moment.fixed}
    filled = build.replay.filled_at
    return tuple(one for (stack, kind), one in last.items() if stack in filled and kind != "pin")


def axes_up(lie: Array) -> Array:
    """Return the rotation, base frame to a frame with x to the left, y up and z ahead, as glTF has it."""
    right, ahead, up = lie
    return frozen(np.array([-right, up, ahead]))
