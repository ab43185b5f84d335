import pytest

from seqviz.trade.heads import head_size, tail_size, washer_height


@pytest.mark.parametrize(
    ("inches", "width", "height"),
    # reference values, from memory: 3/32 .187x.040, 1/8 .250x.054, 5/32 .312x.067, 3/16 .375x.080
    [(3 / 32, 4.7498, 1.016), (1 / 8, 6.35, 1.3716), (5 / 32, 7.9248, 1.7018), (3 / 16, 9.525, 2.032)],
)
def test_solid_heads_are_the_rows_of_ms20470(inches: float, width: float, height: float) -> None:
    head = head_size("solid rivet", inches * 25.4)
    assert head.diameter == pytest.approx(width)
    assert head.height == pytest.approx(height)
    assert head.source == "MS20470, from memory"


def test_solid_head_written_in_mm_is_the_same_row() -> None:
    assert head_size("solid rivet", 3.18).height == pytest.approx(0.054 * 25.4)


def test_solid_head_between_rows_keeps_the_proportions() -> None:
    head = head_size("solid rivet", 3.0)
    assert (head.diameter, head.height) == pytest.approx((6.0, 1.29))  # 2 x 3, 0.43 x 3
    assert "from memory" in head.source


def test_formed_head_of_one_eighth() -> None:
    tail = tail_size("solid rivet", 3.175)
    # 1940s AAF repair manual (A17): .188 x .063 in = 4.775 x 1.600 mm; 1.5 D and 0.5 D give 4.7625 and 1.5875
    assert (tail.diameter, tail.height) == pytest.approx((4.7625, 1.5875))
    assert "AC 43.13-1B" in tail.source


def test_blind_head_and_tail() -> None:
    head, tail = head_size("blind rivet", 3.2), tail_size("blind rivet", 3.2)
    assert (head.diameter, head.height) == pytest.approx((6.4, 0.96))
    assert (tail.diameter, tail.height) == pytest.approx((5.12, 4.8))
    assert head.source == tail.source == "common practice, no source"


def test_nut_of_an3_stands_on_a_washer() -> None:
    nut = tail_size("bolt", 4.7625)
    assert nut.height == pytest.approx((0.250 + 0.063) * 25.4)
    assert nut.diameter == pytest.approx(10.95375)  # 2.3 x 4.7625
    assert tail_size("bolt", 5.0).height == pytest.approx(8.5)
    assert head_size("bolt", 5.0).diameter == pytest.approx(11.5)


def test_the_washer_is_a_part_of_the_tail() -> None:
    # AN960 is 0.063 in thick; of sizes that are not in the table 0.3 D.
    assert washer_height(6.35) == pytest.approx(1.6002)
    assert washer_height(5.0) == pytest.approx(1.5)
