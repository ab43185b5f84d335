from pathlib import Path

from seqviz.checks.run import run
from seqviz.checks.summary import summary
from tests.checks.expect import SEQUENCE, STEPS, built
from tests.checks.rails import STRAPPED


def test_counts_of_a_finished_sequence(tmp_path: Path) -> None:
    steps = SEQUENCE + "  - place: [floor, rail, strap]\n  - rivet: strap.eye\n"
    made = built(tmp_path, STRAPPED, steps)
    # Holes: 5 in the floor, 5 in the rail, 3 in the strap. Rail holes 1 and 5 are never set: one mistake.
    assert summary(made, run(made)) == {
        "parts": 3,
        "placed": 3,
        "holes": 13,
        "stacks": 5,
        "fasteners": 3,
        "steps": 2,
        "errors": 1,
        "warnings": 0,
        "notes": 0,
        "known": 0,
    }


def test_what_is_open_while_the_work_goes_on(tmp_path: Path) -> None:
    made = built(tmp_path, STRAPPED, STEPS + "  - place: rail\n  - rivet: rail.foot.1\n")
    # The strap is not placed; holes 2 to 5 are not set.
    assert summary(made, run(made))["open"] == {"parts": 1, "holes": 4}


def test_later_is_not_open(tmp_path: Path) -> None:
    later = "later:\n  - {part: strap, why: the second kit}\n"
    made = built(tmp_path, STRAPPED + later, STEPS + "  - place: rail\n  - rivet: rail.foot.1\n")
    # Holes 2 to 4 belong to the strap.
    assert summary(made, run(made))["open"] == {"parts": 0, "holes": 1}


def test_a_model_alone(tmp_path: Path) -> None:
    made = built(tmp_path, STRAPPED)
    counts = summary(made, run(made))
    assert (counts["fasteners"], counts["steps"], "open" in counts) == (0, 0, False)


def test_parts_without_dimensions_are_named_once(tmp_path: Path) -> None:
    sketch = STRAPPED.replace("  rail:\n", "  clip: {shape: sketch, thickness: 1}\n  rail:\n")
    made = built(tmp_path, sketch + "rows: {lug: {layers: [clip, rail], count: 2, size: small}}\n")
    counts = summary(made, run(made))
    assert counts["not_checked"] == {"why": "no dimensions", "parts": ["rail", "clip"]}
    # 13 with a place, and two of the clip on two of the rail.
    assert (counts["placed"], counts["holes"], counts["stacks"]) == (4, 17, 7)


def test_where_all_have_dimensions_nothing_is_said(tmp_path: Path) -> None:
    made = built(tmp_path, STRAPPED)
    assert "not_checked" not in summary(made, run(made))


def test_parts_taken_off_or_joined_apart_are_open(tmp_path: Path) -> None:
    off = "  - place: [rail, strap]\n  - take off: strap\n"
    apart = "  - place: rail\n  - apart: set\n    steps:\n      - place: strap\n"
    for steps in (off, apart):
        made = built(tmp_path, STRAPPED, STEPS + steps)
        assert summary(made, run(made))["open"] == {"parts": 1, "holes": 5}
