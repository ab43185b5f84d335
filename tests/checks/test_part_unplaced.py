from pathlib import Path

from tests.checks.expect import SEQUENCE, STEPS, found_as_marked
from tests.checks.rails import STRAPPED

MARKED = STRAPPED.replace("rail.foot.4}}\n", "rail.foot.4}}  # expect: part-unplaced\n")
FORGOTTEN = "  - place: rail\n  - rivet: [rail.foot.1, rail.foot.5]\n"


def test_a_part_without_a_step_stands_at_its_entry(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, MARKED, SEQUENCE + FORGOTTEN)[0]
    assert (finding.parts, finding.message) == (("strap",), "No step places strap.")


def test_holes_that_wait_for_it_are_the_same_mistake(tmp_path: Path) -> None:
    steps = "  - leave open: rail.foot.2-4\n    for: strap\n" + FORGOTTEN
    assert len(found_as_marked(tmp_path, MARKED, SEQUENCE + steps)) == 1


def test_unfinished_work_and_later_have_none(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, STRAPPED, STEPS + FORGOTTEN) == []
    later = "later:\n  - {part: strap, why: comes with the second kit}\n"
    assert found_as_marked(tmp_path, STRAPPED + later, SEQUENCE + FORGOTTEN) == []


def test_a_step_that_could_not_be_read_may_place_it(tmp_path: Path) -> None:
    steps = FORGOTTEN + "  - place: strop  # expect: unknown-name\n"
    assert len(found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps)) == 1


def test_taken_off_and_not_placed_again(tmp_path: Path) -> None:
    steps = "  - place: [rail, strap]\n  - rivet: [rail.foot.1, rail.foot.5]\n  - take off: strap\n"
    finding = found_as_marked(tmp_path, MARKED, SEQUENCE + steps)[0]
    assert finding.message == "Step 3 takes strap off, and no later step places it again."
    assert finding.fix.startswith("Add a step after step 3 that places strap")
    assert finding.steps == (3,)


def test_a_sub_assembly_that_is_never_placed_is_one_finding(tmp_path: Path) -> None:
    steps = """\
  - place: floor
  - apart: set  # expect: part-unplaced
    steps:
      - place: [rail, strap]
"""
    finding = found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps)[0]
    assert finding.parts == ("rail", "strap")
    assert finding.message == (
        "rail and strap are joined apart in set, and no step places set on the main work."
    )


def test_a_template_needs_no_step(tmp_path: Path) -> None:
    guide = "  guide: {shape: plate, thickness: 1, tool: yes, outline: [[0, 0], [30, 0], [30, 9], [0, 9]]}\n"
    model = STRAPPED.replace("placed:\n", f"{guide}placed:\n")
    model += "  guide: {part: guide, at: [5, 5, 0.8], x along: forward, y along: left}\n"
    steps = "  - place: [rail, strap]\n  - rivet: everything ready\n"
    assert found_as_marked(tmp_path, model, SEQUENCE + steps) == []
