import pytest

from seqviz.trade.formed_heads import formed_head_figures, formed_head_minimum, formed_head_target


@pytest.mark.parametrize(
    ("inches", "width", "height"),
    # a 1940s manual of the Army Air Forces
    [(1 / 8, 0.188, 0.063), (5 / 32, 0.234, 0.078), (3 / 16, 0.281, 0.093)],
)
def test_printed_figures_are_the_target_rounded(inches: float, width: float, height: float) -> None:
    (printed,) = formed_head_figures(inches * 25.4)
    assert (printed.width / 25.4, printed.height / 25.4) == pytest.approx((width, height))
    target = formed_head_target(inches * 25.4)
    assert (target.width / 25.4, target.height / 25.4) == pytest.approx((width, height), abs=0.001)


def test_the_minimum_is_lower() -> None:
    least = formed_head_minimum(3.175)
    # MIL-HDBK-5H 8.1.2: 1.3 x .125 = .1625, .3 x .125 = .0375
    assert (least.width / 25.4, least.height / 25.4) == pytest.approx((0.1625, 0.0375))
    assert "MIL-HDBK-5H" in least.citation
    assert formed_head_figures(3.2) == ()
