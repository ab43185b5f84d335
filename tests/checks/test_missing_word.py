from pathlib import Path

from tests.checks.expect import MODEL, found_as_marked


def test_a_part_without_thickness(tmp_path: Path) -> None:
    model = MODEL.replace("  rail:\n", "  rail:  # expect: missing-word\n").replace(
        "    thickness: 1.6\n", ""
    )
    assert "thickness" in found_as_marked(tmp_path, model)[0].message
