"""Small pictures of the steps, for a page that says the words itself: few bytes, however many steps."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from io import BytesIO

import numpy as np
from PIL import Image

from seqviz.build import Build
from seqviz.render.pictures import drawn
from seqviz.scene.film import film_of
from seqviz.scene.words import Words

__all__ = ["Small", "fitting", "small_pictures"]

WIDTHS = (640, 480, 360, 240)
"""Pixels: as wide as all of them fit. Letters of the large pictures are 12 pixels high in the widest."""

BUDGET = 2_200_000
"""Bytes of all pictures together: 3 MB as they stand in a page."""

_QUALITY = 60
_NO_WORDS = Words(title="", lines=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Small:
    """The picture of step ``number``: WebP ``data``, and its size in pixels."""

    number: int
    data: bytes
    size: tuple[int, int]


def small_pictures(build: Build, progress: Callable[[int, int], None]) -> list[Small]:
    """Return the pictures of all steps at which something that is there has dimensions.

    Parameters
    ----------
    build
        With a replayed sequence.
    progress
        Called with (pictures done, pictures in all) after each.
    """
    scenes = [moment.scene for moment in film_of(build).moments if not moment.scene.bare]
    if not scenes:
        return []
    wordless = [replace(scene, words=_NO_WORDS) for scene in scenes]
    found = []
    for number, picture in drawn(wordless, {scene.number for scene in scenes}):
        found.append(_small(number, picture, WIDTHS[0]))
        progress(len(found), len(scenes))
    return fitting(found, BUDGET)


def fitting(pictures: Sequence[Small], budget: int) -> list[Small]:
    """Return all pictures in the largest of `WIDTHS` in which they fit into ``budget`` bytes.

    Where they do not even fit in the smallest, the first ones that do.
    """
    tried = list(pictures)
    for width in WIDTHS:
        tried = [one if one.size[0] <= width else _narrowed(one, width) for one in pictures]
        if sum(len(one.data) for one in tried) <= budget:
            return tried
    used = np.cumsum([len(one.data) for one in tried])
    return tried[: int((used <= budget).sum())]


def _narrowed(one: Small, width: int) -> Small:
    with Image.open(BytesIO(one.data)) as picture:
        return _small(one.number, picture.convert("RGB"), width)


def _small(number: int, picture: Image.Image, width: int) -> Small:
    size = (width, round(width * picture.height / picture.width))
    written = BytesIO()
    picture.resize(size, Image.Resampling.LANCZOS).save(written, "WEBP", quality=_QUALITY, method=4)
    return Small(number=number, data=written.getvalue(), size=size)
