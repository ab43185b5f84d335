from pathlib import Path

from tests.checks.expect import SEQUENCE, STEPS, found_as_marked
from tests.checks.rails import STRAPPED


def test_a_late_layer_stands_at_the_rivet_with_its_step_beside(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
  - rivet: rail.foot  # expect: layer-missing
  - place: strap
"""
    finding = found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps)[0]
    assert finding.holes == ("strap.eye.1", "strap.eye.2", "strap.eye.3")
    assert finding.parts == ("strap", "rail", "floor")
    assert finding.steps == (2, 3)
    assert finding.message == "strap.eye 1-3: step 2 rivets these holes before strap is there."
    assert finding.why == "Step 3 places strap. These rivets would have to be drilled out again."
    # The third step is two lines below the head of eight and the line of the first step.
    assert [(place.at.line, place.message) for place in finding.related] == [
        (11, "Step 3 places strap: too late.")
    ]


def test_in_time_there_is_nothing(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail, strap]\n  - rivet: everything ready\n"
    assert found_as_marked(tmp_path, STRAPPED, SEQUENCE + steps) == []


def test_a_part_that_never_comes_to_finished_work_is_told_as_that_alone(tmp_path: Path) -> None:
    model = STRAPPED.replace("rail.foot.4}}\n", "rail.foot.4}}  # expect: part-unplaced\n")
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot\n"
    assert len(found_as_marked(tmp_path, model, SEQUENCE + steps)) == 1


def test_while_the_work_goes_on_it_is_told_here(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot.2  # expect: layer-missing\n"
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert finding.why == "No step places strap. This rivet would have to be drilled out again."
    assert finding.related == ()


def test_a_step_that_could_not_be_read_may_place_it(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
  - place: strop  # expect: unknown-name
  - rivet: rail.foot.2
"""
    assert len(found_as_marked(tmp_path, STRAPPED, STEPS + steps)) == 1


def test_two_names_in_one_step_stand_at_their_names(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
  - rivet:
      - rail.foot.1
      - rail.foot.2  # expect: layer-missing
      - rail.foot.5
  - place: strap
"""
    assert len(found_as_marked(tmp_path, STRAPPED, STEPS + steps)) == 1


def test_a_layer_comes_with_its_sub_assembly(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
  - rivet: rail.foot  # expect: layer-missing
  - apart: set
    steps:
      - place: strap
  - place: set
"""
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert finding.steps == (2, 4)
    assert finding.why.startswith("Step 4 places set, with strap in it.")
    assert finding.fix.startswith("Place set before step 2")


def test_a_hole_set_apart_whose_layer_is_on_the_main_work(tmp_path: Path) -> None:
    steps = """\
  - place: floor
  - apart: set
    steps:
      - place: [rail, strap]
      - rivet: rail.foot.3  # expect: layer-missing
  - place: set
"""
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert finding.why.startswith("Step 4 brings this work to floor.")
    assert finding.fix == "Leave this hole out of step 3, and rivet it after step 4."


def test_bolts_are_bolted(tmp_path: Path) -> None:
    model = STRAPPED.replace("with: blind rivet 3.2", "with: screw").replace(
        "parts:\n", "hardware: {screw: {kind: bolt, diameter: 3.2}}\nparts:\n", 1
    )
    steps = "  - place: [floor, rail]\n  - bolt: strap.eye  # expect: layer-missing\n  - place: strap\n"
    finding = found_as_marked(tmp_path, model, STEPS.replace("for: blind rivet", "for: bolt") + steps)[0]
    assert finding.message == "strap.eye 1-3: step 2 bolts these holes before strap is there."
    assert "These bolts would have to be drilled out again." in finding.why
