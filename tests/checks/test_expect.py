from pathlib import Path

import pytest

from tests.checks.expect import MODEL, SEQUENCE, expected, found_as_marked

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"


def test_marks_are_read_with_their_lines() -> None:
    text = "a: 1\nb: 2  # expect: holes-off, never-set\n\nc: 3 # a comment\n"
    assert expected("m", text) == {("m", 2, "holes-off"), ("m", 2, "never-set")}


def test_the_plain_structure_shows_nothing(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - rivet: everything ready\n"
    assert found_as_marked(tmp_path, MODEL + PLACED, SEQUENCE + steps) == []


def test_a_mark_without_a_finding_fails(tmp_path: Path) -> None:
    with pytest.raises(AssertionError):
        found_as_marked(tmp_path, MODEL + PLACED.replace("}}\n", "}}  # expect: holes-off\n"))


def test_a_finding_without_a_mark_fails(tmp_path: Path) -> None:
    with pytest.raises(AssertionError):
        found_as_marked(tmp_path, MODEL + "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1}}\n")
