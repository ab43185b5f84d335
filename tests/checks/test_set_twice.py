from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED

PLACE = "  - place: [floor, rail, strap]\n  - rivet: rail.foot.1-3\n"


def test_it_names_the_hole_and_both_steps(tmp_path: Path) -> None:
    steps = PLACE + "  - rivet: rail.foot.3-5  # expect: set-twice\n"
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    # Hole 3 of the rail is hole 2 of the strap, which is farther from the floor.
    assert (finding.holes, finding.steps) == (("strap.eye.2",), (2, 3))
    assert finding.message == "strap.eye 2: step 3 rivets this hole again."
    assert finding.why == "This rivet was set in step 2, and a hole takes one."
    assert finding.fix.startswith("Leave it out of step 3 or of step 2, or add a drill out step")
    assert [(r.at.line, r.message) for r in finding.related] == [(10, "Step 2 fills this hole.")]


def test_the_rest_of_a_row_and_what_was_drilled_out_are_meant(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, STRAPPED, STEPS + PLACE + "  - rivet: rail.foot\n") == []
    again = "  - drill out: rail.foot.3\n  - rivet: rail.foot.3-5\n"
    assert found_as_marked(tmp_path, STRAPPED, STEPS + PLACE + again) == []


def test_it_can_be_known(tmp_path: Path) -> None:
    steps = PLACE + "  - rivet: rail.foot.3-5\nknown:\n  - {kind: set-twice, at: strap.eye.2, why: loose}\n"
    assert found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0].known == "loose"
