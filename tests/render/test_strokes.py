"""The arrow of a way in goes behind what stands before it."""

import numpy as np

from seqviz.geometry.pose import frozen
from seqviz.render.marks import Spot
from seqviz.render.strokes import arrow_ends, arrow_mask
from seqviz.render.view import View
from seqviz.scene.picture import Arrow
from tests.render.drawn import NEEDS_GRAPHICS, shots
from tests.scene.tray import scene

UP = np.array([0.0, 0.0, 1.0])
# From the side: up in the picture is up, 4 pixels a mm.
VIEW = View(towards=np.array([-1.0, 0.0, 0.0]), up=UP, centre=np.zeros(3), scale=4.0, size=(400, 400))
ARROW = Arrow(
    part="rail",
    anchors=frozen([[0, 0, 20], [0, 30, 20], [0, -30, 20]]),
    way=frozen([0, 0, -40]),
    guides=frozen(np.zeros((0, 3))),
)
NOTHING = np.full((400, 400), -np.inf, dtype=np.float32)


def test_it_points_along_the_way() -> None:
    mask = arrow_mask(VIEW.project(arrow_ends(VIEW, NOTHING, ARROW)), NOTHING, 0.0, VIEW.scale)
    rows, columns = np.nonzero(mask)
    # From 0.1 of the way, z = 16, to z = -20: rows 200 - 64 to 200 + 80, in the middle column.
    assert abs(rows.min() - 136) <= 1
    assert abs(rows.max() - 280) <= 2
    assert abs(columns.mean() - 199.5) < 1.0
    # The head is wider than the shaft, and at the lower end.
    widths = mask.sum(axis=1)
    assert widths[140] < widths[225]
    assert widths[278] < 8


def test_what_stands_before_it_hides_it() -> None:
    depth = NOTHING.copy()
    depth[:, :200] = 50.0
    mask = arrow_mask(VIEW.project(arrow_ends(VIEW, NOTHING, ARROW)), depth, 0.0, VIEW.scale)
    assert not mask[:, :200].any()
    assert mask[:, 200:].any()


def test_it_leaves_from_where_it_is_seen() -> None:
    depth = NOTHING.copy()
    depth[:, 150:250] = 50.0  # hides the way from the middle
    ends = arrow_ends(VIEW, depth, ARROW)
    assert np.allclose(ends[:, 1], 30.0)
    assert np.allclose(ends[1], [0, 30, -20])


def test_it_keeps_clear_of_marks() -> None:
    middle = VIEW.project(ARROW.anchors[0])[:2]
    ends = arrow_ends(VIEW, NOTHING, ARROW, [Spot(mark=scene(2).marks[0], at=middle)])
    assert np.allclose(np.abs(ends[:, 1]), 30.0)


def test_hidden_everywhere_it_points_from_behind() -> None:
    depth = NOTHING.copy()
    depth[130:, :] = 50.0  # all below the part
    ends = arrow_ends(VIEW, depth, ARROW)
    # From 1.08 ways above the part to 0.08 above it.
    assert np.allclose(ends[:, 2], [20 + 43.2, 20 + 3.2])


@NEEDS_GRAPHICS
def test_drawn_direction_is_the_computed_way() -> None:
    shot = shots()[10]
    arrow = shot.scene.arrows[0]
    ends = shot.seen.view.project(arrow_ends(shot.seen.view, np.asarray(shot.seen.depth), arrow))
    flat = ends[1, :2] - ends[0, :2]
    right, top, _ = shot.seen.view.axes @ arrow.way
    way = np.array([right, -top])
    cosine = flat @ way / np.linalg.norm(flat) / np.linalg.norm(way)
    assert np.degrees(np.arccos(min(1.0, cosine))) < 0.5
