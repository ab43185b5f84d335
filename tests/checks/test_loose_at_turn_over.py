from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED

PLACE = "  - place: [floor, rail, strap]\n"
TURN = "  - turn over: sideways\n"
MARKED = "  - turn over: sideways  # expect: loose-at-turn-over\n"


def test_parts_that_nothing_holds_are_one_line(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + PLACE + MARKED)[0]
    assert (finding.parts, finding.steps) == (("rail", "strap"), (2,))
    assert finding.message == (
        "rail and strap are loose when step 2 turns the work over: no pin and no fastener holds them."
    )
    assert finding.fix == "Pin them in two holes at least before step 2, or place rail and strap afterwards."


def test_one_pin_is_not_enough(tmp_path: Path) -> None:
    steps = PLACE + "    pins: [rail.foot.1, strap.eye.2]\n" + MARKED
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert finding.message == (
        "strap is loose when step 2 turns the work over: only the hole strap.eye.2 holds it."
    )


def test_two_pins_or_rivets_are(tmp_path: Path) -> None:
    pinned = PLACE + "    pins: [strap.eye.1, strap.eye.2]\n"
    assert found_as_marked(tmp_path, STRAPPED, STEPS + pinned + TURN) == []
    riveted = PLACE + "  - rivet: strap.eye\n"
    assert found_as_marked(tmp_path, STRAPPED, STEPS + riveted + TURN) == []


def test_only_the_work_that_is_turned_is_asked(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
    pins: all
  - apart: set
    steps:
      - place: strap
  - turn over: sideways
"""
    assert found_as_marked(tmp_path, STRAPPED, STEPS + steps) == []
