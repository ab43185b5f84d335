import pytest

from seqviz.trade.solid_rivets import (
    allowances,
    dash_number,
    length_steps,
    rivet_material,
    shear_by_formula,
    shear_values,
)


def test_the_rule_to_follow_stands_first() -> None:
    first, *others = allowances()
    assert (first.value, first.unit) == (1.5, "D")
    assert [rule.value for rule in others] == [1.5, 0.5, 0.5]


def test_half_sizes_halve_the_step() -> None:
    assert (length_steps(False).value, length_steps(True).value) == (1 / 16, 1 / 32)


@pytest.mark.parametrize(
    ("diameter", "length", "dash"),
    # AD4-5 is 4/32 wide and 5/16 long (MS20470, secondary); AD4-3.5 a half size (AC 43.13-1B, 4-57a(4))
    [
        (1 / 8, 5 / 16, "4-5"),
        (1 / 8, 7 / 32, "4-3.5"),
        (3 / 32, 1 / 4, "3-4"),
        (3 / 16, 1, "6-16"),
        (1 / 8, 0.3, None),
    ],
)
def test_dash_numbers(diameter: float, length: float, dash: str | None) -> None:
    assert dash_number(diameter * 25.4, length * 25.4) == dash


def test_a_metric_size_has_no_dash_number() -> None:
    assert dash_number(3.2, 8) is None
    assert dash_number(3.18, 5 / 16 * 25.4) == "4-5"


@pytest.mark.parametrize(
    ("letters", "alloy", "mark"),
    [("AD", "2117", "dimple"), ("a", "1100", ""), ("DD", "2024", ""), ("B", "5056", "")],
)
def test_letters_of_the_alloy(letters: str, alloy: str, mark: str) -> None:
    found = rivet_material(letters)
    assert found is not None
    assert (found.alloy, found.mark) == (alloy, mark)
    assert rivet_material("X") is None


@pytest.mark.parametrize(
    ("diameter", "load"),
    # MIL-HDBK-5H, table 8.1.2(b), from memory; within half a percent of the formula
    [(1 / 16, 106), (3 / 32, 217), (1 / 8, 388), (5 / 32, 596), (3 / 16, 862), (1 / 4, 1555)],
)
def test_shear(diameter: float, load: float) -> None:
    (value,) = shear_values(diameter * 25.4)
    assert value.load == load
    assert shear_by_formula(value.hole / 25.4, 30_000) == pytest.approx(load, rel=0.005)
    # pi/4 x .1285 x .1285 x 30000
    assert shear_by_formula(0.1285, 30_000) == pytest.approx(389.1, abs=0.05)
    assert value.citation.endswith("from memory")
