from __future__ import annotations

from xml.etree import ElementTree

import pytest

from seqviz.drawing.svg import circle, document, inset, line, number, strokes, text, text_width


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


def test_an_inset_takes_the_ink_of_its_page() -> None:
    root = ElementTree.fromstring(
        inset((108.0, 60.0), "A < B", [text("a", (1, 2), 3.0), line((0, 0), (5, 5))])
    )
    assert (root.get("viewBox"), root.get("role"), root.get("width")) == ("0 0 108 60", "img", None)
    inks = [element.get(word) for element in root.iter() for word in ("fill", "stroke") if element.get(word)]
    assert inks == ["currentColor", "currentColor", "none"]


def test_many_lines_are_one_element() -> None:
    drawn = ElementTree.fromstring(strokes([((1, 2), (4, 2)), ((0.123456, 0), (0, 1))], 0.2))
    assert drawn.get("d") == "M1 2l3 0M0.12 0l-0.12 1"


def test_signs_that_turn_text_round_become_spaces() -> None:
    assert ">a b c<" in text("a\u202eb\u2028c", (1, 2), 3.0)
