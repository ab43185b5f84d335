"""One picture a step: chooses the view, draws the work, and writes marks, names and words over it."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np
from PIL import Image

from seqviz.build import Build
from seqviz.geometry.pose import Array
from seqviz.render.camera import choose_direction
from seqviz.render.captions import Caption, caption_of, room_for
from seqviz.render.draw import draw_work
from seqviz.render.ink import SCALE
from seqviz.render.legend import LEGEND
from seqviz.render.meshes import Body, Meshes
from seqviz.render.seen import Seen, Survey
from seqviz.render.sheet import compose
from seqviz.render.view import Margins, View, fitted_view
from seqviz.render.window import Window
from seqviz.scene.picture import Scene
from seqviz.scene.step import scene_of_step

__all__ = ["CELL", "SIZE", "Shot", "draw_pictures", "shots_of"]

SIZE = (1600, 1200)
CELL = 4
"""Pixels of the picture to one of the small picture that is measured."""

_SIDES, _ENDS = 0.10, 0.07
_FILLED = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shot:
    """A scene with its meshes, its caption, and what is seen of it from the view chosen."""

    scene: Scene
    bodies: tuple[Body, ...]
    caption: Caption
    seen: Seen


def draw_pictures(
    build: Build, folder: Path, steps: Sequence[int] | None, progress: Callable[[int, int], None]
) -> list[Path]:
    """Draw ``step_01.png`` and so on into ``folder``; earlier ones are replaced when all are complete.

    Parameters
    ----------
    build
        With a replayed sequence.
    folder
        Made where it is missing.
    steps
        Numbers of the steps to draw, None: all.
    progress
        Called with (pictures done, pictures in all) after each.
    """
    numbers = [state.step.number for state in build.replay.states] if build.replay else []
    scenes = [scene_of_step(build, number) for number in numbers]
    wanted = set(numbers) if steps is None else set(numbers) & set(steps)
    digits = max(2, len(str(len(scenes))))
    folder.parent.mkdir(parents=True, exist_ok=True)
    aside = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
    try:
        names = []
        for number, picture in _pictures(scenes, wanted):
            names.append(f"step_{number:0{digits}d}.png")
            picture.save(aside / names[-1])
            progress(len(names), len(wanted))
        folder.mkdir(exist_ok=True)
        for name in names:
            os.replace(aside / name, folder / name)
    finally:
        shutil.rmtree(aside, ignore_errors=True)
    return [folder / name for name in names]


def _pictures(scenes: Sequence[Scene], wanted: set[int]) -> Iterator[tuple[int, Image.Image]]:
    if not wanted:
        return
    shots = shots_of(scenes, max(wanted))
    first = next(shots)
    width, height = first.seen.view.size
    with Window((width * CELL * SCALE, height * CELL * SCALE)) as window:
        for shot in (first, *shots):
            if shot.scene.number in wanted:
                view = shot.seen.view.resized(CELL * SCALE)
                work, depth = draw_work(window, shot.scene, shot.bodies, view)
                yield shot.scene.number, compose(shot, work, depth, SIZE)


def shots_of(scenes: Sequence[Scene], last: int) -> Iterator[Shot]:
    """Yield the scenes up to number ``last`` with their views; each view keeps to the one before it.

    Views, scale and the room for words depend on the whole sequence, not on which steps are asked for.
    """
    meshes = Meshes()
    bodies = [tuple(meshes.body(item) for item in scene.items) for scene in scenes]
    captions = [caption_of(scene.words, SIZE[0]) for scene in scenes]
    rows = (SIZE[1] - LEGEND - room_for(captions)) // CELL
    size = (SIZE[0] // CELL, rows)
    everything = _corners([body for group in bodies for body in group])
    previous: Array | None = None
    with Window(size, flat=True) as window:
        for scene, group, caption in zip(scenes, bodies, captions, strict=True):
            if scene.number > last:
                return
            if scene.turn is not None:
                previous = None
            survey = Survey(window, scene, group)
            own = _corners(group)
            frame = partial(_framed, everything=everything, own=own, up=scene.up, size=size)
            previous, seen = choose_direction(survey, frame, previous)
            yield Shot(scene=scene, bodies=group, caption=caption, seen=seen)


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
