"""A new part that no view shows is drawn through what hides it."""

from dataclasses import replace

import numpy as np

from seqviz.geometry.pose import frozen
from seqviz.render.draw import Drawing
from seqviz.render.pictures import SIZE
from seqviz.render.sheet import compose, labels_of
from seqviz.render.shots import CELL, Shot, shots_of
from tests.render.drawn import NEEDS_GRAPHICS
from tests.scene.tray import scene

pytestmark = NEEDS_GRAPHICS


def shut_in() -> Shot:
    """Return the step of the pad, with the pad not drawn back and seen from the upper side: all hidden."""
    plain = scene(11)
    items = tuple(replace(item, shift=frozen([0, 0, 0])) for item in plain.items)
    return shots_of([replace(plain, items=items, arrows=(), marks=(), up=frozen([0, 0, 1]))], SIZE)[0]


def test_its_edges_are_drawn_and_its_name_stands_beside() -> None:
    shot = shut_in()
    pad = next(k for k, item in enumerate(shot.scene.items) if item.name == "foot pad")
    assert shot.seen.pixels(pad) == 0
    view = shot.seen.view.resized(2 * CELL)
    blank = Drawing(
        view=view,
        pixels=np.full((view.size[1], view.size[0], 3), 255, dtype=np.uint8),
        depth=np.full((view.size[1], view.size[0]), np.inf, dtype=np.float32),
    )
    picture = np.array(compose(shot, blank, None, SIZE)).astype(int)
    dark_blue = (picture[..., 2] - picture[..., 0]) > 40
    assert dark_blue.sum() > 500
    columns = np.nonzero(dark_blue)[1]
    places = shot.seen.view.resized(CELL).project(shot.bodies[pad].vertices)[:, :2]
    assert abs(columns.min() - places[:, 0].min()) < 6
    assert abs(columns.max() - places[:, 0].max()) < 6

    label = labels_of(shot, [], np.zeros((view.size[1], view.size[0]), dtype=bool), 2 * CELL)[0]
    assert label.wish.lines == ("foot pad",)
    # Off the pad's box of cells.
    low, high = places.min(axis=0) / CELL, places.max(axis=0) / CELL
    corner, box = np.array(label.corner), np.array(label.box)
    assert ((corner + box <= low) | (corner >= high)).any()
