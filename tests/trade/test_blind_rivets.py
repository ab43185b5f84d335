import pytest

from seqviz.trade.blind_rivets import blind_rivets, metric_blind_rivets


@pytest.mark.parametrize(
    ("diameter", "number", "grips", "length", "hole"),
    # Army TM 10-5410-221-14/1, table 4-3, inches
    [
        (3 / 32, "32", (0.020, 0.125), 0.212, (0.096, 0.100)),
        (1 / 8, "42", (0.063, 0.125), 0.232, (0.128, 0.132)),
        (1 / 8, "48", (0.376, 0.500), 0.628, (0.128, 0.132)),
        (5 / 32, "54", (0.188, 0.250), 0.379, (0.160, 0.164)),
        (1 / 4, "812", (0.626, 0.750), None, (0.257, 0.261)),
    ],
)
def test_inch_sizes_by_number(
    diameter: float,
    number: str,
    grips: tuple[float, float],
    length: float | None,
    hole: tuple[float, float],
) -> None:
    found = {rivet.number: rivet for rivet in blind_rivets(diameter * 25.4)}[number]
    assert (found.grip_from / 25.4, found.grip_to / 25.4) == pytest.approx(grips)
    assert found.hole is not None
    assert (found.hole[0] / 25.4, found.hole[1] / 25.4) == pytest.approx(hole)
    assert (found.length is None) == (length is None)
    if found.length is not None and length is not None:
        assert found.length / 25.4 == pytest.approx(length)
    assert "table 4-3" in found.citation


@pytest.mark.parametrize("diameter", [3 / 32, 1 / 8, 5 / 32, 1 / 4])
def test_the_number_counts_diameter_and_greatest_grip(diameter: float) -> None:
    for rivet in blind_rivets(diameter * 25.4):
        assert rivet.number is not None
        assert int(rivet.number[0]) == diameter * 32
        assert rivet.grip_to / 25.4 == pytest.approx(int(rivet.number[1:]) / 16, abs=0.001)


@pytest.mark.parametrize(
    ("diameter", "lengths"),
    # ISO 15981:2002, AlA/AlA: length, grip from, grip to
    [
        (2.4, [(6, 0.5, 3.0), (12, 6, 9)]),
        (4.0, [(6, 1, 3), (8, 3, 5), (10, 5, 6.5), (12, 6.5, 8.5), (16, 8.5, 12.5), (20, 12.5, 16.5)]),
        (6.4, [(12, 3, 6), (16, 6, 10), (20, 10, 14)]),
    ],
)
def test_metric_sizes(diameter: float, lengths: list[tuple[float, float, float]]) -> None:
    found = metric_blind_rivets(diameter)
    assert [(one.length, one.grip_from, one.grip_to) for one in found] == lengths
    assert {one.number for one in found} == {None}
    assert found == blind_rivets(diameter)


def test_an_eighth_of_an_inch_is_not_3_2_mm() -> None:
    assert blind_rivets(3.175)[0].number == "41"
    assert blind_rivets(3.2)[0].number is None
    assert blind_rivets(4.7625) == ()  # 3/16: the block was not in the copy
    assert blind_rivets(3.5) == ()
    assert [blind_rivets(d)[0].number for d in (2.38, 2.4)] == ["32", None]
