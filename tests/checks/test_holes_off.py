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


def kinked(centres: str, mark: str = "  # expect: holes-off", match: str = "foot.2: floor.mid.2") -> str:
    """Floor holes at x = 20, 60, .. 180; the rail's first two fit, the others lie as in ``centres``."""
    row = f"foot: {{at: [[10, 10], [50, 10], {centres}], size: small}}{mark}"
    text = MODEL.replace("foot: {from: [10, 10], to: [170, 10], count: 5, size: small}", row)
    return text + f"placed:\n  rail: {{part: rail, match: {{foot.1: floor.mid.1, {match}}}}}\n"


def test_a_row_that_is_kinked_further_on_is_one_mistake_that_names_the_hole(tmp_path: Path) -> None:
    # 7 mm is more than two diameters: these holes share no stack any more.
    finding = found_as_marked(tmp_path, kinked("[97, 10], [137, 10], [177, 10]"))[0]
    assert finding.message == (
        "rail.foot 3-5: up to 7 mm off the holes of floor.mid; blind rivet 3.2 does not go through. "
        "rail.foot and floor.mid differ by 7 mm from hole 3 on."
    )
    assert finding.fix.startswith("Is one of them kinked there? Compare the rows rail.foot and floor.mid")
    assert finding.figure == pytest.approx(7.0)


def test_rows_that_drift_apart_are_one_mistake(tmp_path: Path) -> None:
    # 1.5 mm more from the second hole on: 1.5, 3 share a stack with their partners, 4.5 and 6 do not.
    text = kinked("[93, 10], [134.5, 10], [176, 10]", match="foot.1: floor.mid.1").replace(
        "[50, 10]", "[51.5, 10]"
    )
    text = text.replace(
        "{foot.1: floor.mid.1, foot.1: floor.mid.1}", "{foot.1: floor.mid.1, hold.1: floor.hold.1}"
    )
    text = text.replace(
        "  rail:\n    shape", "      hold: {at: [[20, 42]], diameter: 3.3}\n  rail:\n    shape"
    )
    text = text.replace(
        "    holes:\n      foot", "    holes:\n      hold: {at: [[10, 2]], diameter: 3.3}\n      foot"
    )
    finding = found_as_marked(tmp_path, text)[0]
    assert finding.holes == ("rail.foot.2", "rail.foot.3", "rail.foot.4", "rail.foot.5")
    assert finding.message.endswith("rail.foot and floor.mid drift apart by 1.5 mm from hole to hole.")
    assert finding.fix.startswith("Are pitch and count right?")


def test_a_single_hole_in_a_wrong_place(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, kinked("[98, 10], [130, 10], [170, 10]"))[0]
    assert finding.holes == ("rail.foot.3",)
    assert finding.message.endswith("rail.foot and floor.mid differ by 8 mm at hole 3 only.")


def test_a_fit_that_is_off_names_the_hole_too(tmp_path: Path) -> None:
    text = kinked("[97, 10], [137, 10], [177, 10]", mark="", match="foot.5: floor.mid.5")
    text = text.replace("rail: {part: rail, match", "rail:\n    part: rail\n    match").replace("}}\n", "}\n")
    text = text.replace("floor.mid.5}", "floor.mid.5}  # expect: holes-off")
    finding = found_as_marked(tmp_path, text)[0]
    # Ends 167 apart on 160: 3.5 at each end.
    assert finding.message == (
        "The holes of rail do not fit: rail.foot.1 misses floor.mid.1 by 3.5 mm. "
        "rail.foot and floor.mid differ by 7 mm from hole 3 on."
    )
    assert finding.fix.startswith("Is one of them kinked there? Look for a wrong hole number")


def test_a_row_that_goes_on_over_another_part_is_not_suspected(tmp_path: Path) -> None:
    # The rail's holes 4 and 5 belong to a plate of their own; the floor's row ends there.
    text = kinked("[90, 10], [127, 10], [163, 10]", mark="").replace(
        "to: [180, 50], count: 5", "to: [100, 50], count: 3"
    )
    text = text.replace(
        "  rail:\n    shape", "      on: {at: [[137, 50], [173, 50]], size: small}\n  rail:\n    shape"
    )
    assert found_as_marked(tmp_path, text) == []
