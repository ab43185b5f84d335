from pathlib import Path

import pytest

from tests.checks.expect import MODEL, found_as_marked
from tests.checks.rails import STRAPPED

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"


def rails(row: str, mark: str = "  # expect: hole-size-differs") -> str:
    foot = "foot: {from: [10, 10], to: [170, 10], count: 5, size: small}"
    return MODEL.replace(foot, row + mark) + PLACED


def test_one_finding_for_a_row_and_its_partner(tmp_path: Path) -> None:
    row = "foot: {from: [10, 10], to: [170, 10], count: 5, size: small, 2-4: big}"
    finding = found_as_marked(tmp_path, rails(row))[0]
    assert finding.holes == ("rail.foot.2", "rail.foot.3", "rail.foot.4")
    assert finding.figure == pytest.approx(0.8)
    assert finding.message == "rail.foot 2-4: 4.1 mm wide, and 3.3 mm in floor.mid."


def test_a_drill_may_wander_by_a_twentieth(tmp_path: Path) -> None:
    # 3.35 - 3.30 = 0.05 is the spread allowed, 3.36 is more.
    row = "foot: {from: [10, 10], to: [170, 10], count: 5, diameter: 3.35}"
    assert found_as_marked(tmp_path, rails(row, mark="")) == []
    assert len(found_as_marked(tmp_path, rails(row.replace("3.35", "3.36")))) == 1


def test_of_three_layers_the_odd_one_is_named(tmp_path: Path) -> None:
    # Over hole 3 the strap lies with a hole of the usual size.
    marked = "count: 5, size: small, 3: big}  # expect: hole-size-differs\n"
    text = STRAPPED.replace("to: [170, 10], count: 5, size: small}\n", f"to: [170, 10], {marked}")
    assert found_as_marked(tmp_path, text)[0].parts == ("rail", "floor")
