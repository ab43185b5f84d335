import pytest

from seqviz.trade.bend_radii import bend_radius, bend_radius_advice, listed_alloy


@pytest.mark.parametrize(
    ("alloy", "sheet", "least", "most"),
    # FAA AC 43.13-1B, table 4-6, multiples of t
    [
        ("2024-O", 0.016, 0, 0),
        ("2024-T3", 0.064, 3, 5),
        ("2024-T6", 0.258, 6, 10),
        ("5052-H32", 0.128, 0.5, 1.5),
        ("5052-H34", 0.064, 0.5, 1.5),
        ("6061-T4", 0.182, 1.5, 3),
        ("6061-T6", 0.128, 1.5, 3),
        ("7075-T6", 0.016, 2, 4),
    ],
)
def test_rows_as_printed(alloy: str, sheet: float, least: float, most: float) -> None:
    advice = bend_radius_advice(alloy, sheet)
    assert advice is not None
    assert (advice.least / sheet, advice.most / sheet) == pytest.approx((least, most))


@pytest.mark.parametrize(
    ("material", "alloy"),
    [
        ("6061-T6", "6061-T6"),
        ("6061 t6", "6061-T6"),
        ("2024-T3 clad", "2024-T3"),
        ("Alclad 2024T3", "2024-T3"),
        ("AL 5052-H32", "5052-H32"),
        ("2024-o", "2024-O"),
        ("6061-T651", None),
        ("6061", None),
        ("2117-T4", None),
        ("steel 4130", None),
    ],
)
def test_the_alloy_is_found_in_what_people_write(material: str, alloy: str | None) -> None:
    assert listed_alloy(material) == alloy


def test_mm() -> None:
    advice = bend_radius("6061-T6", 0.8)  # .0315 in, column .032: .5 t to 1.5 t
    assert advice is not None
    assert (advice.least, advice.most) == pytest.approx((0.4, 1.2))
    assert bend_radius("6061", 0.8) is None
    assert bend_radius("6061-T6", 7.0) is None


def test_a_doubtful_row_says_so() -> None:
    advice = bend_radius_advice("7075-T6", 0.032)
    assert advice is not None
    assert advice.source == "FAA AC 43.13-1B, table 4-6, column 0.032 (label of the row by its order)"
