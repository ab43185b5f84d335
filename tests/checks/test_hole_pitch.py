"""Three diameters at least, across rows too; very wide pitches as a note."""

from pathlib import Path

import pytest

from tests.checks.sheets import mine, pair

STRAP = "[[0, 0], [100, 0], [100, 40], [0, 40]]"
PITCH = "  # expect: hole-pitch"


def row(pitch: float, mark: str = "", count: int = 4, size: str = "small") -> str:
    """A row of ``count`` holes ``pitch`` apart at y = 20 of the strap, the first at 10."""
    end = round(10 + pitch * (count - 1), 9)
    floor = f"{{from: [110, 120], to: [{100 + end}, 120], count: {count}, size: {size}}}"
    return pair(floor, f"{{from: [10, 20], to: [{end}, 20], count: {count}, size: {size}}}{mark}")


def test_three_diameters_pass_and_less_does_not(tmp_path: Path) -> None:
    # 3 x 3.2 = 9.6.
    assert mine(tmp_path, row(9.6)) == []
    (finding,) = mine(tmp_path, row(9.0, PITCH))
    # The floor has the same holes: told once, at the part farther from the base.
    assert (finding.severity, finding.parts) == ("warning", ("strap",))
    assert finding.holes == ("strap.eye.1", "strap.eye.2", "strap.eye.3", "strap.eye.4")
    assert finding.figure == pytest.approx(0.6)
    assert finding.message == (
        "strap.eye 1-4: 9 mm from middle to middle between 1 and 2; 9.6 mm is asked, 3 times 3.2 mm. "
        "0.6 mm is lacking."
    )
    assert "NAVEDTRA 14018" in finding.why
    assert "FAA AC 43.13-1B, paragraph 4-57c (secondary)" in finding.why


def test_of_two_fasteners_the_thicker_counts(tmp_path: Path) -> None:
    # Hole 2 is 4.8: 3 x 4.8 = 14.4 to both neighbours, 13 to 3 and 4 passes 9.6.
    text = row(13.0, f"{PITCH}, rivet-for-sheet").replace(
        "count: 4, size: small", "count: 4, size: small, 2: big"
    )
    finding, _ = mine(tmp_path, text)
    assert finding.holes == ("strap.eye.1", "strap.eye.2", "strap.eye.3")
    assert finding.figure == pytest.approx(1.4)


def test_countersunk_heads_want_more(tmp_path: Path) -> None:
    # 3.5 x 3.2 = 11.2.
    assert mine(tmp_path, row(11.2, size="flush")) == []
    (finding,) = mine(tmp_path, row(11.0, PITCH, size="flush"))
    assert finding.figure == pytest.approx(0.2)
    assert "3.5 times 3.2 mm, countersunk" in finding.message


def two_rows(apart: float, mark: str = "") -> str:
    """Two rows of three holes 20 apart in floor and strap, the second ``apart`` above the first."""
    text = row(20.0, mark, 3)
    floor, strap = f"{120 + apart}", f"{20 + apart}"
    text = text.replace(
        "  strap:\n    shape",
        f"      up: {{from: [110, {floor}], to: [150, {floor}], count: 3, size: small}}\n  strap:\n    shape",
        1,
    )
    return text.replace(
        "placed:\n",
        f"      lash: {{from: [10, {strap}], to: [50, {strap}], count: 3, size: small}}{mark}\nplaced:\n",
    )


def test_rows_beside_each_other_count_too(tmp_path: Path) -> None:
    assert mine(tmp_path, two_rows(9.6)) == []
    text = two_rows(9.0, PITCH).replace(PITCH, "", 1)
    (finding,) = mine(tmp_path, text)
    assert finding.holes == (
        "strap.eye.1",
        "strap.eye.2",
        "strap.eye.3",
        "strap.lash.1",
        "strap.lash.2",
        "strap.lash.3",
    )
    assert "between strap.eye.1 and strap.lash.1" in finding.message
    assert finding.why.endswith("Between rows 2.5 D: Army TM 10-5410-229-13&P.")


def test_holes_that_hold_nothing_together_do_not_count(tmp_path: Path) -> None:
    # Tooling holes in the floor alone, 9 beside the last of the row and beyond the strap.
    text = (
        row(20.0)
        .replace("[100, 40], [0, 40]", "[100, 26.4], [0, 26.4]")
        .replace(
            "  strap:\n    shape",
            "      tool: {at: [[170, 129]], diameter: 3}\n  strap:\n    shape",
        )
    )
    assert mine(tmp_path, text + "later:\n  - {holes: floor.tool, why: a jig}\n") == []


def test_a_very_wide_pitch_is_a_note_with_both_sources(tmp_path: Path) -> None:
    # 8 x 3.2 = 25.6.
    assert mine(tmp_path, row(25.6)) == []
    (finding,) = mine(tmp_path, row(28.0, PITCH, 3))
    assert finding.severity == "note"
    assert finding.figure == pytest.approx(2.4)
    assert "8.75 times 3.2 mm; the handbooks end at 8 or 10 times." in finding.message
    assert "8 D: NAVEDTRA 14018; 10 D: " in finding.why


def test_a_rivet_between_them_makes_a_wide_pitch_narrow(tmp_path: Path) -> None:
    text = row(28.0, PITCH, 3)
    between = "      between: {from: [24, 20], to: [52, 20], count: 2, size: small}\n"
    text = text.replace("placed:\n", f"{between}placed:\n")
    text = text.replace(
        "  strap:\n    shape",
        "      gap: {from: [124, 120], to: [152, 120], count: 2, size: small}\n  strap:\n    shape",
        1,
    )
    assert mine(tmp_path, text.replace(PITCH, "")) == []


def test_bolts_and_pairs_of_holes_have_no_pitch(tmp_path: Path) -> None:
    assert mine(tmp_path, row(60.0, count=2)) == []
    wide = row(60.0, count=3, size="bolt")
    assert mine(tmp_path, wide.replace(STRAP, "[[-10, 0], [150, 0], [150, 40], [-10, 40]]")) == []


def test_known_settles_it_until_it_is_worse(tmp_path: Path) -> None:
    known = "known:\n  - {kind: hole-pitch, at: strap, why: drawn so, figure: 0.6}\n"
    assert mine(tmp_path, row(9.0) + known)[0].known == "drawn so"
    assert mine(tmp_path, row(8.5, PITCH) + known)[0].message.endswith("now it is 1.1 mm.")


def test_across_an_opening_holes_are_no_neighbours(tmp_path: Path) -> None:
    # Between holes 1 and 2, at 10 and 38, the strap has an opening from 20 to 28.
    opening = "    openings: {slot: {outline: [[20, 12], [28, 12], [28, 28], [20, 28]]}}\n"
    text = row(28.0, PITCH, 3).replace(f"    outline: {STRAP}\n", f"    outline: {STRAP}\n{opening}")
    assert opening in text
    text = text.replace("count: 3, size: small}\n", f"count: 3, size: small}}{PITCH}\n", 1)
    # The floor goes on beneath the opening: there they are.
    told = {finding.holes for finding in mine(tmp_path, text)}
    assert told == {("floor.mid.1", "floor.mid.2"), ("strap.eye.2", "strap.eye.3")}
