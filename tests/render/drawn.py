"""The tray's shots and pictures, made once for all tests; skipped where nothing can be drawn."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path
from unittest import mock

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

import seqviz.render.pictures as module
from seqviz.render.pictures import SIZE, draw_pictures
from seqviz.render.probe import graphics_hint
from seqviz.render.shots import Shot, shots_of
from tests.scene.tray import scene, tray

NEEDS_GRAPHICS = pytest.mark.skipif(graphics_hint() is not None, reason=str(graphics_hint()))
STEPS = tuple(range(1, 14))
DRAWN = (2, 9, 10)


@cache
def shots() -> tuple[Shot, ...]:
    """Return what is seen of each of the tray's 13 steps."""
    return tuple(shots_of([scene(number) for number in STEPS], SIZE))


@cache
def pictures() -> dict[int, NDArray[np.uint8]]:
    """Return a few of the tray's pictures, ``(1200, 1600, 3)``."""
    known = mock.patch.object(module, "shots_of", return_value=list(shots()))
    with known, tempfile.TemporaryDirectory() as folder:
        paths = draw_pictures(tray(), Path(folder), DRAWN, lambda _done, _of: None)
        found = {}
        for number, path in zip(DRAWN, paths, strict=True):
            with Image.open(path) as picture:
                found[number] = np.array(picture)
        return found
