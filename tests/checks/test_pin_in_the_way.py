from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED


def test_pins_in_its_own_holes_stop_a_part(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
    pins: all
  - place: strap  # expect: pin-in-the-way
"""
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert (finding.severity, finding.parts[0], finding.steps) == ("warning", "strap", (2,))
    assert finding.message == "strap cannot go in for the pins in strap.eye 1-3."
    assert finding.fix == "Pull these pins before step 2, or choose other holes for them."


def test_with_pins_elsewhere_it_goes_down(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n    pins: [rail.foot.1, rail.foot.5]\n  - place: strap\n"
    assert found_as_marked(tmp_path, STRAPPED, STEPS + steps) == []


def test_with_the_pins_pulled_it_goes_down(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n    pins: all\n  - pull pins: rail.foot.2-4\n  - place: strap\n"
    assert found_as_marked(tmp_path, STRAPPED, STEPS + steps) == []
