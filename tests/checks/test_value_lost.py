from pathlib import Path

from tests.checks.expect import MODEL, found_as_marked


def test_a_drill_number_behind_a_hash(tmp_path: Path) -> None:
    model = MODEL.replace("parts:\n", "  drill:\n    diameter: #30  expect: value-lost\nparts:\n")
    found_as_marked(tmp_path, model.replace("#30  expect", "#30 # expect"))


def test_a_drill_number_in_brackets(tmp_path: Path) -> None:
    model = MODEL.replace("parts:\n", "  drill: {diameter: #30}  expect: value-lost\nparts:\n")
    found_as_marked(tmp_path, model.replace("}  expect", "} # expect"))
