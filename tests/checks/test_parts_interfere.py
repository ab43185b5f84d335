from pathlib import Path

import pytest

from tests.checks.expect import MODEL, found_as_marked

BLOCK = """\
  stop: {shape: block, length: 20, width: 10, height: 8}
placed:
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}
  stop: {part: stop, at: [100, AT, 0.8], x along: forward, y along: left}MARK
"""


def beside(y: float, mark: str = "") -> str:
    """The rail covers y = 40 to 60 from z = 0.8 on; the block, 10 wide, begins at ``y``."""
    return MODEL + BLOCK.replace("AT", str(y)).replace("MARK", mark)


def test_a_pair_stands_at_the_later_name_where_both_are_as_far_out(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, beside(59.0, "  # expect: parts-interfere"))[0]
    assert finding.parts == ("stop", "rail")
    assert finding.figure == pytest.approx(1.0, abs=1e-6)
    assert finding.message == "stop cuts into rail, 1 mm deep."


def test_touching_and_half_a_tenth_are_nothing(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, beside(60.0)) == []
    assert found_as_marked(tmp_path, beside(59.95)) == []
    assert len(found_as_marked(tmp_path, beside(59.94, "  # expect: parts-interfere"))) == 1
