import pytest

from seqviz.trade.heads import head_size, sunk_head, tail_size, washer_height


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


@pytest.mark.parametrize(
    ("inches", "width", "height"),
    # MS20426, from memory: 3/32 .179 x .036, 1/8 .225 x .042, 5/32 .286 x .055, 3/16 .353 x .070
    [(3 / 32, 0.179, 0.036), (1 / 8, 0.225, 0.042), (5 / 32, 0.286, 0.055), (3 / 16, 0.353, 0.070)],
)
def test_flush_heads_are_the_rows_of_ms20426(inches: float, width: float, height: float) -> None:
    head = sunk_head("solid rivet", inches * 25.4)
    assert (head.diameter, head.height) == pytest.approx((width * 25.4, height * 25.4))
    assert head.source == "MS20426, from memory"
    # What the formula makes of the width agrees with the row within half a thousandth of an inch.
    computed = sunk_head("solid rivet", inches * 25.4, across=width * 25.4)
    assert computed.height == pytest.approx(height * 25.4, abs=0.0006 * 25.4)


def test_a_flush_head_by_the_maker_and_by_proportion() -> None:
    # 120 degrees: (6.0 - 3.2) / 2 / tan 60 = 1.4 / 1.732051 = 0.808290
    told = sunk_head("blind rivet", 3.2, angle=120.0, across=6.0)
    assert (told.diameter, told.height) == pytest.approx((6.0, 0.808290))
    assert "maker" in told.source
    assert sunk_head("blind rivet", 3.2, across=6.0, deep=1.0).height == 1.0
    # 1.8 x 4.0 = 7.2 wide, 1.6 / tan 50 = 1.342559 deep; at 82 degrees 1.6 / tan 41 = 1.840589
    known = sunk_head("blind rivet", 4.0)
    assert (known.diameter, known.height) == pytest.approx((7.2, 1.342559))
    assert "from memory" in known.source
    assert sunk_head("solid rivet", 4.0, angle=82.0).height == pytest.approx(1.840589)
    assert sunk_head("solid rivet", 3.175, angle=82.0).diameter == pytest.approx(
        5.715
    )  # no row for 82 degrees
