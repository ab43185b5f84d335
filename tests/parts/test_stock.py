from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seqviz.parts.part import Part
from seqviz.parts.sizes import HoleSize
from seqviz.parts.stock import part_from_stock, stock_mistake
from seqviz.records.model import BarShape, Stock
from tests.parts.samples import angle, at, channel, hat

LIGHT = Stock(
    name="light angle", shape=replace(angle(thickness=0.6, radius=0.9, legs=(18.0, 18.0)), length=0.0),
    row_in=9.0, ends=12.0, at=at(20),
)  # fmt: skip
FLAT_BAR = Stock(
    name="flat bar", shape=BarShape(length=0.0, width=20.0, thickness=3.0), row_in=8.0, ends=10.0, at=at(21)
)


def cut(stock: Stock, distances: list[float]) -> Part | None:
    sizes = [HoleSize(diameter=d, name=n) for d, n in ((3.3, "small"), (4.8, None), (4.1, "big"))]
    return part_from_stock(stock, "cross 1", "cross 1", at(40), np.array(distances), sizes)


def test_an_angle_along_a_row() -> None:
    made = cut(LIGHT, [0, 25, 75])
    assert made is not None
    assert (made.name, made.shape, made.at) == ("cross 1", "angle", at(40))
    # 75 + 2 x 12 = 99 long
    assert made.flats["leg 1"].outline[:, 0].max() == 99
    assert [h.name for h in made.holes] == ["cross 1.1", "cross 1.2", "cross 1.3"]
    assert np.allclose([h.centre for h in made.holes], [[12, 9, 0.3], [37, 9, 0.3], [87, 9, 0.3]])
    assert [(h.diameter, h.size) for h in made.holes] == [(3.3, "small"), (4.8, None), (4.1, "big")]
    assert {h.flat for h in made.holes} == {"leg 1"}


def test_a_row_may_run_backwards() -> None:
    made = cut(LIGHT, [75, 50, 0])
    assert made is not None
    assert made.flats["leg 1"].outline[:, 0].max() == 99
    assert [h.centre[0] for h in made.holes] == [87, 62, 12]


def test_a_bar_along_a_row() -> None:
    made = cut(FLAT_BAR, [0, 25, 75])
    assert made is not None
    assert made.shape == "bar"
    assert np.allclose(made.holes[0].centre, [10, 8, 1.5])
    assert made.holes[0].flat == "top"


def test_the_row_lies_on_the_flat_that_is_said() -> None:
    shape = replace(channel(), length=0.0)
    stock = Stock(name="c", shape=shape, row_in=20.0, ends=10.0, row_on="web", at=at(22))
    made = cut(stock, [0, 25, 75])
    assert made is not None
    assert made.shape == "channel"
    assert {hole.flat for hole in made.holes} == {"web"}
    # the middle of the web of 40, half of its thickness from y = 0
    assert np.allclose([h.centre for h in made.holes], [[10, 0.5, 20], [35, 0.5, 20], [85, 0.5, 20]])
    on_foot = cut(
        Stock(name="h", shape=replace(hat(), length=0.0), row_in=8.0, ends=10.0, at=at(23)), [0, 30, 60]
    )
    assert on_foot is not None
    assert np.allclose(on_foot.holes[0].centre, [10, 8, 0.5])


@pytest.mark.parametrize(
    ("stock", "words"),
    [
        # setback 0.6 + 0.9 = 1.5
        (replace(LIGHT, row_in=1.4), "a row 1.4 in lies off the flat, which reaches from 1.5 to 18"),
        # the web of 40 between its tangents: 2.5 to 37.5
        (
            Stock(name="c", shape=channel(), row_in=38.0, ends=10.0, row_on="web", at=at(24)),
            "a row 38 in lies off the flat, which reaches from 2.5 to 37.5",
        ),
        (replace(FLAT_BAR, row_in=20.0), "which reaches from 0 to 20"),
        (replace(LIGHT, ends=0.0), "the ends must reach beyond"),
        (replace(LIGHT, shape=angle(legs=(18.0, 3.0))), "leg 2 of 3 mm ends in the bend"),
    ],
)
def test_stock_with_a_mistake_makes_no_part(stock: Stock, words: str) -> None:
    finding = stock_mistake(stock)
    assert finding is not None
    assert (finding.kind, finding.at) == ("bad-value", stock.at)
    assert words in finding.message
    assert cut(stock, [0, 25, 75]) is None
    assert stock_mistake(LIGHT) is None
