from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seqviz.drawing.lettering import fitted, moved_apart, shortened
from seqviz.drawing.svg import text_width


def test_names_keep_beginning_and_end() -> None:
    # 12 letters of 0.58 * 10 are 69.6 wide.
    assert shortened("a long name for the rail left", 69.6, 10.0) == "a long… left"
    assert shortened("rail left", 69.6, 10.0) == "rail left"
    assert shortened("面面面", 20.0, 10.0) == "面…"


def test_words_are_wrapped_and_the_rest_shortened() -> None:
    assert fitted("bulkhead doubler left", 58.0, 10.0, 2) == ["bulkhead", "doubl…left"]
    assert fitted("bulkhead doubler left", 58.0, 10.0, 3) == ["bulkhead", "doubler", "left"]
    assert fitted("", 58.0, 10.0, 2) == [""]


@given(st.text(max_size=400), st.floats(10, 100), st.integers(1, 3))
def test_no_line_is_wider_than_its_room(words: str, room: float, most: int) -> None:
    found = fitted(words, room, 3.4, most)
    assert len(found) <= most
    assert all(text_width(line, 3.4) <= room + 1e-9 for line in found)


def test_things_that_overlap_move_apart_by_as_little_as_can_be() -> None:
    # Two of 4 that want the same place 10 lie at 8 and 12; the third is far enough off.
    assert moved_apart([10.0, 10.0, 30.0], [4.0, 4.0, 6.0]) == pytest.approx([8.0, 12.0, 30.0])
    # Three of 4 that want 10, 11, 12 lie about 11.
    assert moved_apart([10.0, 11.0, 12.0], [4.0, 4.0, 4.0]) == pytest.approx([7.0, 11.0, 15.0])
    assert moved_apart([], []) == []


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(1, 9)), max_size=12))
def test_nothing_overlaps_afterwards(things: list[tuple[float, float]]) -> None:
    things.sort()
    heights = [height for _, height in things]
    middles = moved_apart([middle for middle, _ in things], heights)
    for k in range(len(middles) - 1):
        assert middles[k + 1] - middles[k] >= (heights[k] + heights[k + 1]) / 2 - 1e-6
