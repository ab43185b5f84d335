from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED

FOOT = "foot: {from: [10, 10], to: [170, 10], count: 5, size: small}"
UNPUNCHED = STRAPPED.replace(FOOT, f"{FOOT[:-1]}, punched: no}}")
PILOTS = STRAPPED.replace(FOOT, f"{FOOT[:-1]}, pilot: 2.4}}")
PLACE = "  - place: [floor, rail, strap]\n"


def test_it_names_the_row_that_is_not_drilled_and_the_late_step(tmp_path: Path) -> None:
    steps = PLACE + "  - rivet: rail.foot  # expect: not-drilled\n  - drill: rail.foot\n"
    finding = found_as_marked(tmp_path, UNPUNCHED, STEPS + steps)[0]
    assert finding.holes == tuple(f"rail.foot.{k}" for k in range(1, 6))
    assert finding.steps == (2, 3)
    assert finding.message == ("rail.foot 1-5: step 2 rivets these holes before they are drilled in rail.")
    assert finding.fix == "Move step 3 before step 2, or rivet these holes afterwards."
    assert [(r.at.line, r.message) for r in finding.related] == [(11, "Step 3 drills these holes: too late.")]


def test_drilled_before_there_is_nothing(tmp_path: Path) -> None:
    steps = PLACE + "  - drill: rail.foot\n  - rivet: rail.foot\n"
    assert found_as_marked(tmp_path, UNPUNCHED, STEPS + steps) == []


def test_never_drilled(tmp_path: Path) -> None:
    steps = PLACE + "  - rivet: rail.foot.1  # expect: not-drilled\n"
    finding = found_as_marked(tmp_path, UNPUNCHED, STEPS + steps)[0]
    assert finding.why.startswith("No step drills it to size while rail is there.")
    assert finding.fix == "Add a drill step for this hole before step 2."


def test_a_pilot_is_no_hole_yet(tmp_path: Path) -> None:
    steps = (
        PLACE
        + """\
  - drill: rail.foot
    to: pilot
  - rivet: rail.foot.1  # expect: not-drilled
  - drill: rail.foot
    to: final
  - rivet: rail.foot.2-5
"""
    )
    assert found_as_marked(tmp_path, PILOTS, STEPS + steps)[0].steps == (3, 4)


def test_it_can_be_known(tmp_path: Path) -> None:
    steps = PLACE + "  - rivet: rail.foot.1\nknown:\n  - {kind: not-drilled, at: rail.foot.1, why: by eye}\n"
    assert found_as_marked(tmp_path, UNPUNCHED, STEPS + steps)[0].known == "by eye"
