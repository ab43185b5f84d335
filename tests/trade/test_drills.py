from itertools import pairwise

import pytest

from seqviz.trade.drills import drill, drill_near, drills, drills_between, looks_like_a_drill
from seqviz.trade.tables import rows


@pytest.mark.parametrize(
    ("text", "name", "inches"),
    # the standard number and letter drill series
    [
        ("No. 30", "No. 30", 0.1285),
        ("no 30", "No. 30", 0.1285),
        ("No.40", "No. 40", 0.098),
        ("#21", "No. 21", 0.159),
        ("number 11", "No. 11", 0.191),
        ("No. 10", "No. 10", 0.1935),
        ("NO 51", "No. 51", 0.067),
        ("No. 030", "No. 30", 0.1285),
        ("letter F", "letter F", 0.257),
        ("f", "letter F", 0.257),
        ("Letter  w", "letter W", 0.386),
        ("No. 1", "No. 1", 0.228),
        ("No. 80", "No. 80", 0.0135),
        ("Z", "letter Z", 0.413),
    ],
)
def test_drills_are_read_as_people_write_them(text: str, name: str, inches: float) -> None:
    found = drill(text)
    assert found is not None
    assert found.name == name
    assert found.diameter == pytest.approx(inches * 25.4)
    assert "drill series" in found.citation


@pytest.mark.parametrize("text", ["No. 0", "No. 81", "No. 300"])
def test_what_is_not_listed_is_not_guessed(text: str) -> None:
    assert looks_like_a_drill(text)
    assert drill(text) is None


@pytest.mark.parametrize(
    "text", ["30", "3.3", "1/8", "FF", "No.", "letter 30", "No. F", "", "No. 30 mm", "É"]
)
def test_other_texts_are_no_drills(text: str) -> None:
    assert not looks_like_a_drill(text)
    assert drill(text) is None


def test_numbers_get_thinner_and_letters_wider() -> None:
    widths = [row.mm("diameter") for row in rows("drills")]
    assert len(widths) == 80 + 26
    assert all(a > b for a, b in pairwise(widths[:80]))
    assert all(a < b for a, b in pairwise(widths[80:]))
    assert widths[0] < widths[80]


def test_all_drills_stand_in_order_with_fractions_between() -> None:
    widths = [one.diameter for one in drills()]
    assert widths == sorted(widths)
    assert len(widths) == 106 + 32  # 1/64 to 1/2 in
    # .1935 No. 10, .196 No. 9, .199 No. 8; 13/64 is .203125
    assert [one.name for one in drills_between(0.1935 * 25.4, 0.199 * 25.4)] == ["No. 10", "No. 9", "No. 8"]


def test_the_nearest_drill() -> None:
    # 3.264 is No. 30; 3.175 is 1/8 in; between them there is none within 0.01
    near = drill_near(3.264)
    assert near is not None
    assert near.name == "No. 30"
    eighth = drill_near(3.175)
    assert eighth is not None
    assert (eighth.name, eighth.citation) == ("1/8 in", "fraction of an inch, computed")
    assert drill_near(3.22) is None
