from pathlib import Path

from tests.checks.expect import SEQUENCE, found_as_marked
from tests.checks.rails import STRAPPED

STEPS = """\
  - place: [floor, rail]
  - leave open: rail.foot.2-4MARK
    for: strap
  - rivet: [rail.foot.1, rail.foot.5]
  - place: strap
"""


def test_it_stands_at_the_step_that_left_them_open(tmp_path: Path) -> None:
    steps = STEPS.replace("MARK", "  # expect: left-open-forever")
    finding = found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps)[0]
    assert (finding.steps, finding.holes) == ((2,), ("strap.eye.1", "strap.eye.2", "strap.eye.3"))
    assert finding.message == (
        "strap.eye 1-3: step 2 leaves these holes open for strap, and no step ever fills them."
    )


def test_of_two_steps_the_last_counts(tmp_path: Path) -> None:
    steps = STEPS.replace("MARK", "") + "  - leave open: rail.foot.3-4  # expect: left-open-forever\n"
    steps += "  - rivet: rail.foot.2\n"
    assert found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps)[0].holes == ("strap.eye.2", "strap.eye.3")


def test_filled_in_the_end_or_known_to_come_later(tmp_path: Path) -> None:
    steps = STEPS.replace("MARK", "")
    assert found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps + "  - rivet: rail.foot.2-4\n") == []
    later = "later:\n  - {holes: rail.foot.2-4, why: the wires}\n"
    assert found_as_marked(tmp_path, STRAPPED + later, SEQUENCE + steps) == []


def test_holes_that_nothing_could_fill_are_undrilled_and_nothing_else(tmp_path: Path) -> None:
    model = STRAPPED.replace("count: 5, size: small}\n  strap", "count: 5, size: small, 3: none}\n  strap")
    placed = "  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}"
    model = model.replace(placed, placed + "  # expect: layer-undrilled")
    steps = STEPS.replace("MARK", "") + "  - rivet: everything ready\n"
    assert found_as_marked(tmp_path, model, SEQUENCE + steps)[0].holes == ("strap.eye.2",)
