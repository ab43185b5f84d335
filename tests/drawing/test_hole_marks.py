from __future__ import annotations

import re

import pytest

from seqviz.drawing.hole_marks import MARKS, mark, mark_reach


def test_every_group_has_a_frame_of_its_own() -> None:
    drawn = ["".join(mark(group, (50.0, 50.0), 4.0)) for group in range(len(MARKS))]
    assert len(set(drawn)) == len(MARKS)
    assert all('class="hole"' in one and 'r="2"' in one for one in drawn)
    assert ["frame" in one for one in drawn] == [False, True, True, True, True, True, True]


@pytest.mark.parametrize("group", range(len(MARKS)))
def test_frames_stay_clear_of_the_hole_and_within_their_reach(group: int) -> None:
    frames = [one for one in mark(group, (0.0, 0.0), 4.0) if "frame" in one and "points" in one]
    for frame in frames:
        corners = [tuple(map(float, pair)) for pair in re.findall(r"(-?[\d.]+),(-?[\d.]+)", frame)]
        reach = max((x**2 + y**2) ** 0.5 for x, y in corners)
        # 2 of the hole and 0.9 of air to the sides
        assert 2.9 < reach <= mark_reach(group, 4.0) + 0.01


def test_beyond_the_last_frame_they_begin_again() -> None:
    assert mark(len(MARKS), (0.0, 0.0), 3.0) == mark(0, (0.0, 0.0), 3.0)
