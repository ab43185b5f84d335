from pathlib import Path

from tests.checks.expect import MODEL, STEPS, found_as_marked


def test_a_part_that_nobody_described(tmp_path: Path) -> None:
    steps = "  - place: [floor]\n  - place: rial  # expect: unknown-name\n"
    placed = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"
    assert "rail" in found_as_marked(tmp_path, MODEL + placed, STEPS + steps)[0].fix


def test_a_hole_beyond_the_end_of_its_row(tmp_path: Path) -> None:
    steps = "  - place: floor\n  - leave open: floor.mid.9  # expect: unknown-name\n"
    found_as_marked(tmp_path, MODEL, STEPS + steps)
