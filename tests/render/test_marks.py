"""Marks stand on the holes that are seen; dashed rings tell where the others are."""

import numpy as np
from PIL import Image

from seqviz.render.marks import Spot, draw_marks, spots_of
from seqviz.render.view import View
from tests.scene.tray import scene

VIEW = View(
    centre=np.array([155.0, 95.0, 0.0]),
    towards=np.array([0.0, 0.0, 1.0]),
    up=np.array([0.0, 1.0, 0.0]),
    scale=1.0,
    size=(700, 500),
)


def dark(at: np.ndarray, picture: Image.Image, radius: float) -> float:
    """Return which share of a circle around ``at`` is dark."""
    turns = np.linspace(0, 2 * np.pi, 180, endpoint=False)
    points = (at + radius * np.column_stack([np.cos(turns), np.sin(turns)])).round().astype(int)
    return float((np.asarray(picture.convert("L"))[points[:, 1], points[:, 0]] < 80).mean())


def test_a_hidden_hole_has_a_dashed_ring() -> None:
    step = scene(5)
    wide, high = VIEW.size
    # Something 1000 mm up hides all on the right of the picture.
    depth = np.full((high, wide), -np.inf, dtype=np.float32)
    depth[:, wide // 2 :] = 1000.0
    spots = spots_of(step, VIEW, depth)
    assert {(spot.at is None, spot.behind is None) for spot in spots} == {(True, False), (False, True)}
    picture = Image.new("RGB", VIEW.size, (230, 230, 230))
    hidden = next(spot for spot in spots if spot.at is None and spot.mark.kind == "set")
    draw_marks(picture, [hidden])
    ring = hidden.behind
    assert ring is not None
    # Six dashes of 36 degrees in 60 on a radius of 0.9 x 30; nothing in the middle.
    assert 0.5 < dark(ring, picture, 26.0) < 0.7
    assert dark(ring, picture, 5.0) == 0.0


def test_what_only_stays_open_has_none() -> None:
    step = scene(5)
    kept = next(mark for mark in step.marks if mark.kind == "still open")
    picture = Image.new("RGB", (200, 200), (230, 230, 230))
    draw_marks(picture, [Spot(mark=kept, at=None, behind=np.array([100.0, 100.0]))])
    assert np.asarray(picture).min() == 230
