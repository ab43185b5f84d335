from pathlib import Path

import pytest

from tests.checks.expect import MODEL, SEQUENCE, STEPS, found_as_marked
from tests.checks.rails import STRAPPED

ASKED = "preparation:\n  - {between: [rail, floor], what: prime, why: bare 2024}\n"
PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"
RAILS = MODEL + ASKED + PLACED
PLACE = "  - place: rail\n"
RIVET = "  - rivet: rail.foot\n"
MISSED = "  # expect: prep-missed"
BARE = "  # expect: bare-joint"


def missed(line: str) -> str:
    return line.replace("\n", f"{MISSED}\n")


@pytest.mark.parametrize(
    "prime",
    ["rail", "floor", "[floor, rail]", "[rail.foot, floor.mid]"],
)
def test_primed_before_it_is_laid_on(tmp_path: Path, prime: str) -> None:
    assert found_as_marked(tmp_path, RAILS, f"{SEQUENCE}  - prime: {prime}\n{PLACE}{RIVET}") == []


def test_no_step_primes(tmp_path: Path) -> None:
    for top in (SEQUENCE, STEPS):
        finding = found_as_marked(tmp_path, RAILS, top + PLACE + missed(RIVET))[0]
        assert (finding.severity, finding.steps, finding.parts) == ("warning", (2,), ("rail", "floor"))
        assert finding.message == "Step 2 fastens rail to floor, and nothing was primed between them."
        assert finding.why.startswith("The model asks for it: bare 2024.")
        assert [place.at.line for place in finding.related] == [23]


def test_primed_when_it_lies_there_already(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, RAILS, SEQUENCE + PLACE + "  - prime: rail\n" + missed(RIVET))[0]
    assert finding.message.endswith("nothing was primed between them. Step 2 does it too late.")
    assert finding.fix.startswith("Move step 2 before step 1, which lays them together.")
    assert finding.steps == (3, 2)


def test_primed_after_it_is_riveted(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, RAILS, SEQUENCE + PLACE + missed(RIVET) + "  - prime: floor\n")[0]
    assert finding.steps == (2, 3)


def test_fitted_taken_off_primed_and_put_back(tmp_path: Path) -> None:
    again = f"{PLACE}  - take off: rail\n  - prime: rail\n{PLACE}{RIVET}"
    assert found_as_marked(tmp_path, RAILS, SEQUENCE + again) == []


def test_the_holes_of_one_are_not_enough(tmp_path: Path) -> None:
    steps = SEQUENCE + "  - prime: rail.foot\n" + PLACE + missed(RIVET)
    assert len(found_as_marked(tmp_path, RAILS, steps)) == 1
    both = SEQUENCE + "  - prime: rail.foot.1\n  - prime: floor.mid.1-2\n" + PLACE + RIVET
    assert found_as_marked(tmp_path, RAILS, both) == []


def test_something_else_was_done(tmp_path: Path) -> None:
    steps = SEQUENCE + "  - deburr: rail\n" + PLACE + missed(RIVET)
    assert len(found_as_marked(tmp_path, RAILS, steps)) == 1


def test_parts_that_do_not_touch_are_left_alone(tmp_path: Path) -> None:
    # The strap lies on the rail, the floor under it; 2 to 4 go through all three.
    model = STRAPPED.replace(
        "placed:\n", "preparation:\n  - {between: [strap, floor], what: seal}\nplaced:\n"
    )
    steps = f"{SEQUENCE}{PLACE}  - place: strap\n{RIVET}"
    assert found_as_marked(tmp_path, model, steps) == []
    three = model.replace("[strap, floor]", "[strap, rail, floor]")
    found = found_as_marked(tmp_path, three, f"{SEQUENCE}{PLACE}  - place: strap\n{missed(RIVET)}")
    assert [finding.message for finding in found] == [
        "Step 3 fastens strap to rail and rail to floor, and nothing was sealed between them."
    ]


def test_a_joint_that_is_drilled_out_again_counts_when_it_is_set_for_good(tmp_path: Path) -> None:
    apart = f"{PLACE}{RIVET}  - drill out: rail.foot\n  - take off: rail\n"
    assert found_as_marked(tmp_path, RAILS, f"{SEQUENCE}{apart}  - prime: rail\n{PLACE}{RIVET}") == []
    finding = found_as_marked(tmp_path, RAILS, SEQUENCE + apart + PLACE + missed(RIVET))[0]
    assert finding.steps == (6,)


def test_parts_that_nothing_fastens_are_told_when_all_is_finished(tmp_path: Path) -> None:
    model = RAILS + "later:\n  - {holes: rail.foot, why: the tank}\n"
    finding = found_as_marked(tmp_path, model, SEQUENCE + missed(PLACE))[0]
    assert finding.message == "Step 1 lays rail on floor, and nothing was primed between them."


def test_a_reason_settles_it(tmp_path: Path) -> None:
    known = "known:\n  - {kind: prep-missed, at: rail, why: anodized, by: JK}\n"
    assert found_as_marked(tmp_path, RAILS + known, SEQUENCE + PLACE + RIVET)[0].known == "anodized"
