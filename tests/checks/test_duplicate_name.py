from pathlib import Path

from tests.checks.expect import MODEL, found_as_marked


def test_two_parts_of_one_name(tmp_path: Path) -> None:
    again = "  rail: {shape: bar, length: 50, width: 20, thickness: 2}  # expect: duplicate-name\n"
    found_as_marked(tmp_path, MODEL + again)
