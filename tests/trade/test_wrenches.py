import pytest

from seqviz.trade.tables import rows
from seqviz.trade.wrenches import opening_by_formula, wrench_opening


@pytest.mark.parametrize(
    ("flats", "least", "most"),
    # ASME B18.2.2-2015, appendix
    [
        (1 / 4, 0.252, 0.257),
        (3 / 8, 0.378, 0.384),
        (7 / 16, 0.440, 0.446),
        (9 / 16, 0.566, 0.573),
        (1, 1.006, 1.015),
    ],
)
def test_openings(flats: float, least: float, most: float) -> None:
    found = wrench_opening(flats * 25.4)
    assert found is not None
    assert (found.least / 25.4, found.most / 25.4) == pytest.approx((least, most))
    assert wrench_opening(10.0) is None


def test_the_formula_gives_the_table_but_for_its_last_digit() -> None:
    for row in rows("wrench_openings"):
        if row.text("across flats in") == "5/16":
            continue  # the table has .316 and .322, the formula .315 and .321
        made = opening_by_formula(row.mm("across flats"))
        assert made.least == pytest.approx(row.mm("least"), abs=0.001 * 25.4)
        assert made.most == pytest.approx(row.mm("most"), abs=0.001 * 25.4)
    # 7/16: 1.005 x .4375 + .001 = .4407; + .005 x .4375 + .004 = .4469
    made = opening_by_formula(7 / 16 * 25.4)
    assert (made.least / 25.4, made.most / 25.4) == pytest.approx((0.4407, 0.4469), abs=0.00005)
