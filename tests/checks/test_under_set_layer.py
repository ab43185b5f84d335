from pathlib import Path

from tests.checks.expect import MODEL, STEPS, found_as_marked

# The shim lies at x = 70 to 90 between floor and rail, 10 mm from the holes at x = 60 and 100; those at 20,
# 140 and 180 are 50 mm away and more. The rail is raised by its 0.5 mm, which is drawn shut at the holes.
SHIM = (
    MODEL
    + """\
  shim: {shape: plate, thickness: 0.5, outline: [[0, 0], [20, 0], [20, 20], [0, 20]]}
placed:
  shim: {part: shim, at: [70, 40, 0.8], x along: forward, y along: left}
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}, over: shim}  # expect: gap-drawn-shut
"""
)


def test_it_names_the_rivets_and_their_step(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot\n  - place: shim  # expect: under-set-layer\n"
    finding = found_as_marked(tmp_path, SHIM, STEPS + steps)[0]
    assert finding.holes == ("rail.foot.2", "rail.foot.3")
    assert (finding.steps, finding.parts) == ((2, 3), ("shim", "floor", "rail"))
    assert finding.message == (
        "shim cannot go between floor and rail in step 3: these rivets, rail.foot 2-3, hold them together."
    )
    assert finding.fix == "Place shim before step 2, or drill these rivets out before step 3."
    assert [(r.at.line, r.message) for r in finding.related] == [(10, "Step 2 sets these rivets.")]


def test_rivets_farther_off_clamp_nothing_there(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - rivet: [rail.foot.1, rail.foot.4-5]\n  - place: shim\n"
    assert len(found_as_marked(tmp_path, SHIM, STEPS + steps)) == 1


def test_drilled_out_they_hold_no_more(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot\n  - drill out: rail.foot.2-3\n  - place: shim\n"
    assert len(found_as_marked(tmp_path, SHIM, STEPS + steps)) == 1


def test_placed_first(tmp_path: Path) -> None:
    steps = "  - place: [floor, shim, rail]\n  - rivet: rail.foot\n"
    assert len(found_as_marked(tmp_path, SHIM, STEPS + steps)) == 1
