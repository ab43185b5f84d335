from pathlib import Path

from tests.checks.expect import SEQUENCE, STEPS, found_as_marked
from tests.checks.rails import STRAPPED

FOOT = "      foot: {from: [10, 10], to: [170, 10], count: 5, size: small}"
MARKED = STRAPPED.replace(FOOT, FOOT + "  # expect: never-set")
PLACE = "  - place: [floor, rail, strap]\n"


def test_forgotten_holes_stand_at_their_row(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, MARKED, SEQUENCE + PLACE + "  - rivet: strap.eye\n")[0]
    assert finding.holes == ("rail.foot.1", "rail.foot.5")
    assert finding.message == "rail.foot 1, 5: no step sets a rivet in these holes."


def test_unfinished_work_has_none(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, STRAPPED, STEPS + PLACE + "  - rivet: strap.eye\n") == []


def test_later_is_exempt(tmp_path: Path) -> None:
    later = "later:\n  - {holes: floor.mid.1, why: the battery}\n"
    steps = SEQUENCE + PLACE + "  - rivet: strap.eye\n"
    assert found_as_marked(tmp_path, MARKED + later, steps)[0].holes == ("rail.foot.5",)


def test_a_single_layer_wants_no_rivet(tmp_path: Path) -> None:
    spare = "      spare: {at: [[20, 90]], size: small}  # expect: single-layer\n  rail:\n"
    model = STRAPPED.replace("  rail:\n    shape", spare + "    shape")
    assert len(found_as_marked(tmp_path, model, SEQUENCE + PLACE + "  - rivet: everything ready\n")) == 1


def test_a_hole_that_runs_into_solid_metal_is_told_as_that(tmp_path: Path) -> None:
    blank = STRAPPED.replace("from: [10, 10], to: [90, 10], count: 3", "at: [[10, 10], [90, 10]]")
    blank = blank.replace("eye.3: rail.foot.4}}", "eye.2: rail.foot.4}}  # expect: layer-undrilled")
    assert len(found_as_marked(tmp_path, blank, SEQUENCE + PLACE + "  - rivet: everything ready\n")) == 1


def test_a_hole_number_that_is_not_there_may_have_meant_it(tmp_path: Path) -> None:
    steps = PLACE + "  - rivet: strap.eye\n  - rivet: rail.foot.6  # expect: unknown-name\n"
    assert len(found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps)) == 1


def test_a_slip_above_the_steps_hides_nothing(tmp_path: Path) -> None:
    head = SEQUENCE.replace("steps:\n", "benches: 2  # expect: unknown-word\nsteps:\n")
    assert len(found_as_marked(tmp_path, MARKED, head + PLACE + "  - rivet: strap.eye\n")) == 2


def test_drilled_out_and_not_set_again(tmp_path: Path) -> None:
    steps = PLACE + "  - rivet: everything ready\n  - drill out: rail.foot.1\n"
    finding = found_as_marked(tmp_path, MARKED, SEQUENCE + steps)[0]
    assert finding.message == "rail.foot 1: step 3 drills this rivet out, and no step sets it again."
    assert (finding.holes, finding.steps) == (("rail.foot.1",), (3,))


def test_a_hole_that_a_step_drills_must_be_filled_too(tmp_path: Path) -> None:
    mid = "    holes:\n      mid: {from: [20, 50], to: [180, 50], count: 5, size: small}\n"
    match = "match: {foot.1: floor.mid.1, foot.5: floor.mid.5}"
    assert mid in MARKED
    blank = MARKED.replace(mid, "")
    blank = blank.replace(match, "at: [10, 40, 0.8], x along: forward, y along: left")
    steps = PLACE + "  - drill: rail.foot\n  - rivet: rail.foot.2-4\n"
    finding = found_as_marked(tmp_path, blank, SEQUENCE + steps)[0]
    assert finding.holes == ("rail.foot.1", "rail.foot.5")
