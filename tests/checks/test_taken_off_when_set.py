from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED

SET = "  - place: [floor, rail, strap]\n  - rivet: strap.eye\n"


def test_it_names_the_holes_and_the_step_that_set_them(tmp_path: Path) -> None:
    steps = SET + "  - take off: strap  # expect: taken-off-when-set\n"
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert finding.holes == ("strap.eye.1", "strap.eye.2", "strap.eye.3")
    assert (finding.steps, finding.parts) == ((2, 3), ("strap", "rail", "floor"))
    assert finding.message == "strap cannot come off in step 3: 3 rivets hold it in strap.eye 1-3."
    assert finding.fix == (
        "Take strap off before step 2, or add a drill out step for these rivets before step 3."
    )
    assert [(r.at.line, r.message) for r in finding.related] == [(10, "Step 2 sets these rivets.")]


def test_of_a_list_it_stands_at_the_name(tmp_path: Path) -> None:
    lamp = STRAPPED.replace("placed:\n", "  lamp: {shape: block, length: 5, width: 5, height: 5}\nplaced:\n")
    lamp += "  lamp: {part: lamp, at: [5, 5, 0.8], x along: forward, y along: left}\n"
    steps = (
        SET.replace("strap]", "strap, lamp]")
        + """\
  - take off:
      - lamp
      - strap  # expect: taken-off-when-set
"""
    )
    found_as_marked(tmp_path, lamp, STEPS + steps)


def test_one_rivet_is_enough(tmp_path: Path) -> None:
    steps = SET.replace("strap.eye", "strap.eye.2") + "  - take off: strap  # expect: taken-off-when-set\n"
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert finding.message == "strap cannot come off in step 3: a rivet holds it in strap.eye 2."


def test_drilled_out_it_comes_off_and_goes_on_again(tmp_path: Path) -> None:
    steps = SET + "  - drill out: strap.eye\n  - take off: strap\n  - place: strap\n  - rivet: strap.eye\n"
    assert found_as_marked(tmp_path, STRAPPED, STEPS + steps) == []


def test_a_sub_assembly_riveted_to_itself_comes_off_whole(tmp_path: Path) -> None:
    steps = """\
  - place: floor
  - apart: set
    steps:
      - place: [rail, strap]
  - place: set
  - take off: set
  - place: set
  - rivet: rail.foot.1
  - take off: set  # expect: taken-off-when-set
"""
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert finding.message == "set cannot come off in step 7: a rivet holds it in rail.foot 1."
    assert set(finding.parts) == {"rail", "strap", "floor"}
