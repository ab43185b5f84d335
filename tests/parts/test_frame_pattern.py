"""The flat sheet of a frame."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from seqviz.parts.flat_pattern import flat_pattern
from seqviz.parts.hand import other_hand
from seqviz.records.model import Points
from seqviz.trade.bends import developed_width
from tests.parts.frames import flange, frame, lip, made, opening
from tests.parts.samples import row


def test_two_flanges_develop_as_a_channel() -> None:
    pattern = flat_pattern(made(frame(flange("left edge"), flange("right edge", width=15.0, angle=80.0))))
    assert pattern is not None
    wide = developed_width([20.0, 60.0, 15.0], [90.0, 80.0], 1.0, 2.0)
    assert pattern.size == pytest.approx((100, wide))
    assert pattern.area == pytest.approx(100 * wide)


def test_bend_lines_and_holes() -> None:
    rows = (
        row(Points(points=((30, 10),)), flat="flange left"),
        row(Points(points=((30, 20),)), "b", flat="web"),
    )
    pattern = flat_pattern(
        made(frame(flange("left edge"), flange("a", 4, side="outside", angle=60.0)), *rows)
    )
    assert pattern is not None
    top, back = pattern.bend_lines
    allowance = math.pi / 2 * 2.5
    # Seen from the outside of the web the left edge goes down, the other one comes up.
    assert (top.between, top.up, top.angle, top.radius) == (("web", "flange left edge"), False, 90.0, 2.0)
    assert (back.between, back.up, back.angle) == (("web", "flange a"), True, 60.0)
    assert top.allowance == pytest.approx(allowance)
    assert (top.start[1], top.end[1]) == pytest.approx((57 + allowance / 2, 57 + allowance / 2))
    # 10 along the outside are 10 - 3 behind the bend.
    assert pattern.holes[0].centre == pytest.approx((30, 57 + allowance + 7))
    assert pattern.holes[1].centre == pytest.approx((30, 20))
    assert pattern.seen_from == "outside"


def test_relief_shows_in_the_outline() -> None:
    part = made(frame(flange("a", 1, 2, relief=5.0)))
    pattern = flat_pattern(part)
    assert pattern is not None
    out = math.pi / 2 * 2.5 + 17
    # Web 97 x 57, flanges as long as the edges less 5.
    assert pattern.area == pytest.approx(97 * 57 + (95 + 55) * out)
    assert shapely.Polygon(pattern.outline).is_valid
    twin = flat_pattern(other_hand(part))
    assert twin is not None
    assert np.ptp(twin.outline, axis=0) == pytest.approx(np.ptp(pattern.outline, axis=0))
    assert twin.outline[:, 1].max() == pytest.approx(-pattern.outline[:, 1].min())


def test_an_opening_is_cut_smaller_before_its_lip_is_formed() -> None:
    part = made(frame(openings=(opening(lip=lip(6.0)), opening(10.0, None, (85.0, 30.0)))))
    pattern = flat_pattern(part)
    assert pattern is not None
    # 15 + 3 to the tangent, less the bend's 2.5 x pi / 2 and the wall of 6 - 3.
    radius = 18 - 2.5 * math.pi / 2 - 3
    first, second = pattern.openings
    assert np.linalg.norm(first - [50, 30], axis=1) == pytest.approx(radius, abs=1e-6)
    assert np.linalg.norm(second - [85, 30], axis=1) == pytest.approx(5)
