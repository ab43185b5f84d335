from pathlib import Path

from tests.checks.expect import SEQUENCE, STEPS, found_as_marked
from tests.checks.rails import STRAPPED

ONCE = "  - place: [floor, rail, strap]\n  - rivet: everything ready\n"


def test_it_names_both_steps(tmp_path: Path) -> None:
    steps = ONCE + "  - place: strap  # expect: placed-twice\n"
    finding = found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps)[0]
    assert (finding.steps, finding.parts) == ((1, 3), ("strap",))
    assert finding.message == "Step 3 places strap, and it is there since step 1."
    assert finding.fix == "Leave strap out of step 3 or step 1, or take it off before step 3."
    assert [(r.at.line, r.message) for r in finding.related] == [(9, "Step 1 places strap.")]


def test_of_a_list_it_stands_at_the_name(tmp_path: Path) -> None:
    steps = "  - place: rail\n  - place:\n      - strap\n      - rail  # expect: placed-twice\n"
    found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps + "  - rivet: everything ready\n")


def test_taken_off_between_it_may_come_again(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail, strap]\n  - take off: strap\n  - place: strap\n"
    assert found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps + "  - rivet: everything ready\n") == []


def test_while_the_work_goes_on_nothing_is_said(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, STRAPPED, STEPS + ONCE + "  - place: strap\n") == []


def test_a_sub_assembly_placed_twice_is_one_finding(tmp_path: Path) -> None:
    steps = """\
  - place: floor
  - apart: set
    steps:
      - place: [rail, strap]
  - place: set
  - rivet: everything ready
  - place: set  # expect: placed-twice
"""
    finding = found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps)[0]
    assert (finding.steps, finding.parts) == ((3, 5), ("rail", "strap"))
