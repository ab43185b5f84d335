"""Small new parts get a close-up; large ones do not."""

import numpy as np
import pytest

from seqviz.render.closeup import close_view, corner_for
from seqviz.render.pictures import SIZE
from seqviz.render.shots import CELL, Shot, shots_of
from tests.render.drawn import NEEDS_GRAPHICS, shots
from tests.scene.tray import stop_scene

pytestmark = NEEDS_GRAPHICS


@pytest.fixture(scope="module")
def small() -> list[Shot]:
    return shots_of([stop_scene(number) for number in range(1, 7)], SIZE)


def test_a_small_part_is_shown_larger(small: list[Shot]) -> None:
    shot = small[2]
    view = shot.seen.view.resized(2 * CELL)
    close = close_view(shot, view)
    assert close is not None
    assert close.scale >= 1.5 * view.scale
    # The part where it is drawn and where it belongs, and nothing of it cut off.
    for points in (shot.bodies[2].vertices, shot.bodies[2].vertices - shot.scene.items[2].shift):
        place = close.project(points)[:, :2]
        assert place.min() > 0
        assert (place.max(axis=0) < close.size).all()


def test_it_stands_in_a_corner_clear_of_the_new_part(small: list[Shot]) -> None:
    shot = small[2]
    view = shot.seen.view.resized(2 * CELL)
    close = close_view(shot, view)
    assert close is not None
    left, top = corner_for(shot, view, close.size)
    new = np.kron(shot.seen.ids == 2, np.ones((2 * CELL, 2 * CELL), dtype=bool))
    assert not new[top : top + close.size[1], left : left + close.size[0]].any()


def test_large_parts_and_steps_without_new_ones_have_none(small: list[Shot]) -> None:
    for shot in (*shots()[:2], small[3]):
        assert close_view(shot, shot.seen.view.resized(2 * CELL)) is None


def test_an_empty_bench_can_be_looked_at(small: list[Shot]) -> None:
    assert (small[0].seen.ids == -1).all()
