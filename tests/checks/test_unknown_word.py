from pathlib import Path

from tests.checks.expect import MODEL, STEPS, found_as_marked


def test_a_word_spelt_wrong_stands_at_the_word(tmp_path: Path) -> None:
    model = MODEL.replace(
        "    thickness: 0.8\n", "    thickness: 0.8\n    materiel: 6061-T6  # expect: unknown-word\n"
    )
    assert "materiel" in found_as_marked(tmp_path, model)[0].message


def test_in_the_sequence_too(tmp_path: Path) -> None:
    found_as_marked(tmp_path, MODEL, STEPS + "  - plase: floor  # expect: unknown-word\n")
