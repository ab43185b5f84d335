from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import with_parts

LID = with_parts(
    "  lid: {shape: bar, length: 110, width: 60, thickness: 1.5}\n",
    # 30 mm above the floor, over x = 0 to 110: holes at x = 20, 60 and 100 lie beneath, 140 and 180 do not.
    "  lid: {part: lid, at: [0, 20, 30], x along: forward, y along: left}\n",
)


def test_it_names_the_part_its_step_and_the_last_step_in_time(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
  - note: a break
  - place: lid
  - rivet: rail.foot  # expect: tool-blocked
    head: upper
"""
    finding = found_as_marked(tmp_path, LID, STEPS + steps)[0]
    assert finding.holes == ("rail.foot.1", "rail.foot.2", "rail.foot.3")
    assert finding.parts == ("lid", "rail", "floor")
    assert finding.steps == (3, 4)
    assert finding.message == "rail.foot 1-3: no tool reaches these rivets once lid is there."
    assert finding.why == "lid (placed in step 3) stands in the way of every tool that could set them."
    assert finding.fix == "Rivet them in step 2 at the latest, or place lid after step 4."
    assert [(place.at.line, place.message) for place in finding.related] == [(11, "Step 3 places lid.")]


def test_holes_that_were_never_free(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, lid]
  - place: rail
  - rivet: rail.foot.1  # expect: tool-blocked
    head: upper
"""
    finding = found_as_marked(tmp_path, LID, STEPS + steps)[0]
    assert finding.message == "rail.foot 1: no tool reaches this rivet beside lid."
    assert "no earlier step with all layers there" in finding.why
    assert finding.fix == "Add a slimmer tool to tools if you have one, or place lid after step 3."


def test_before_the_lid_there_is_nothing(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot\n    head: upper\n  - place: lid\n"
    assert found_as_marked(tmp_path, LID, STEPS + steps) == []


def test_of_two_parts_the_one_that_came_last_is_named(tmp_path: Path) -> None:
    # On trestles the rivet can be set from either side: the lid closes one, the tray beneath the other.
    both = LID + "  tray: {part: lid, at: [0, 20, -30], x along: forward, y along: left}\n"
    steps = """\
  - place: [floor, rail, lid]
  - place: tray  # expect: last-chance
  - rivet: rail.foot.1  # expect: tool-blocked
"""
    finding = found_as_marked(tmp_path, both, STEPS.replace("bench: flat", "bench: trestles") + steps)[0]
    assert finding.message == "rail.foot 1: no tool reaches this rivet once tray is there."
    assert finding.fix == "Rivet it in step 1 at the latest, or place tray after step 3."
    assert finding.parts == ("tray", "rail", "floor")


BOLTED = LID.replace(
    "parts:\n", "hardware:\n  long bolt: {kind: bolt, diameter: 3.2, lengths: {40: [0, 50]}}\nparts:\n", 1
).replace("blind rivet 3.2", "long bolt")
WRENCH = "  wrench: {for: bolt, body: [{cylinder: 8, from: 0, to: 4}], reach: {diameter: 8, length: 5}}\n"
WITH_WRENCH = STEPS.replace("steps:\n", f"{WRENCH}steps:\n")


def test_a_bolt_that_a_wrench_reaches_and_that_does_not_come_in(tmp_path: Path) -> None:
    # The lid is 30 above the floor: a bolt of 40 does not come in beneath it, though the wrench of 4 fits.
    head = WITH_WRENCH.replace("bench: flat", "bench: trestles")
    early = "  - place: [floor, rail]\n  - place: lid  # expect: last-chance\n"
    bolt = "  - bolt: rail.foot.1  # expect: tool-blocked\n    head: upper\n"
    finding = found_as_marked(tmp_path, BOLTED, f"{head}  - place: [floor, lid]\n  - place: rail\n{bolt}")[0]
    assert finding.message == "rail.foot 1: this bolt cannot be put in beside lid."
    assert finding.why == (
        "lid (placed in step 1) stands in the straight way that it must come in, or where the nut must be."
    )
    assert finding.fix == "Put it in from the other side, or place lid after step 3."
    found = found_as_marked(tmp_path, BOLTED, f"{head}{early}{bolt}")
    (finding,) = (one for one in found if one.kind == "tool-blocked")
    assert (
        finding.fix == "Bolt it in step 1 at the latest, finger tight if need be, or place lid after step 3."
    )


def test_a_bolt_needs_both_ends_free_of_the_bench(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - bolt: rail.foot  # expect: wrong-side-up\n"
    finding = found_as_marked(tmp_path, BOLTED, WITH_WRENCH + steps)[0]
    assert finding.fix.startswith("A bolt needs both ends free: say bench: trestles if the work stands free")
