"""Which view each step is drawn from, and what is seen of it there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.render.camera import choose_for_run
from seqviz.render.captions import Caption, caption_of, room_for
from seqviz.render.legend import LEGEND
from seqviz.render.meshes import Body, Meshes
from seqviz.render.seen import Seen, Survey
from seqviz.render.view import Margins, View, fitted_view
from seqviz.render.window import Window
from seqviz.scene.picture import Scene

__all__ = ["CELL", "Shot", "shots_of"]

CELL = 4
"""Pixels of a picture to one of the small picture that is measured."""

_SIDES, _ENDS = 0.10, 0.05
_FILLED = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shot:
    """A scene with its meshes, its caption, and what is seen of it from the view chosen."""

    scene: Scene
    bodies: tuple[Body, ...]
    caption: Caption
    seen: Seen


def shots_of(scenes: Sequence[Scene], size: tuple[int, int]) -> list[Shot]:
    """Return the shots of a whole sequence, for pictures of ``size`` pixels.

    Views, scale and the room for words depend on all steps, so that one step's picture is the same whichever
    steps are asked for.
    """
    meshes = Meshes()
    captions = [caption_of(scene.words, size[0]) for scene in scenes]
    rows = (size[1] - LEGEND - room_for(captions)) // CELL
    small = (size[0] // CELL, rows)
    shots: list[Shot] = []
    with Window(small, flat=True) as window:
        for run in _runs(scenes):
            bodies = [tuple(meshes.body(item) for item in scene.items) for scene in run]
            seen = _seen_in_run(window, run, bodies, small)
            for scene, group, one in zip(run, bodies, seen, strict=True):
                shots.append(Shot(scene=scene, bodies=group, caption=captions[len(shots)], seen=one))
    return shots


def _runs(scenes: Sequence[Scene]) -> Iterator[list[Scene]]:
    """Yield the scenes in groups that have one side up; a turn begins a new one."""
    run: list[Scene] = []
    for scene in scenes:
        if run and (scene.turn is not None or float(scene.up @ run[-1].up) < 0.99):
            yield run
            run = []
        run.append(scene)
    if run:
        yield run


def _seen_in_run(
    window: Window, run: Sequence[Scene], bodies: Sequence[tuple[Body, ...]], size: tuple[int, int]
) -> list[Seen]:
    everything = _corners([body for group in bodies for body in group])
    frames = [
        partial(_framed, everything=everything, own=_corners(group), up=scene.up, size=size)
        for scene, group in zip(run, bodies, strict=True)
    ]

    def survey(k: int) -> Survey:
        return Survey(window, run[k], bodies[k])

    return choose_for_run(survey, frames)


def _framed(towards: Array, everything: Array, own: Array, up: Array, size: tuple[int, int]) -> View:
    """Return the view of all that ever is drawn, or of this step where that is less than half of it."""
    width, height = size
    margins = Margins(left=width * _SIDES, right=width * _SIDES, top=height * _ENDS, bottom=height * _ENDS)
    whole = fitted_view(everything, towards, up, size, margins)
    close = fitted_view(own, towards, up, size, margins)
    return close if whole.scale < _FILLED * close.scale else whole


def _corners(bodies: Sequence[Body]) -> Array:
    """Return the corners ``(8 n, 3)`` of the boxes around the bodies."""
    if not bodies:
        return np.zeros((1, 3))
    low = np.array([body.vertices.min(axis=0) for body in bodies])
    high = np.array([body.vertices.max(axis=0) for body in bodies])
    corners = [np.where([k & 1, k & 2, k & 4], high, low) for k in range(8)]
    return np.concatenate(corners)
