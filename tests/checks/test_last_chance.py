from pathlib import Path

from tests.checks.expect import MODEL, SEQUENCE, STEPS, found_as_marked
from tests.checks.test_closing_unchecked import BOTH

OPEN = "  - place: [floor, rail, tray]\n"


def test_it_names_the_holes_and_what_closes_them(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, BOTH, STEPS + OPEN + "  - place: lid  # expect: last-chance\n")[0]
    assert finding.severity == "note"
    assert finding.holes == ("rail.foot.1", "rail.foot.2", "rail.foot.3")
    assert finding.message == "rail.foot 1-3: no tool reaches these holes any more after step 2 places lid."
    assert finding.fix == "Rivet them before step 2, or place lid later."


def test_set_before_or_taken_off_again(tmp_path: Path) -> None:
    riveted = OPEN + "  - rivet: rail.foot\n    head: upper\n  - place: lid\n"
    assert found_as_marked(tmp_path, BOTH, STEPS + riveted) == []
    off = OPEN + "  - place: lid\n  - take off: lid\n"
    assert found_as_marked(tmp_path, BOTH, STEPS + off) == []


def test_a_finished_sequence_forgets_them(tmp_path: Path) -> None:
    row = "      foot: {from: [10, 10], to: [170, 10], count: 5, size: small}"
    assert row in MODEL
    model = BOTH.replace(row, f"{row}  # expect: never-set")
    found_as_marked(tmp_path, model, SEQUENCE + OPEN + "  - place: lid\n")


def test_what_is_set_too_late_is_told_there(tmp_path: Path) -> None:
    steps = OPEN + "  - place: lid\n  - rivet: rail.foot.1-3  # expect: tool-blocked\n"
    found_as_marked(tmp_path, BOTH, STEPS + steps)
