from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED


def test_filling_a_hole_that_waits(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
  - leave open: rail.foot.2-4
    for: strap
  - rivet: rail.foot  # expect: fills-left-open
  - place: strap
"""
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert finding.holes == ("strap.eye.1", "strap.eye.2", "strap.eye.3")
    assert finding.steps == (2, 3)
    assert finding.message == "strap.eye 1-3: step 3 rivets these holes, which step 2 leaves open for strap."
    assert [(p.at.line, p.message) for p in finding.related] == [(10, "Step 2 leaves them open for strap.")]


def test_everything_ready_leaves_them_alone(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail, strap]
  - leave open: rail.foot.2-4
    for: the wires
  - rivet: everything ready
  - open no longer: rail.foot.2-4
  - rivet: rail.foot.2-4
"""
    assert found_as_marked(tmp_path, STRAPPED, STEPS + steps) == []
