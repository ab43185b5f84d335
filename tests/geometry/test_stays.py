"""While which moves pieces are in each other: `seqviz.geometry.sweep.stays`."""

from __future__ import annotations

import numpy as np
import pytest

from seqviz.geometry.pose import Pose, frozen, turn_about
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.geometry.sweep import stays
from tests.geometry.prisms import boxes

UP = np.array([0.0, 0.0, 1.0])
PLATE = boxes(((0, 0, 0), (10, 10, 1)))
LIMIT = TOLERANCE + GUARD


def test_two_plates_meet_while_their_heights_do() -> None:
    (stay,) = stays(PLATE, boxes(((5, 5, 3), (15, 15, 5))), UP, -np.inf)
    # The plate's top at 1 reaches 3 after a move of 2; its bottom at 0 leaves 5 after a move of 5.
    assert stay.begin == pytest.approx(2 + LIMIT)
    assert stay.end == pytest.approx(5 - LIMIT)
    assert stay.clear == pytest.approx(5)


def test_moves_back_are_told_only_where_they_are_not_over() -> None:
    below = boxes(((5, 5, -4), (15, 15, -2)))
    # From -2 - 1 = -5 .. to -2: all of it is over at -1.
    (stay,) = stays(PLATE, below, UP, -3.0)
    assert stay.begin == pytest.approx(-5 + LIMIT)
    assert stay.clear == pytest.approx(-2)
    assert stays(PLATE, below, UP, -1.0) == []


def test_what_lies_beside_or_only_touches_is_not_met() -> None:
    assert stays(PLATE, boxes(((10.02, 0, 3), (15, 15, 5))), UP, -np.inf) == []
    assert stays(PLATE, boxes(((9.96, 0, 3), (15, 15, 5))), UP, -np.inf) == []
    assert len(stays(PLATE, boxes(((9.94, 0, 3), (15, 15, 5))), UP, -np.inf)) == 1


def test_a_leaning_plate_is_met_by_its_edge() -> None:
    turned = Pose(
        rotation=frozen(turn_about(np.array([0.0, 1.0, 0.0]), -45.0)), translation=frozen(np.zeros(3))
    )
    slope = boxes(((-20, 0, 0), (20, 10, 2))).moved(turned)
    (stay,) = stays(PLATE, slope, UP, -np.inf)
    # The slope's upper face is z = x + 2 sqrt(2); the plate's low edge x = 10 clears it at 10 + 2.828.
    assert stay.clear == pytest.approx(10 + 2 * np.sqrt(2))
    # Square to the slope the tolerance is 0.05: upward sqrt(2) times as much.
    assert stay.clear - stay.end == pytest.approx(LIMIT * np.sqrt(2))
