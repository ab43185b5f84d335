from __future__ import annotations

import pytest

from seqviz.trade.densities import ASSUMED, density_of


@pytest.mark.parametrize(
    ("material", "called", "value"),
    [
        ("6061-T6", "6061", 2.70),
        ("2024-T3 clad", "2024", 2.78),
        ("AL 5052", "5052", 2.68),
        ("7075", "7075", 2.81),
        ("4130 steel", "4130", 7.85),
        ("Stainless steel 1.4301", "stainless", 7.9),
        ("aluminium", "aluminium", 2.70),
    ],
)
def test_a_material_is_found_by_its_alloy_or_its_metal(material: str, called: str, value: float) -> None:
    found = density_of(material)
    assert found is not None
    assert (found.called, found.value) == (called, value)
    assert "density" in found.source


@pytest.mark.parametrize("material", ["plywood", "60612", "T6", "", "2.024"])
def test_what_is_not_listed_is_not_guessed(material: str) -> None:
    assert density_of(material) is None


def test_what_is_assumed_says_so() -> None:
    assert (ASSUMED.value, ASSUMED.called) == (2.70, "aluminium")
    assert "nobody said" in ASSUMED.source
