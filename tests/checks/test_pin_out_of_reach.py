from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.test_tool_blocked import LID


def test_what_stands_where_the_pins_must_be(tmp_path: Path) -> None:
    # The lid is 30 - 0.8 - 1.6 = 27.6 mm above the rail's holes 1 to 3; a pin is 30 mm long.
    steps = "  - place: [floor, rail, lid]  # expect: pin-out-of-reach\n    pins: rail.foot.1-4\n"
    finding = found_as_marked(tmp_path, LID, STEPS + steps)[0]
    assert (finding.holes, finding.steps) == (("rail.foot.1", "rail.foot.2", "rail.foot.3"), (1,))
    assert finding.message == "rail.foot 1-3: no room for pins in these holes in step 1, beside lid."
    assert "12 mm thick and 30 mm long" in finding.why
    assert finding.parts == ("lid", "rail", "floor")


def test_higher_up_there_is_room(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail, lid]\n    pins: rail.foot.1-4\n"
    assert found_as_marked(tmp_path, LID.replace("[0, 20, 30]", "[0, 20, 32.5]"), STEPS + steps) == []


def test_the_bench(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - pins: rail.foot.5{}\n    pins from: lower\n"
    marked = STEPS + steps.format("  # expect: pin-out-of-reach")
    finding = found_as_marked(tmp_path, LID, marked)[0]
    assert finding.message == (
        "rail.foot 5: no room for a pin in this hole in step 2, between the work and the bench."
    )
    assert finding.fix == "Pin from the side that is up, or turn the work over before step 2."
    trestles = STEPS.replace("bench: flat", "bench: trestles") + steps.format("")
    assert found_as_marked(tmp_path, LID, trestles) == []


def test_where_no_tool_reaches_either_that_is_told(tmp_path: Path) -> None:
    place = "  - place: [floor, rail, lid]\n    pins: rail.foot.1-4\n"
    steps = place + "  - rivet: rail.foot  # expect: wrong-side-up\n"
    found_as_marked(tmp_path, LID, STEPS + steps)
