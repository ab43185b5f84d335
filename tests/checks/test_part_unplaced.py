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
