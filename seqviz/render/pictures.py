"""One picture a step: chooses the view, draws the work, and writes marks, names and words over it."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from PIL import Image

from seqviz.build import Build
from seqviz.render.closeup import close_view
from seqviz.render.draw import draw_close, draw_work
from seqviz.render.ink import SCALE
from seqviz.render.sheet import compose
from seqviz.render.shots import CELL, shots_of
from seqviz.render.window import Window
from seqviz.scene.picture import Scene
from seqviz.scene.step import scene_of_step

__all__ = ["SIZE", "draw_pictures", "drawn"]

SIZE = (1600, 1200)


def draw_pictures(
    build: Build, folder: Path, steps: Sequence[int] | None, progress: Callable[[int, int], None]
) -> list[Path]:
    """Draw ``step_01.png`` and so on into ``folder``; earlier ones are replaced when all are complete.

    A step at which nothing that is there has dimensions has no picture.

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
    scenes = [scene for scene in scenes if not scene.bare]
    wanted = {scene.number for scene in scenes} & set(numbers if steps is None else steps)
    if not wanted:
        return []
    digits = max(2, len(str(len(numbers))))
    folder.parent.mkdir(parents=True, exist_ok=True)
    aside = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
    try:
        names = []
        for number, picture in drawn(scenes, wanted):
            names.append(f"step_{number:0{digits}d}.png")
            picture.save(aside / names[-1])
            progress(len(names), len(wanted))
        folder.mkdir(exist_ok=True)
        for name in names:
            os.replace(aside / name, folder / name)
    finally:
        shutil.rmtree(aside, ignore_errors=True)
    return [folder / name for name in names]


def drawn(scenes: Sequence[Scene], wanted: set[int]) -> Iterator[tuple[int, Image.Image]]:
    """Yield the number and the picture of each of the ``scenes`` whose number is ``wanted``.

    Views, scale and the room for words are those of all scenes.
    """
    shots = shots_of(scenes, SIZE)
    large = shots[0].seen.view.resized(CELL * SCALE).size
    with Window(large) as window:
        for shot in (shot for shot in shots if shot.scene.number in wanted):
            view = shot.seen.view.resized(CELL * SCALE)
            near = close_view(shot, view)
            work = draw_work(window, shot.scene, shot.bodies, view)
            close = draw_close(window, shot.scene, shot.bodies, near, view) if near is not None else None
            yield shot.scene.number, compose(shot, work, close, SIZE)
