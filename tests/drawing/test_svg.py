from __future__ import annotations

from xml.etree import ElementTree

import pytest

from seqviz.drawing.svg import circle, document, line, number, text, text_width


@pytest.mark.parametrize(
    ("value", "written"), [(1.0, "1"), (-0.0001, "0"), (2.34567, "2.346"), (-3.5, "-3.5"), (1200.0, "1200")]
)
def test_numbers_are_short_and_never_minus_nothing(value: float, written: str) -> None:
    assert number(value) == written


def test_a_document_is_true_to_size_and_escapes_its_words() -> None:
    drawn = document((120.5, 80.0), 'A < B & "C"', [text("a < b & \x07c", (1, 2), 3.0), line((0, 0), (5, 5))])
    root = ElementTree.fromstring(drawn)
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("120.5mm", "80mm", "0 0 120.5 80")
    words = [element.text for element in root.iter() if element.tag.endswith(("title", "text"))]
    assert words == ['A < B & "C"', "a < b &  c"]


def test_a_circle_has_half_its_diameter() -> None:
    assert ' r="1.65"' in circle((1, 2), 3.3)


def test_wide_letters_take_a_whole_square() -> None:
    assert text_width("ab", 10.0) == pytest.approx(2 * 5.8)
    assert text_width("面", 10.0) == pytest.approx(10.0)
