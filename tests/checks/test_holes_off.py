from pathlib import Path

import pytest

from tests.checks.expect import FLOOR, MODEL, SEQUENCE, found_as_marked
from tests.checks.rails import STRAPPED

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"


def shifted(by: float, mark: str = "  # expect: holes-off") -> str:
    """The rail lies at x = 10, so its extra hole belongs at 70; the pull rivet is 3.2 in a hole of 3.3."""
    text = MODEL.replace("  rail:\n", "      extra: {at: [[80, 44]], size: small}\n  rail:\n")
    row = f"      extra: {{at: [[{70 + by}, 4]], size: small}}{mark}\n"
    return text + row + PLACED


def test_a_row_that_is_off_stands_at_the_row_of_the_part_farther_out(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, shifted(0.3))[0]
    assert finding.figure == pytest.approx(0.3)
    assert finding.parts == ("rail", "floor")
    assert finding.holes == ("rail.extra.1",)
    assert finding.message == (
        "rail.extra 1: up to 0.3 mm off the holes of floor.extra; blind rivet 3.2 does not go through."
    )
    # 3.3 and 3.3 shifted by 0.3 leave a round pin of 3.0.
    assert finding.why.startswith("The largest round pin through all layers is 3 mm, 3.2 mm is needed.")


def test_a_shift_that_leaves_room_for_the_rivet_is_nothing(tmp_path: Path) -> None:
    # 3.3 - 0.09 = 3.21 is more than 3.2; 3.3 - 0.11 = 3.19 is less.
    assert found_as_marked(tmp_path, shifted(0.09, mark="")) == []
    assert len(found_as_marked(tmp_path, shifted(0.11))) == 1


def test_between_half_a_diameter_and_one_it_is_still_one_stack(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, shifted(2.5))[0].figure == pytest.approx(2.5)


def test_a_fit_that_does_not_work_out_stands_at_match_and_says_nothing_more(tmp_path: Path) -> None:
    text = MODEL.replace("to: [170, 10]", "to: [172, 10]") + (
        "placed:\n  rail:\n    part: rail\n"
        "    match: {foot.1: floor.mid.1, foot.5: floor.mid.5}  # expect: holes-off\n"
    )
    # The ends are 2 mm too far apart: 1 mm at each end.
    assert found_as_marked(tmp_path, text)[0].figure == pytest.approx(1.0)


def test_twins_of_one_entry_are_one_mistake(tmp_path: Path) -> None:
    text = (
        FLOOR
        + """\
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 100], [0, 100]]
    holes:
      edge: {from: [20, 80], to: [180, 80], count: 5, size: small, both sides: yes}
  rail:
    shape: plate
    thickness: 1.6
    outline: [[0, 0], [180, 0], [180, 20], [0, 20]]
    holes:
      foot: {at: [[10, 10], [50, 10], [90, 10], [130.4, 10], [170, 10]], size: small}  # expect: holes-off
placed:
  rail: {part: rail, match: {foot.1: floor.edge.1, foot.5: floor.edge.5}, both sides: other hand}
"""
    )
    finding = found_as_marked(tmp_path, text)[0]
    assert finding.holes == ("rail left.foot.4", "rail right.foot.4")
    assert finding.parts == ("rail left", "floor", "rail right")


def test_the_layer_that_is_off_is_named_not_the_one_above_it(tmp_path: Path) -> None:
    # Floor and strap agree at x = 80 (strap's eye 2), the rail between them is 0.4 off.
    centres = "[[10, 10], [50, 10], [90.4, 10], [130, 10], [170, 10]]"
    row = "from: [10, 10], to: [170, 10], count: 5, size: small}\n"
    text = STRAPPED.replace(row, f"at: {centres}, size: small}}  # expect: holes-off\n")
    finding = found_as_marked(tmp_path, text)[0]
    assert finding.parts == ("rail", "floor")
    assert finding.figure == pytest.approx(0.4)


def test_a_pilot_that_is_centred_is_not_off(tmp_path: Path) -> None:
    # Both holes of the stack are 2.5: the rivet does not go, but nothing is shifted.
    text = MODEL.replace("size: small}", "diameter: 2.5}") + PLACED
    assert (
        found_as_marked(tmp_path, text, SEQUENCE + "  - place: [floor, rail]\n  - rivet: rail.foot\n") == []
    )
