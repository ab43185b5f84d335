from pathlib import Path

import pytest

from tests.checks.expect import found_as_marked
from tests.checks.test_gap_in_stack import over_rail


def test_half_a_millimetre_is_always_drawn_shut(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, over_rail(2.0, 0.5, "  # expect: gap-drawn-shut"))[0]
    assert finding.figure == pytest.approx(0.5)
    assert finding.severity == "note"
    assert finding.message == "strap.eye 2: a gap of 0.5 mm between strap and floor is drawn shut."


def test_more_than_that_is_not_for_a_thick_strap(tmp_path: Path) -> None:
    assert len(found_as_marked(tmp_path, over_rail(2.0, 0.6, "  # expect: gap-in-stack"))) == 1


def test_equal_gaps_of_equal_parts_are_one_note(tmp_path: Path) -> None:
    text = over_rail(2.0, 0.5, "  # expect: gap-drawn-shut").replace(
        "at: [[100, 80]]", "at: [[100, 80], [140, 80]]"
    )
    text += "  twin: {part: strap, match: {eye.1: rail.foot.4, eye.2: floor.far.2}, over: rail}\n"
    finding = found_as_marked(tmp_path, text)[0]
    assert finding.message == (
        "strap.eye 2 and twin.eye 2: gaps of 0.5 mm between strap and floor and between twin and floor "
        "are drawn shut."
    )
    assert finding.parts == ("strap", "floor", "twin")


def test_a_wider_gap_is_a_note_of_its_own(tmp_path: Path) -> None:
    text = over_rail(1.0, 0.5, "  # expect: gap-drawn-shut").replace(
        "at: [[100, 80]]", "at: [[100, 80], [140, 80]]"
    )
    text = text.replace("placed:\n", SHIM + "placed:\n")
    text += "  shim: {part: shim, match: {eye.1: rail.foot.4, eye.2: rail.foot.5}}\n"
    text += "  again: {part: strap, match: {eye.1: rail.foot.4, eye.2: floor.far.2}, over: [rail, shim]}"
    text += "  # expect: gap-drawn-shut\n"
    assert [finding.figure for finding in found_as_marked(tmp_path, text)] == pytest.approx([0.5, 0.9])


SHIM = """\
  shim:
    shape: plate
    thickness: 0.4
    outline: [[0, 0], [60, 0], [60, 20], [0, 20]]
    holes:
      eye: {at: [[10, 10], [50, 10]], size: small}
"""
