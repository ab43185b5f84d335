"""Rivets against their thickest sheet: advice with all sources, and where a table lists them all the same."""

from pathlib import Path

import pytest

from tests.checks.sheets import HEAD, mine

NOTE = "  # expect: rivet-for-sheet"


def sketch(skin: float, rail: float, size: str = "small", mark: str = "") -> str:
    """Two parts without dimensions, and ten holes."""
    return (
        HEAD
        + f"""\
parts:
  floor: {{shape: sketch, thickness: {skin}}}
  rail: {{shape: sketch, thickness: {rail}}}
rows:
  foot: {{layers: [rail, floor], count: 10, size: {size}}}{mark}
"""
    )


@pytest.mark.parametrize(("skin", "rail"), [(0.8, 1.6), (0.5, 3.2), (1.0667, 0.5)])
def test_one_to_three_thicknesses_of_the_thickest_sheet_pass(
    tmp_path: Path, skin: float, rail: float
) -> None:
    # 3.2 / 1.6 = 2, 3.2 / 3.2 = 1, 3.2 / 1.0667 = 3.
    assert mine(tmp_path, sketch(skin, rail)) == []


def test_a_thick_rivet_names_all_sources_and_the_tables_that_list_it(tmp_path: Path) -> None:
    (finding,) = mine(tmp_path, sketch(0.64, 0.64, mark=NOTE))
    assert (finding.severity, finding.figure) == ("note", None)
    # 3.2 / 0.64 = 5.
    assert finding.message == (
        "rail.foot 1-10: a rivet of 3.2 mm is 5 times 0.64 mm, the thickest sheet; published rules go from "
        "1 to 3 times."
    )
    for source in (
        "paragraph 4-58g",
        "paragraph 4-58l",
        "NAVEDTRA 14018",
        "FAA-H-8083-31, chapter 4, from memory",
    ):
        assert source in finding.why
    # Table 4-10 has 1/8 in sheets of .016 to .081 in; 0.64 mm is .025.
    assert (
        "Listed for that sheet all the same: FAA AC 43.13-1B, table 4-9; FAA AC 43.13-1B, table 4-10."
        in finding.why
    )


def test_one_that_no_table_lists_has_a_figure(tmp_path: Path) -> None:
    # 4.8 is 3/16 in, listed from .032 in (0.81 mm) on: 4.8 - 3 x 0.5 = 3.3 too thick.
    (finding,) = mine(tmp_path, sketch(0.5, 0.5, "big", NOTE))
    assert finding.figure == pytest.approx(3.3)
    assert "all the same" not in finding.why


def test_a_thin_rivet(tmp_path: Path) -> None:
    # 4.0 - 3.2 = 0.8 too thin.
    (finding,) = mine(tmp_path, sketch(0.8, 4.0, mark=NOTE))
    assert finding.figure == pytest.approx(0.8)


def test_bolts_and_solid_pieces_are_not_asked(tmp_path: Path) -> None:
    assert mine(tmp_path, sketch(0.5, 0.5, "bolt")) == []
    solid = (
        HEAD.replace("base: floor", "base: lug")
        + """\
parts:
  lug:
    shape: block
    length: 60
    width: 40
    height: 20
    holes: {eye: {flat: top, at: [[20, 20], [40, 20]], size: flush}}
  plate:
    shape: plate
    thickness: 1.6
    outline: [[0, 0], [60, 0], [60, 40], [0, 40]]
    holes: {eye: {at: [[20, 20], [40, 20]], size: flush}}
placed:
  plate: {part: plate, match: {eye.1: lug.eye.1, eye.2: lug.eye.2}}
"""
    )
    assert mine(tmp_path, solid) == []
