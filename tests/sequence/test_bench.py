"""Which way is up, and what the bench closes."""

from __future__ import annotations

import numpy as np
import pytest

from seqviz.geometry.pose import unit
from seqviz.records.steps import TurnOver
from seqviz.sequence.bench import closed_by_bench, direction_of, side_vector, turned
from tests.sequence.by_hand import piece, structure, vector

# Forward is +x, up is +z: left is up x forward = +y.
SKIN = structure(piece("skin", [((0, 0, 0), (10, 10, 1))]))


@pytest.mark.parametrize(
    ("side", "wanted"),
    [
        ("upper", [0, 0, 1]),
        ("lower", [0, 0, -1]),
        ("left side", [0, 1, 0]),
        ("right side", [0, -1, 0]),
        ("forward end", [1, 0, 0]),
        ("aft end", [-1, 0, 0]),
    ],
)
def test_sides(side: str, wanted: list[float]) -> None:
    assert np.array_equal(side_vector(SKIN, side), wanted)


def test_turning_over_swaps_up_and_down_and_a_side_is_taken_as_said() -> None:
    lower = turned(SKIN, vector(0, 0, 1), TurnOver(how="sideways"))
    assert np.array_equal(lower, [0, 0, -1])
    assert np.array_equal(turned(SKIN, lower, TurnOver(how="end over end")), [0, 0, 1])
    assert np.array_equal(turned(SKIN, lower, TurnOver(how="side", side="left side")), [0, 1, 0])


@pytest.mark.parametrize(
    ("degrees", "closed"), [(0.0, False), (14.9, False), (15.0, False), (15.1, True), (90, True)]
)
def test_more_than_fifteen_degrees_below_level_is_closed(degrees: float, closed: bool) -> None:
    angle = np.radians(degrees)
    out = direction_of(vector(np.cos(angle), 0, -np.sin(angle)))
    assert closed_by_bench(out, vector(0, 0, 1)) is closed


def test_directions_equal_within_rounding_are_one_key() -> None:
    assert direction_of(unit(vector(1, 1e-12, -1e-13))) == (1.0, 0.0, 0.0)
