"""Lengths and angles as people write them."""

from __future__ import annotations

import pytest

from seqviz.units import Slip, degrees, length, number


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("12", "mm", 12.0),
        ("12", "in", 304.8),  # 12 x 25.4
        ("010", "mm", 10.0),
        ("1e-3", "mm", 0.001),
        (".5", "mm", 0.5),
        ("5.", "mm", 5.0),
        ("-2.5", "mm", -2.5),
        ("+4", "mm", 4.0),
        ("2.5 mm", "in", 2.5),
        ("2.5mm", "in", 2.5),
        ("1.2 cm", "mm", 12.0),
        ("1/8 in", "mm", 3.175),  # 25.4 / 8
        ('3/32"', "mm", 2.38125),  # 25.4 x 3 / 32
        ("3/32″", "mm", 2.38125),
        ("1 1/2 in", "mm", 38.1),
        ('1-1/2"', "mm", 38.1),
        ("1 - 1/2 in", "mm", 38.1),
        ("-1 1/2 in", "mm", -38.1),
        ("1/8", "in", 3.175),
        ("0.032 inch", "mm", 0.8128),
        ("2 Inches", "mm", 50.8),
        ("  7 IN ", "mm", 177.8),
    ],
)
def test_lengths(text: str, unit: str, mm: float) -> None:
    assert length(text, unit) == pytest.approx(mm, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "message", "fix"),
    [
        ("1,5", "`1,5` has a decimal comma.", "Write a point: `1.5`."),
        ("0,8 mm", "`0,8 mm` has a decimal comma.", "Write a point: `0.8 mm`."),
        ("1,500.5", "`1,500.5` groups its digits.", "Write `1500.5`."),
        ("1 500", "`1 500` groups its digits.", "Write `1500`."),
        ("1'500", "`1'500` groups its digits.", "Write `1500`."),
        ("1:30", "`1:30` looks like a time or a slope.", "Write the value itself."),
        ("3_2", "`3_2` has an underscore in it.", "Write the digits without it."),
        ("nan", "`nan` is no finite number.", "Write the value itself."),
        (".inf", "`.inf` is no finite number.", "Write the value itself."),
        ("1e999", "`1e999` is too big.", "Correct the number."),
        ("1/0 in", "`1/0 in` divides by zero.", "Correct the fraction."),
        (
            "1/8",
            "`1/8` is a fraction without a unit, in a file that counts in mm.",
            "Write `1/8 in`, or the millimetres.",
        ),
    ],
)
def test_each_slip_has_its_own_message(text: str, message: str, fix: str) -> None:
    slip = length(text, "mm")
    assert isinstance(slip, Slip)
    assert (slip.message, slip.fix) == (message, fix)


@pytest.mark.parametrize(
    "text", ["", "abc", "12 ft", "0x10", "1 2/", "1/2/3 in", "٣", "--3", "3 mm mm", "½ in", "1.2.3"]
)
def test_what_is_no_length(text: str) -> None:
    slip = length(text, "mm")
    assert isinstance(slip, Slip)
    assert slip.message == f"`{text}` is not a length."


@pytest.mark.parametrize(
    ("text", "angle"), [("7", 7.0), ("7 deg", 7.0), ("7°", 7.0), ("82.5 degrees", 82.5), ("-3", -3.0)]
)
def test_angles(text: str, angle: float) -> None:
    assert degrees(text) == angle


def test_an_angle_in_other_words() -> None:
    slip = degrees("7 rad")
    assert isinstance(slip, Slip)
    assert slip.message == "`7 rad` is not an angle."


def test_plain_numbers_have_no_unit() -> None:
    assert number("0.5") == 0.5
    assert isinstance(number("0.5 mm"), Slip)
