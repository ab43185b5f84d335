"""``holes: same as PART``: which rows a part gets, and where mistakes stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.load import Loaded
from seqviz.records.model import Row
from tests.records.written import Place, changed, loaded, places

AT = "  rail:\n    shape: angle\n"
"""Stands in lines 20 and 21 of MODEL; parts are put before it."""


def read(folder: Path, part: str) -> Loaded:
    return loaded(folder, changed(AT, part + AT))


def plate(holes: str) -> str:
    """A part called liner, as large as the skin; its `holes` stand in line 24, column 12."""
    return (
        "  liner:\n    shape: plate\n    thickness: 0.5\n"
        f"    outline: [[0, 0], [620, 0], [620, 360], [0, 360]]\n    holes: {holes}\n"
    )


def rows(folder: Path, holes: str) -> dict[str, Row]:
    found = read(folder, plate(holes))
    assert found.findings == []
    return {row.name: row for row in found.model.parts["liner"].rows}


def test_all_rows_are_repeated_and_stand_where_they_are_asked_for(tmp_path: Path) -> None:
    found = rows(tmp_path, "same as skin")
    assert list(found) == ["rail", "cross 1", "edge"]
    assert {(row.at.line, row.at.column, row.laid_out_on) for row in found.values()} == {(24, 12, "skin")}


def test_changes_and_rows_of_its_own(tmp_path: Path) -> None:
    text = "{same_as: skin, cross 1: {2: none, 3-4: big}, edge: none, own: {at: [[9, 9]], size: small}}"
    found = rows(tmp_path, text)
    assert list(found) == ["rail", "cross 1", "own"]
    assert [(one.first, one.last, one.size) for one in found["cross 1"].exceptions] == [
        (2, 2, None),
        (3, 4, "big"),
    ]
    assert (found["cross 1"].at.column, found["own"].laid_out_on) == (28, None)


def test_a_chain_leads_to_the_part_that_is_written(tmp_path: Path) -> None:
    second = plate("{same as: liner, cross 1: {1: big}}").replace("liner:", "second:", 1)
    found = read(tmp_path, second + plate("{same as: skin, cross 1: {1: none}}"))
    assert found.findings == []
    cross = {row.name: row for row in found.model.parts["second"].rows}["cross 1"]
    assert cross.laid_out_on == "skin"
    # The later word counts.
    assert [one.size for one in cross.exceptions] == [None, "big"]


@pytest.mark.parametrize(
    ("holes", "found"),
    [
        ("same as skn", ("unknown-name", 24, 12)),
        ("{same as: skn}", ("unknown-name", 24, 22)),
        ("same as liner", ("bad-value", 24, 12)),
        ("{same as: skin, croos: none}", ("unknown-name", 24, 28)),
        ("{same as: skin, edge: {1: bgi}}", ("unknown-name", 24, 38)),
        ("{same as: skin, edge: {1: big, 1: none}}", ("duplicate-name", 24, 43)),
        ("{same as: skin, edge: {at: [[1, 1]], size: big}}", ("duplicate-name", 24, 28)),
        ("{same as: skin, own: {at: [[1, 1]], size: bgi}}", ("unknown-name", 24, 54)),
        ("{same as: skin, same-as: rail}", ("duplicate-name", 24, 28)),
        ("like skin", ("bad-value", 24, 12)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, holes: str, found: Place) -> None:
    assert places(read(tmp_path, plate(holes))) == [found]


def test_what_hangs_on_a_broken_part_is_muted_even_without_the_wrong_row(tmp_path: Path) -> None:
    text = changed(AT, plate("{same as: skin, edge: none}") + AT)
    read = loaded(tmp_path, text.replace("pitch: 20, size: small}", "pitch: 20, size: smal}", 1))
    assert [finding.kind for finding in read.findings] == ["unknown-name"]
    assert {"skin", "liner"} <= read.model.broken


def test_what_is_wrong_with_the_written_row_is_told_once(tmp_path: Path) -> None:
    text = changed(AT, plate("same as skin") + AT)
    wrong = text.replace("pitch: 20, size: small}", "pitch: 20, size: smal}", 1)
    assert places(loaded(tmp_path, wrong)) == [("unknown-name", 19, 80)]
    lost = text.replace("pitch: 25,", "pitch: 25, pich: 9,", 1)
    assert [kind for kind, *_ in places(loaded(tmp_path, lost))] == ["unknown-word"]
