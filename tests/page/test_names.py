from __future__ import annotations

import pytest

from seqviz.page.names import plain, shorter


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("side angle left", "side angle left"),
        ("Brücke 0.8 × 20°", "Brücke 0.8 × 20°"),
        ("سكة left", "سكة left"),
        ("two\nlines", "two\nlines"),
        ("bell\x07 escape\x1b[31m", "bell  escape [31m"),
        # Written backwards from there on, and a mark that shifts what stands beside it.
        ("rail \u202etfel\u202c.foot", "rail tfel.foot"),
        ("rail\u200f \u2067x\u2069", "rail x"),
        # Half of a letter cannot be written as UTF-8.
        ("half \ud83d", "half  "),
    ],
)
def test_signs_that_reach_beyond_a_text_are_left_out(text: str, kept: str) -> None:
    assert plain(text) == kept


def test_a_long_name_keeps_its_beginning_and_its_end() -> None:
    assert shorter("a" * 80) == "a" * 80
    assert shorter("a" * 5000 + "b" * 5000) == f"{'a' * 30} … {'b' * 30}"
