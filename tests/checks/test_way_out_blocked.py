from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED
from tests.checks.test_no_way_in import BOX

SHUT_IN = BOX.replace("THICK", "1.2")
SHUT = "  - place: [floor, wall a, wall b, wall c, wall d, slug]\n  - place: lid\n"


def test_it_names_what_is_in_the_way_and_its_step(tmp_path: Path) -> None:
    steps = SHUT + "  - take off: slug  # expect: way-out-blocked\n"
    finding = found_as_marked(tmp_path, SHUT_IN, STEPS + steps)[0]
    assert (finding.parts, finding.steps) == (("slug", "lid"), (3,))
    assert finding.message == "slug cannot be taken off in step 3: lid stands in the way."
    assert finding.fix == "Take lid off first, or take slug off before step 2 places lid."
    assert [(r.at.line, r.message) for r in finding.related] == [(10, "Step 2 places lid.")]


def test_the_lid_first(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, SHUT_IN, STEPS + SHUT + "  - take off: [lid, slug]\n") == []


def test_in_the_other_order_it_stands_at_the_name(tmp_path: Path) -> None:
    steps = SHUT + "  - take off:\n      - slug  # expect: way-out-blocked\n      - lid\n"
    found_as_marked(tmp_path, SHUT_IN, STEPS + steps)


def test_a_sub_assembly_does_not_come_out_as_one_piece(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, wall a, wall b, wall c, wall d]
  - apart: core
    steps:
      - place: slug
  - place: core
  - place: lid
  - take off: core  # expect: way-out-blocked
"""
    finding = found_as_marked(tmp_path, SHUT_IN, STEPS + steps)[0]
    assert finding.message == "core cannot be taken off in step 5: lid stands in the way."
    assert finding.parts == ("slug", "lid")


def test_only_pins_are_told_as_pins(tmp_path: Path) -> None:
    place = "  - place: [floor, rail, strap]\n    pins: strap.eye\n"
    steps = STEPS + place + "  - take off: strap  # expect: pin-in-the-way\n"
    finding = found_as_marked(tmp_path, STRAPPED, steps)[0]
    assert finding.message == "strap cannot come off for the pins in strap.eye 1-3."
