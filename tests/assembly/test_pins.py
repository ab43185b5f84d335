"""The largest round pin through several holes."""

import math

import numpy as np
import pytest

from seqviz.assembly.pins import largest_pin


def test_in_line_the_smallest_hole_decides() -> None:
    assert largest_pin([(0, 0, 3.3), (0, 0, 3.2), (0, 0, 4.1)]) == 3.2


def test_two_holes_off_by_half_a_millimetre() -> None:
    # Radii 1.65 and 1.65, 0.5 apart: the lens is 3.3 - 0.5 = 2.8 wide.
    assert largest_pin([(0, 0, 3.3), (0.3, 0.4, 3.3)]) == pytest.approx(2.8)


def test_a_small_hole_inside_a_large_one() -> None:
    # 2.0 within 4.1, 0.5 off: 1.0 + 0.5 < 2.05, the small hole passes whole.
    assert largest_pin([(0, 0, 4.1), (0.5, 0, 2.0)]) == 2.0


def test_three_holes_at_the_corners_of_a_triangle() -> None:
    # Centres 0.4 from the middle, all of radius 1.5: the pin stands in the middle, 2 (1.5 - 0.4).
    circles = [(0.4 * math.cos(turn), 0.4 * math.sin(turn), 3.0) for turn in np.radians([90, 210, 330])]
    assert largest_pin(circles) == pytest.approx(2.2, abs=1e-6)


def test_holes_that_share_nothing() -> None:
    assert largest_pin([(0, 0, 3.0), (5.0, 0, 3.0)]) == pytest.approx(-2.0)
