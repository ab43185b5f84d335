"""What counts as seen."""

import numpy as np

from seqviz.geometry.pose import frozen
from seqviz.render.seen import points_seen, rims_of
from seqviz.render.view import View
from seqviz.scene.picture import End, Mark
from tests.render.drawn import NEEDS_GRAPHICS, shots

UP = np.array([0.0, 0.0, 1.0])
FORWARD = np.array([1.0, 0.0, 0.0])
# Straight down, forward up in the picture: 10 pixels a mm, 20 mm wide.
VIEW = View(towards=UP, up=FORWARD, centre=np.zeros(3), scale=10.0, size=(200, 200))


def mark(height: float) -> Mark:
    ends = [
        End(point=frozen([0, 0, height + away]), outward=frozen([0, 0, sense]), part="sheet")
        for away, sense in ((0.0, 1.0), (-0.8, -1.0))
    ]
    return Mark(stack=0, kind="set", diameter=3.0, ends=(ends[0], ends[1]))


def floor(height: float) -> np.ndarray:
    return np.full((200, 200), height, dtype=np.float32)


def test_points_behind_a_face_are_not_seen() -> None:
    points = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 5.0], [50.0, 0.0, 9.0]])
    # The last one is outside of the picture.
    assert points_seen(VIEW, floor(3.0), points).tolist() == [False, True, False]


def test_a_mark_is_seen_on_its_sheet_and_not_through_a_wall() -> None:
    sheet = mark(0.0)
    rims = rims_of([sheet])
    assert rims.seen(VIEW, floor(0.0)) == [sheet.ends[0]]
    wall = floor(0.0)
    wall[:, 90:] = 20.0  # most of the hole, 85 to 115, is behind it
    assert rims.seen(VIEW, wall) == [None]
    wall[:, :] = 0.0
    wall[:, 110:] = 20.0  # only its edge
    assert rims.seen(VIEW, wall) == [sheet.ends[0]]


def test_from_below_the_other_end_is_seen() -> None:
    below = View(towards=-UP, up=FORWARD, centre=np.zeros(3), scale=10.0, size=(200, 200))
    sheet = mark(0.0)
    assert rims_of([sheet]).seen(below, floor(0.8)) == [sheet.ends[1]]


def test_edge_on_neither_is() -> None:
    flat = View(towards=FORWARD, up=UP, centre=np.zeros(3), scale=10.0, size=(200, 200))
    assert rims_of([mark(0.0)]).seen(flat, floor(-99.0)) == [None]


def test_no_marks() -> None:
    assert rims_of([]).seen(VIEW, floor(0.0)) == []


@NEEDS_GRAPHICS
def test_new_parts_and_holes_of_every_step_are_seen() -> None:
    for shot in shots():
        for k, item in enumerate(shot.scene.items):
            if item.role == "new":
                assert shot.seen.share(k) >= 0.5, (shot.scene.number, item.name)
                assert shot.seen.pixels(k) / shot.seen.ids.size >= 0.01, (shot.scene.number, item.name)
        assert shot.seen.holes >= 0.9, shot.scene.number


@NEEDS_GRAPHICS
def test_ids_name_the_items() -> None:
    seen = shots()[1].seen
    assert set(np.unique(seen.ids)) == {-1, 0, 1, 2}
    # What is new and alone in the picture covers at least what is seen of it.
    assert all(seen.alone[k] >= seen.pixels(k) > 0 for k in (1, 2))


@NEEDS_GRAPHICS
def test_depths_are_those_of_the_sheet() -> None:
    shot = shots()[0]
    seen = shot.seen
    corner = shot.bodies[0].vertices.mean(axis=0)
    x, y, near = seen.view.project(corner)
    assert abs(seen.depth[int(y), int(x)] - near) < 0.5 + 1.5 / seen.view.scale


@NEEDS_GRAPHICS
def test_items_stand_where_they_are_projected() -> None:
    shot = shots()[1]
    seen = shot.seen
    for k in (1, 2):
        # The middle hole's neighbourhood on the foot: 5 mm along from the hole, on its upper face.
        arrow = next(one for one in shot.scene.arrows if one.part == shot.scene.items[k].name)
        x, y, _ = seen.view.project(arrow.anchors[0] + [5.0, 0.0, 0.4])
        assert seen.ids[int(y), int(x)] == k
