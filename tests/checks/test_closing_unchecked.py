from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.test_tool_blocked import LID

# Lid and tray close the holes 1 to 3 from above and from below.
BOTH = LID + "  tray: {part: lid, at: [0, 20, -30], x along: forward, y along: left}\n"
RIVETED = "  - place: [floor, rail, tray]\n    pins: all\n  - rivet: rail.foot\n    head: upper\n"
CHECK = "  - check: every rivet is tight\n"


def test_what_is_closed_unseen(tmp_path: Path) -> None:
    steps = RIVETED + "  - place: lid  # expect: closing-unchecked\n"
    finding = found_as_marked(tmp_path, BOTH, STEPS + steps)[0]
    assert finding.holes == ("rail.foot.1", "rail.foot.2", "rail.foot.3")
    assert (finding.steps, finding.parts) == ((1, 3), ("lid", "rail", "floor"))
    assert (
        finding.message == "Step 3 places lid; after it no tool reaches these rivets any more: rail.foot 1-3."
    )
    assert finding.fix == "Add a check or inspect step before step 3."
    assert [(r.at.line, r.message) for r in finding.related] == [(9, "Step 1 puts the last pins in.")]


def test_a_check_before_it(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, BOTH, STEPS + RIVETED + CHECK + "  - place: lid\n") == []


def test_a_check_before_the_last_pins_is_too_early(tmp_path: Path) -> None:
    pins = "  - pins: rail.foot.4\n"
    steps = RIVETED.replace("rail.foot\n", "rail.foot.1-3\n") + "  - pull pins: rail.foot.4\n" + CHECK + pins
    found_as_marked(tmp_path, BOTH, STEPS + steps + "  - place: lid  # expect: closing-unchecked\n")


def test_where_a_tool_still_reaches_nothing_is_closed(tmp_path: Path) -> None:
    steps = RIVETED.replace(", tray", "") + "  - place: lid\n"
    assert found_as_marked(tmp_path, BOTH, STEPS + steps) == []
