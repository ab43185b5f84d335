"""How wide holes are, written as lengths and as drills."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.records.written import MODEL, changed, loaded, places, said

SMALL = "small: {diameter: 3.3,"
"""In line 5 of MODEL; the value stands in column 21."""


@pytest.mark.parametrize(
    ("written", "inches"),
    [
        ("No. 30", 0.1285),
        ("no 30", 0.1285),
        ("NO.30", 0.1285),
        ('"#30"', 0.1285),
        ("No. 40", 0.098),
        ("letter F", 0.257),
        ("F", 0.257),
        ("n", 0.302),  # a word for no in YAML, and a drill
        ('3/32"', 3 / 32),
        ("3/32 in", 3 / 32),
        ("1/8", 1 / 8),  # inches in a file that counts in mm: no drill is an eighth of a mm
        ("1 1/8", 9 / 8),
        (".1285 in", 0.1285),
    ],
)
def test_a_hole_may_be_written_as_its_drill(tmp_path: Path, written: str, inches: float) -> None:
    read = loaded(tmp_path, changed(SMALL, f"small: {{diameter: {written},"))
    assert places(read) == []
    assert read.model.sizes["small"].diameter == pytest.approx(inches * 25.4, abs=1e-9)


def test_every_hole_may(tmp_path: Path) -> None:
    text = changed("diameter: 4.0, lengths", "diameter: 4.0, hole: No. 20, lengths")
    text = text.replace("count: 30, size: small, skip", "count: 30, diameter: no 30, pilot: No. 40, skip")
    read = loaded(tmp_path, text)
    assert places(read) == []
    assert read.model.hardware["pull 4.0"].hole == pytest.approx(0.161 * 25.4)
    (row,) = read.model.parts["rail"].rows
    assert row.diameter == pytest.approx(0.1285 * 25.4)
    assert row.pilot == pytest.approx(0.098 * 25.4)


@pytest.mark.parametrize(
    ("written", "message", "fix"),
    [
        ("No. 300", "There is no drill `No. 300`.", "Write a drill that there is, or the diameter itself."),
        ("No. 0", "There is no drill `No. 0`.", "Write a drill that there is, or the diameter itself."),
        (
            "No. F",
            "`No. F` is not a hole's diameter.",
            "Write the diameter, or the drill as `No. 30` or `letter F`.",
        ),
        (
            "drill 30",
            "`drill 30` is not a hole's diameter.",
            "Write the diameter, or the drill as `No. 30` or `letter F`.",
        ),
        ("0/8", "`0/8 in` is too small.", "Correct it."),
        ("1/0", "`1/0 in` divides by zero.", "Correct the fraction."),
        ("-1", "`-1` is too small.", "Correct it."),
        ("3.3.1", "`3.3.1` is not a length.", 'Write a length, such as 12, 2.5 mm, 3/32" or 1 1/2 in.'),
    ],
)
def test_what_is_no_drill_says_why(tmp_path: Path, written: str, message: str, fix: str) -> None:
    read = loaded(tmp_path, changed(SMALL, f"small: {{diameter: {written},"))
    assert places(read)[0] == ("bad-value", 5, 21)
    finding = next(one for one in read.findings if one.at.line == 5)
    assert (finding.message, finding.fix) == (message, fix)
    assert finding.why


def test_the_series_is_told_where_a_drill_is_not_in_it(tmp_path: Path) -> None:
    read = loaded(tmp_path, changed(SMALL, "small: {diameter: No. 99,"))
    assert (
        read.findings[0].why
        == "Drills by number are No. 80 (0.34 mm) to No. 1 (5.79 mm), by letter A (5.94 mm) to Z (10.49 mm)."
    )


def test_an_unquoted_hash_points_to_the_number(tmp_path: Path) -> None:
    text = MODEL.replace("small: {diameter: 3.3, with: blind rivet 3.2}", "small:\n    diameter: #30")
    assert "No. 30" in " ".join(f"{one.message} {one.fix}" for one in loaded(tmp_path, text).findings)
    assert places(loaded(tmp_path, text))[0][0] == "value-lost"


@pytest.mark.parametrize("written", ["No. 30", "1/8", "3.3", '3/32"'])
def test_a_width_in_the_place_of_a_size_is_told_what_it_is(tmp_path: Path, written: str) -> None:
    old = "count: 30, size: small, skip"
    read = loaded(tmp_path, changed(old, old.replace("small", f"'{written}'")))
    (finding,) = [one for one in read.findings if one.kind == "bad-value"]
    assert finding.message == f"`{written}` is a width, not the name of a size."
    assert finding.fix == f"Add `NAME: {{diameter: {written}}}` to `sizes` and write its name here."


@pytest.mark.parametrize("written", ["letter F", "no 30", "4"])
def test_a_width_that_could_be_a_name_is_told_too(tmp_path: Path, written: str) -> None:
    old = "count: 30, size: small, skip"
    finding = said(loaded(tmp_path, changed(old, old.replace("small", written))))
    assert (finding.kind, finding.message) == ("unknown-name", f"There is no size `{written}`.")
    assert finding.fix == (
        f"`{written}` is a width: add `NAME: {{diameter: {written}}}` to `sizes` and write its name here."
    )


def test_other_holes_are_told_too(tmp_path: Path) -> None:
    read = loaded(tmp_path, changed("7-8: none", "7-8: No. 40"))
    assert [one.message for one in read.findings] == ["`No. 40` is a width, not the name of a size."]


def test_a_size_may_be_called_like_a_drill(tmp_path: Path) -> None:
    text = MODEL.replace("small", "F")
    read = loaded(tmp_path, text)
    assert places(read) == []
    assert read.model.sizes["F"].diameter == 3.3


def test_a_row_without_dimensions_may_too(tmp_path: Path) -> None:
    text = (
        "format: 1\nbase: skin\nparts:\n  skin: {shape: sketch, thickness: 1}\n"
        "  rail: {shape: sketch, thickness: 1}\n"
        "rows:\n  foot: {layers: [rail, skin], count: 3, diameter: letter F}\n"
    )
    read = loaded(tmp_path, text)
    assert places(read) == []
    assert read.model.rows["foot"].diameter == pytest.approx(0.257 * 25.4)
