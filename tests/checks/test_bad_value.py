from pathlib import Path

from tests.checks.expect import MODEL, found_as_marked


def test_a_length_that_is_none(tmp_path: Path) -> None:
    model = MODEL.replace("    thickness: 1.6\n", "    thickness: thick  # expect: bad-value\n")
    assert found_as_marked(tmp_path, model)[0].severity == "error"
