"""The worked examples of the published sources, inches."""

from __future__ import annotations

import math

import pytest

from seqviz.trade.bends import (
    FORMULAS,
    bend_allowance,
    bend_radius_advice,
    developed_width,
    setback,
)


@pytest.mark.parametrize(
    ("alloy", "least", "most"),
    # FAA AC 43.13-1B table 4-6, column .032: 2024-T3 2t to 4t, 6061-T6 0.5t to 1.5t
    [("2024-T3", 0.064, 0.128), ("6061-T6", 0.016, 0.048)],
)
def test_recommended_radius(alloy: str, least: float, most: float) -> None:
    advice = bend_radius_advice(alloy, 0.032)
    assert advice is not None
    assert (advice.least, advice.most) == pytest.approx((least, most))
    assert advice.source == "FAA AC 43.13-1B, table 4-6, column 0.032"


def test_between_two_columns_the_thicker_one_counts() -> None:
    advice = bend_radius_advice("2024-T3", 0.040)
    assert advice is not None
    # column .064: 3t to 5t
    assert (advice.least, advice.most) == pytest.approx((0.120, 0.200))
    assert bend_radius_advice("2024-T3", 0.3) is None
    assert bend_radius_advice("steel", 0.032) is None
    # .065 is the column .064 within a thousandth, .0651 is not: 3t and 4t
    assert [advice.least / t for t in (0.065, 0.0651) if (advice := bend_radius_advice("2024-T3", t))] == [
        pytest.approx(3.0),
        pytest.approx(4.0),
    ]


@pytest.mark.parametrize(("degrees", "expected"), [(45.0, 0.130), (135.0, 0.758)])
def test_setback_of_ac_43_13(degrees: float, expected: float) -> None:
    # FAA AC 43.13-1B page 4-14: radius .25, thickness .064; K(45) .41421, K(135) 2.4142
    assert setback(0.064, 0.25, degrees) == pytest.approx(expected, abs=0.0005)


def test_flats_of_the_u_channel() -> None:
    # FAA-H-8083-31 figures 4-124 to 4-126: 1 x 2 x 1, .040, radius .16: setback .20, flats .8, 1.6, .8
    back = setback(0.040, 0.16, 90.0)
    assert back == pytest.approx(0.20)
    assert (1 - back, 2 - 2 * back, 1 - back) == pytest.approx((0.8, 1.6, 0.8))


def test_developed_width_of_the_u_channel() -> None:
    # The same example ends in 3.74, from memory; it rounds each allowance to .27. Hence within .03.
    neutral = developed_width((1, 2, 1), (90, 90), 0.040, 0.16)
    handbook = developed_width((1, 2, 1), (90, 90), 0.040, 0.16, "handbook")
    assert neutral == pytest.approx(3.74, abs=0.03)
    assert handbook == pytest.approx(3.74, abs=0.03)
    # .8 + 1.6 + .8 = 3.2; neutral axis 2 x pi/2 x .18 = .5655; handbook 2 x 90 (.0027888 + .000312) = .5581
    assert neutral == pytest.approx(3.7655, abs=0.0001)
    assert handbook == pytest.approx(3.7581, abs=0.0001)


def test_allowance_of_one_bend_by_each_formula() -> None:
    # radius 1/4, thickness .051, 90 degrees: .433 in FAA-H-8083-31, from memory
    assert bend_allowance(0.051, 0.25, 90.0) == pytest.approx(0.4328, abs=0.0001)
    assert bend_allowance(0.051, 0.25, 90.0) == pytest.approx(0.433, abs=0.0005)
    # (.01743 x .25 + .0078 x .051) x 90
    assert bend_allowance(0.051, 0.25, 90.0, "handbook") == pytest.approx(0.4280, abs=0.0001)
    assert list(FORMULAS) == ["neutral axis", "handbook"]


def test_the_neutral_axis_lies_in_the_middle_of_the_sheet() -> None:
    assert bend_allowance(2.0, 3.0, 180.0) == pytest.approx(4 * math.pi)
