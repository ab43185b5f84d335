from __future__ import annotations

import numpy as np
import pytest

from seqviz.drawing.label_room import LabelRoom

MIDDLE = np.array([50.0, 50.0])


def test_words_stand_above_their_thing_where_nothing_is() -> None:
    spot = LabelRoom().place((MIDDLE, 2.0), (10.0, 3.0))
    # 2.0 and 0.8 of air above the middle: bottom at 47.2, centred
    assert spot.box == pytest.approx((45.0, 44.2, 55.0, 47.2))
    assert not spot.far


def test_a_taken_place_is_left_alone_and_words_too_are_taken() -> None:
    room = LabelRoom()
    first = room.place((MIDDLE, 2.0), (10.0, 3.0)).box
    second = room.place((MIDDLE, 2.0), (10.0, 3.0)).box
    assert second[0] >= first[2] or second[1] >= first[3] or second[2] <= first[0] or second[3] <= first[1]


def test_words_far_away_want_a_line() -> None:
    room = LabelRoom()
    room.take((40.0, 40.0, 60.0, 60.0))
    spot = room.place((MIDDLE, 2.0), (10.0, 3.0))
    assert spot.far
    assert spot.box[3] <= 40.0 or spot.box[1] >= 60.0 or spot.box[2] <= 40.0 or spot.box[0] >= 60.0


def test_words_keep_off_a_sloping_line() -> None:
    room = LabelRoom()
    room.take_line(np.array([40.0, 40.0]), np.array([60.0, 50.0]))
    left, top, right, bottom = room.place((np.array([50.0, 49.0]), 1.0), (8.0, 3.0)).box
    # the line at x: y = 40 + (x - 40) / 2
    assert bottom < 40 + (left - 40) / 2 or top > 40 + (right - 40) / 2


def test_another_side_is_nearer_than_farther_above() -> None:
    room = LabelRoom()
    room.take((40.0, 30.0, 60.0, 47.5))
    spot = room.place((MIDDLE, 2.0), (10.0, 3.0))
    # all that is above is taken: straight below, 2.0 and 0.8 from the middle
    assert spot.box == pytest.approx((45.0, 52.8, 55.0, 55.8))
