from pathlib import Path

import pytest

from tests.checks.expect import MODEL, found_as_marked

BLOCKS = """\
  block: {shape: block, length: 20, width: 10, height: 8}
placed:
  post: {part: block, at: [100, 40, 0.8], x along: forward, y along: left}
  stop: {part: block, at: [100, AT, 0.8], x along: forward, y along: left}MARK
"""


def beside(y: float, mark: str = "") -> str:
    """Two blocks stand on the floor: the post covers y = 40 to 50, the stop begins at ``y``."""
    return MODEL + BLOCKS.replace("AT", str(y)).replace("MARK", mark)


def test_a_pair_stands_at_the_later_name_where_both_are_as_far_out(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, beside(49.0, "  # expect: parts-interfere"))[0]
    assert finding.parts == ("stop", "post")
    assert finding.figure == pytest.approx(1.0, abs=1e-6)
    assert finding.message == "stop cuts into post, 1 mm deep."


def test_touching_and_half_a_tenth_are_nothing(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, beside(50.0)) == []
    assert found_as_marked(tmp_path, beside(49.95)) == []
    assert len(found_as_marked(tmp_path, beside(49.94, "  # expect: parts-interfere"))) == 1


def test_the_flats_that_meet_are_named(tmp_path: Path) -> None:
    # Leg 2, 12 mm high, stands at y = 45 to 46, inside the post; leg 1 lies 4 mm under it.
    clip = """\
  clip: {shape: angle, thickness: 1, length: 20, legs: [10, 12]}
placed:
  post: {part: block, at: [100, 40, 4.8], x along: forward, y along: left}  # expect: parts-interfere
  clip: {part: clip, at: [100, 45, 0.8], x along: forward, y along: left}
"""
    why = found_as_marked(tmp_path, MODEL + BLOCKS.split("placed:", maxsplit=1)[0] + clip)[0].why
    assert why.startswith("What meets: leg 2 of clip. Two parts")
