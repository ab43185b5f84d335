import pytest

from seqviz.trade.gauges import by_gauge, gauge_by_formula, next_thicker, stock_sheets
from seqviz.trade.tables import rows


@pytest.mark.parametrize(("gauge", "inches"), [(8, 0.1285), (16, 0.0508), (20, 0.0320), (26, 0.0159)])
def test_gauges(gauge: int, inches: float) -> None:
    found = by_gauge(gauge)
    assert found is not None
    assert found.thickness / 25.4 == pytest.approx(inches)
    assert by_gauge(9) is None


def test_the_table_is_the_formula() -> None:
    for row in rows("sheet_gauges"):
        # ASTM B258: .005 x 92^((36 - n) / 39), printed to four places
        made = gauge_by_formula(int(row.number("gauge"))) / 25.4
        assert made == pytest.approx(row.number("thickness in"), abs=0.00006)


@pytest.mark.parametrize(
    ("inches", "name"), [(0.063, ".064 in"), (0.050, ".051 in"), (0.125, ".128 in"), (0.032, ".032 in")]
)
def test_what_is_ordered_today_has_the_next_thicker_row(inches: float, name: str) -> None:
    found = next_thicker(inches * 25.4)
    assert found is not None
    assert found.name == name
    assert inches in [pytest.approx(sheet.thickness / 25.4) for sheet in stock_sheets("of today")]


def test_no_table_is_stretched() -> None:
    assert next_thicker(0.129 * 25.4) is None
    assert len(stock_sheets("of the tables")) == 12
