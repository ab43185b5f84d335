from __future__ import annotations

import pytest

from seqviz.report.hole_names import number_ranges, split_hole


@pytest.mark.parametrize(
    ("numbers", "text"),
    [([4], "4"), ([1, 2], "1-2"), ([5, 1, 2, 3, 8, 9, 3], "1-3, 5, 8-9"), ([], "")],
)
def test_ranges(numbers: list[int], text: str) -> None:
    assert number_ranges(numbers) == text


def test_the_number_is_read_from_the_right() -> None:
    assert split_hole("float.keel.web.3") == ("float.keel.web", 3)
