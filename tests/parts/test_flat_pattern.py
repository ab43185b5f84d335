from __future__ import annotations

import math

import numpy as np
import pytest

from seqviz.geometry.volume import volume_of
from seqviz.parts.flat_pattern import FlatPattern, flat_pattern
from seqviz.parts.formed import Formed, chain_of
from seqviz.parts.hand import other_hand
from seqviz.parts.make import make_parts
from seqviz.parts.part import Part
from seqviz.records.model import BarShape, FromTo, Opening, PlateShape, Row, Shape, SkinShape, TubeShape
from seqviz.trade.bends import developed_width
from tests.parts.samples import angle, at, channel, hat, model, part, row, spacing, zed


def made(shape: Shape, *rows: Row) -> Part:
    parts, findings = make_parts(model(part(shape, *rows)))
    assert findings == []
    return parts["p"]


def pattern(shape: Shape, *rows: Row) -> FlatPattern:
    found = flat_pattern(made(shape, *rows))
    assert found is not None
    return found


def foot(y: float) -> Row:
    layout = FromTo(start=(20.0, y), end=(600.0, y), spacing=spacing(count=30))
    return row(layout, "foot", flat="leg 1")


@pytest.mark.parametrize(
    "shape",
    [angle(83.0), channel((90.0, 80.0)), zed((90.0, 100.0)), hat()],
    ids=lambda shape: type(shape).__name__,
)
def test_bent_parts_are_as_wide_as_the_formula_says(shape: Formed) -> None:
    chain = chain_of(shape)
    wide = developed_width(chain.widths, chain.angles, chain.thickness, chain.radius)
    assert pattern(shape).size == pytest.approx((chain.length, wide), abs=2e-6)


def test_an_angle_by_hand() -> None:
    found = pattern(angle(), foot(12.0))
    # setback 2.4 + 1 = 3.4; legs 16.6 and 21.6 without it; bend pi / 2 x 2.9 = 4.5553
    taken = math.pi / 2 * 2.9
    assert found.size == pytest.approx((620.0, 16.6 + taken + 21.6), abs=2e-6)
    (bend,) = found.bend_lines
    assert (bend.between, bend.up) == (("leg 1", "leg 2"), False)
    assert (bend.angle, bend.radius, bend.allowance) == pytest.approx((90.0, 2.4, taken))
    assert bend.start == pytest.approx([0.0, 16.6 + taken / 2], abs=2e-6)
    assert bend.end == pytest.approx([620.0, 16.6 + taken / 2], abs=2e-6)
    # from the edge of leg 1: 20 - 12
    assert found.holes[0].name == "foot.1"
    assert found.holes[0].centre == pytest.approx([20.0, 8.0], abs=2e-6)
    assert (found.seen_from, found.seen_flat) == ("outside", "leg 1")


def test_the_other_hand_is_the_mirror_image_and_seen_from_the_same_side() -> None:
    one = made(angle(), foot(12.0))
    found, mirrored = flat_pattern(one), flat_pattern(other_hand(one))
    assert found is not None
    assert mirrored is not None
    assert mirrored.size == pytest.approx(found.size)
    assert mirrored.holes[0].centre == pytest.approx([20.0, found.size[1] - 8.0], abs=2e-6)
    assert [bend.up for bend in mirrored.bend_lines] == [False]
    assert mirrored.bend_lines[0].radius == pytest.approx(2.4)


def test_bends_go_up_where_they_turn_towards_the_reader() -> None:
    assert [bend.up for bend in pattern(channel()).bend_lines] == [False, False]
    assert [bend.up for bend in pattern(zed()).bend_lines] == [False, True]
    assert [bend.up for bend in pattern(hat()).bend_lines] == [False, True, True, False]


@pytest.mark.parametrize("radius", [0.0, 2.4])
def test_radius_and_angle_of_a_bend_come_back(radius: float) -> None:
    (bend,) = pattern(angle(137.0, radius)).bend_lines
    assert (bend.angle, bend.radius) == pytest.approx((137.0, radius), abs=1e-6)


def test_what_the_sheet_weighs_is_what_the_bent_part_weighs() -> None:
    shape = angle()
    sheet = pattern(shape)
    # The pieces are facets inside the true bend: 0.01 mm off at most on either face.
    metal = sum(map(volume_of, made(shape).pieces))
    assert sheet.area * sheet.thickness == pytest.approx(metal, rel=1e-3)
    assert sheet.area * sheet.thickness >= metal


def test_a_skin_is_as_written_with_its_openings() -> None:
    opening = Opening(name="o", center=None, diameter=None, outline=((10, 10), (30, 10), (30, 20)), at=at())
    shape = SkinShape(thickness=0.8, outline=((0, 0), (100, 0), (90, 50), (0, 50)), openings=(opening,))
    found = pattern(shape)
    assert found.outline.tolist() == [[0, 0], [100, 0], [90, 50], [0, 50]]
    # trapezium (100 + 90) / 2 x 50, triangle 20 x 10 / 2
    assert found.area == pytest.approx(4750 - 100)
    assert (found.bend_lines, found.seen_from) == ((), "outside")


def test_a_clockwise_plate_is_seen_from_its_inside() -> None:
    shape = PlateShape(thickness=0.8, outline=((0, 0), (0, 50), (100, 50), (100, 0)), openings=())
    assert pattern(shape).seen_from == "inside"


def test_a_tube_is_unrolled_on_its_outside() -> None:
    shape = TubeShape(length=160.0, diameter=30.0, wall=1.5)
    layout = FromTo(start=(80.0, 10.0), end=(80.0, 50.0), spacing=spacing(count=2))
    found = pattern(shape, row(layout, "round"))
    assert found.size == pytest.approx((160.0, math.pi * 30))
    assert found.holes[0].centre == pytest.approx([80.0, 10.0])
    # 50 is beyond the seam at pi x 15 = 47.12: it lies on the other side of it
    assert found.holes[1].centre == pytest.approx([80.0, 50.0 - math.pi * 30])


def test_a_bar_has_no_flat_pattern() -> None:
    assert flat_pattern(made(BarShape(length=100.0, width=20.0, thickness=3.0))) is None


def test_outlines_run_anticlockwise() -> None:
    for shape in (angle(), hat(), zed()):
        for one in (made(shape), other_hand(made(shape))):
            found = flat_pattern(one)
            assert found is not None
            x, y = found.outline.T
            assert float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2 == pytest.approx(
                found.size[0] * found.size[1]
            )
