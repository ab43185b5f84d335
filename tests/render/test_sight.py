"""Where the eye is: turning, shifting, bringing nearer, from under, and with the work lying otherwise."""

from dataclasses import replace

import numpy as np
import pytest

from seqviz.geometry.pose import turn_about
from seqviz.render.sight import (
    Sight,
    closer,
    first_sight,
    from_other_side,
    shifted,
    turned,
    view_of,
    whole_in_sight,
)
from seqviz.scene.views import first_view

LEVEL = np.eye(3)
OVER = turn_about(np.array([0.0, 1.0, 0.0]), 180.0)
SIGHT = Sight(turn=0.0, tilt=30.0, centre=np.array([10.0, 20.0, 5.0]), half=100.0)
SIZE = (800, 600)


def test_view_from_aside() -> None:
    view = view_of(SIGHT, LEVEL, SIZE)
    # cos 30 = 0.8660, sin 30 = 0.5; 600 pixels are 200 mm.
    assert view.towards == pytest.approx([0.8660254, 0.0, 0.5])
    assert view.up == pytest.approx([0.0, 0.0, 1.0])
    assert view.scale == 3.0
    assert view.project(SIGHT.centre) == pytest.approx([400.0, 300.0, 0.0])


def test_work_turned_over_is_seen_from_its_other_side() -> None:
    view = view_of(SIGHT, OVER, SIZE)
    assert view.up == pytest.approx([0.0, 0.0, -1.0])
    # The bench's x is the base's -x.
    assert view.towards == pytest.approx([-0.8660254, 0.0, -0.5])


def test_first_sight_is_that_of_the_pictures() -> None:
    view = view_of(first_sight(LEVEL), LEVEL, SIZE)
    assert view.towards == pytest.approx(first_view(np.array([0.0, 0.0, 1.0]), np.array([0.0, 1.0, 0.0])))


def test_turning_stops_short_of_straight_above() -> None:
    # 600 pixels are 180 degrees: 100 to the right 30 degrees, 50 up 15 degrees lower.
    after = turned(SIGHT, (100.0, 50.0), 600)
    assert (after.turn, after.tilt) == (330.0, 15.0)
    assert turned(SIGHT, (0.0, -900.0), 600).tilt == 89.0
    assert turned(SIGHT, (0.0, 900.0), 600).tilt == -89.0


def test_shifting_takes_the_work_along_with_the_hand() -> None:
    view = view_of(SIGHT, LEVEL, SIZE)
    after = view_of(shifted(SIGHT, view, (60.0, 30.0)), LEVEL, SIZE)
    assert after.project(SIGHT.centre)[:2] == pytest.approx([460.0, 270.0])


def test_nearer_and_from_under() -> None:
    assert closer(SIGHT, 2.0).half == 50.0
    assert closer(SIGHT, 1e9).half == 1.0
    assert from_other_side(SIGHT).tilt == -30.0
    assert from_other_side(replace(SIGHT, tilt=2.0)).tilt == -40.0


def test_all_of_the_work_comes_into_sight() -> None:
    corners = np.array([[x, y, z] for x in (0.0, 600.0) for y in (0.0, 80.0) for z in (0.0, 30.0)])
    view = view_of(whole_in_sight(SIGHT, OVER, corners, SIZE), OVER, SIZE)
    places = view.project(corners)
    assert places[:, 0].min() >= 800 * 0.08 - 1e-6
    assert places[:, 0].max() <= 800 * 0.92 + 1e-6
    assert places[:, 1].max() <= 600 * 0.84 + 1e-6
    assert places[:, 1].min() >= 600 * 0.08 - 1e-6
