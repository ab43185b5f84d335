"""Symbols are told apart without colour."""

from itertools import combinations

import numpy as np
from PIL import Image, ImageDraw

from seqviz.render.symbols import MEANING, draw_symbol
from seqviz.scene.picture import MarkKind


def grey(kind: MarkKind, radius: float = 26.0) -> np.ndarray:
    """Return a symbol in grey as printed: drawn large, brought down by two, on a light part."""
    picture = Image.new("RGB", (160, 160), (230, 230, 230))
    draw_symbol(ImageDraw.Draw(picture), kind, (80, 100), radius)
    return np.asarray(picture.convert("L").resize((80, 80), Image.Resampling.LANCZOS), dtype=float)


def test_each_differs_from_each_in_grey() -> None:
    for one, other in combinations(MEANING, 2):
        # Clearly lighter or darker in at least 40 pixels of the roughly 26 x 26 that a symbol takes.
        assert (np.abs(grey(one) - grey(other)) > 60).sum() >= 40, (one, other)


def test_each_has_a_dark_outline_and_a_light_rim() -> None:
    for kind in MEANING:
        picture = grey(kind)
        assert picture.min() < 110, kind
        assert picture.max() > 245, kind
