import pytest

from seqviz.trade.rivets_per_inch import factor_for, rivets_in, rivets_per_inch


@pytest.mark.parametrize(
    ("table", "sheet", "rivet", "value"),
    # FAA AC 43.13-1B, pages 4-37 to 4-39
    [
        ("4-9", 0.032, 1 / 8, 6.2),
        ("4-9", 0.040, 3 / 32, 13.8),
        ("4-10", 0.032, 1 / 8, 4.9),
        ("4-10", 0.040, 1 / 8, 6.2),
        ("4-10", 0.064, 1 / 4, 2.5),
        ("4-10", 0.081, 5 / 32, 8.1),
        ("4-11", 0.064, 3 / 16, 3.2),
        ("4-11", 0.051, 3 / 32, 10.1),
        ("4-10", 0.033, 5 / 32, 3.9),  # between .032 and .036
        ("4-10", 0.016, 1 / 4, 2.4),  # .016 to .032 have no cell for 1/4, the next thicker with one is .036
        ("4-10", 0.040, 0.2, None),
        ("4-11", 0.081, 1 / 8, None),
    ],
)
def test_rows_as_printed(table: str, sheet: float, rivet: float, value: float | None) -> None:
    found = rivets_per_inch(table, sheet * 25.4, rivet * 25.4)
    assert (found.value if found else None) == value
    assert found is None or f"table {table}" in found.citation


def test_factors() -> None:
    assert factor_for("single lap sheet").value == 0.75
    assert factor_for("intermediate frames").value == 0.60
    assert factor_for("stringers, upper wing or fuselage").value == 0.80
    with pytest.raises(KeyError):
        factor_for("hulls")


def test_the_splice_of_the_handbook() -> None:
    # AC 43.13-1B 4-58g: 10 in wide, 4.9 a inch, single lap: 36.75, so 37
    assert rivets_in(10, 4.9, 0.75) == 37
    assert rivets_in(2, 3.0) == 6
