"""Rows from CSV files: what they become, and where their mistakes stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.load import Loaded
from seqviz.records.model import AlongEdge, FromTo, Points, Row
from tests.records.written import MODEL, changed, loaded, places, said

WITH_ROWS = changed("base: skin\n", "base: skin\nrows from: rows.csv\n")
"""MODEL with a file of rows, which is named in line 3."""

HEAD = "part,row,from edge,first,last,count,size\n"


def read(folder: Path, table: str, model: str = WITH_ROWS) -> Loaded:
    (folder / "rows.csv").write_text(table, encoding="utf-8")
    return loaded(folder, model)


def rows(folder: Path, table: str, part: str = "skin") -> dict[str, Row]:
    found = read(folder, table)
    assert found.findings == []
    return {row.name: row for row in found.model.parts[part].rows}


def in_table(found: Loaded) -> list[tuple[str, int, int]]:
    """Return where the findings in the table stand; there are no others."""
    assert {Path(finding.at.file).name for finding in found.findings} == {"rows.csv"}
    return places(found)


def test_a_row_by_coordinates(tmp_path: Path) -> None:
    row = rows(tmp_path, HEAD + "skin,keel,180,20,600,30,small\n")["keel"]
    assert isinstance(row.layout, FromTo)
    assert (row.layout.start, row.layout.end, row.layout.spacing.count) == ((20, 180), (600, 180), 30)
    assert row.size is not None
    assert row.size.text == "small"
    file = str(tmp_path / "rows.csv")
    assert (row.at.file, row.at.line, row.at.column) == (file, 2, 6)
    assert (row.layout.spacing.at.file, row.layout.spacing.at.column) == (file, 22)


def test_a_file_named_in_the_model_is_one_of_its_sources(tmp_path: Path) -> None:
    found = read(tmp_path, HEAD)
    assert set(found.sources) == {str(tmp_path / "model.yaml"), str(tmp_path / "rows.csv")}
    (tmp_path / "sequence.yaml").write_text("format: 1\nmodel: model.yaml\nsteps: []\n", encoding="utf-8")
    assert str(tmp_path / "rows.csv") in loaded(tmp_path, WITH_ROWS, "format: 1\nmodel: model.yaml\n").sources


@pytest.mark.parametrize(
    ("written", "inches"),
    [("No. 30", 0.1285), ("#30", 0.1285), ("letter F", 0.257), ("1/8", 0.125), ("f", 0.257)],
)
def test_a_drill_is_a_size(tmp_path: Path, written: str, inches: float) -> None:
    row = rows(tmp_path, HEAD + f"skin,keel,180,20,600,30,{written}\n")["keel"]
    assert row.size is None
    assert row.diameter == pytest.approx(inches * 25.4)


def test_an_unknown_drill_in_a_table(tmp_path: Path) -> None:
    found = read(tmp_path, HEAD + "skin,keel,180,20,600,30,No. 300\n")
    assert in_table(found) == [("bad-value", 2, 25)]
    assert found.findings[0].message == "There is no drill `No. 300`."


def test_semicolons_other_titles_quotes_remarks_and_units(tmp_path: Path) -> None:
    table = (
        "\ufeffPart name;Row; From-Edge (mm);FIRST [in];Last (in);No. of;Notes;Dia.\n"
        ' skin ;"keel 2"; 180;1;3;5;"a ""good"" row; checked";2.5\n'
        ";;;;;;;\n"
        "# taken from the drawing\n"
    ).replace("No. of", "Qty")
    row = rows(tmp_path, table)["keel 2"]
    assert isinstance(row.layout, FromTo)
    assert [*row.layout.start, *row.layout.end] == pytest.approx([25.4, 180, 76.2, 180])
    assert (row.size, row.diameter, row.layout.spacing.count) == (None, 2.5, 5)


def test_a_line_that_names_the_separator(tmp_path: Path) -> None:
    row = rows(tmp_path, "sep=;\n" + HEAD.replace(",", ";") + "skin;keel;180;20;600;30;small\n")["keel"]
    assert (row.at.line, row.at.column) == (3, 6)


def test_rows_join_those_that_are_repeated(tmp_path: Path) -> None:
    model = WITH_ROWS.replace("parts:\n", "parts:\n  liner:\n    shape: plate\n    thickness: 1\n" + LINER, 1)
    found = read(tmp_path, HEAD + "liner,own,180,20,600,30,small\nskin,keel,180,30,610,30,small\n", model)
    assert found.findings == []
    names = [row.name for row in found.model.parts["liner"].rows]
    assert names == ["rail", "cross 1", "edge", "keel", "own"]


LINER = "    outline: [[0, 0], [620, 0], [620, 360], [0, 360]]\n    holes: same as skin\n"


def test_along_an_edge_last_is_measured_from_its_start(tmp_path: Path) -> None:
    table = "part,row,edge,from edge,first,last,last in,count,size\nskin,a,left,10,20,600,,30,small\n"
    table += "skin,b,right edge,12,30,,40,5,big\n"
    found = rows(tmp_path, table)
    a, b = found["a"].layout, found["b"].layout
    assert isinstance(a, AlongEdge)
    # (600 - 20) / 29 = 20
    assert (a.edge, a.inset, a.first, a.last_in, a.spacing.pitch) == ("left edge", 10, 20, None, 20)
    assert isinstance(b, AlongEdge)
    assert (b.edge, b.inset, b.first, b.last_in, b.spacing.count) == ("right edge", 12, 30, 40, 5)


def test_one_hole_and_another_flat(tmp_path: Path) -> None:
    table = "part,row,flat,from edge,first,last,count,size\nrail,eye,leg 2,12,300,,1,big\n"
    row = rows(tmp_path, table, "rail")["eye"]
    assert (row.flat, row.layout) == ("leg 2", Points(points=((300.0, 12.0),)))


def test_a_part_without_holes_gets_them_from_the_file(tmp_path: Path) -> None:
    model = WITH_ROWS.replace("    legs: [20, 25]\n    holes:\n", "    legs: [20, 25]\n")
    model = "\n".join(line for line in model.splitlines() if "foot: {" not in line) + "\n"
    table = "part,row,flat,from edge,first,last,count,size\nrail,foot,leg 1,10,20,600,30,small\n"
    found = read(tmp_path, table, model)
    assert found.findings == []
    assert [row.name for row in found.model.parts["rail"].rows] == ["foot"]


@pytest.mark.parametrize(
    ("table", "found"),
    [
        (HEAD + "skn,a,9,20,600,30,small\n", [("unknown-name", 2, 1)]),
        (HEAD + "skin,a,9,20,600,30,smal\n", [("unknown-name", 2, 20)]),
        (HEAD + "skin,a,9,20,600,thirty,small\n", [("bad-value", 2, 17)]),
        (HEAD + "skin,a,9,20,600,,small\n", [("missing-word", 2, 6)]),
        (HEAD + "skin,a,9,,600,30,small\n", [("missing-word", 2, 1)]),
        (HEAD + "skin,,9,20,600,30,small\n", [("missing-word", 2, 1)]),
        (HEAD + "skin,a,9,5,20,600,30,small\n", [("bad-value", 2, 22)]),
        (HEAD + 'skin,a,9,20,600,30,"small\n', [("bad-value", 2, 20)]),
        (HEAD.replace(",", ";") + "skin;a;9,5;20;600;30;small\n", [("bad-value", 2, 8)]),
        (HEAD + "skin,a,9,20,600,30,small\nskin,a,8,20,600,30,small\n", [("duplicate-name", 3, 6)]),
        (HEAD + "skin,edge,9,20,600,30,small\n", [("duplicate-name", 2, 6)]),
        (HEAD + "rail,a,9,20,600,30,small\n", [("missing-word", 2, 6)]),
        ("part,row,from edge,first,last,cuont,size\n", [("unknown-word", 1, 31)]),
        ("part,row,from edge,first,first,count,size\n", [("duplicate-name", 1, 26)]),
        ("part,row,first,last,count\n", [("missing-word", 1, 1)]),
        ("", [("bad-value", 1, 1)]),
        (
            "part,row,edge,from edge,first,last,count,size\nskin,a,left,9,20,600,,small\n",
            [("missing-word", 2, 18)],
        ),
        (
            "part,row,edge,from edge,first,last,count,size\nskin,a,front,9,20,600,3,small\n",
            [("unknown-word", 2, 8)],
        ),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, table: str, found: list[tuple[str, int, int]]) -> None:
    assert in_table(read(tmp_path, table)) == found


def test_a_file_that_is_not_there_is_one_finding(tmp_path: Path) -> None:
    model = WITH_ROWS.replace("    holes:\n      foot:", "    # holes:\n    # foot:")
    finding = said(loaded(tmp_path, model))
    assert (finding.kind, finding.at.line, finding.at.column) == ("bad-value", 3, 12)
    assert "No such file" in finding.message


def test_several_files_and_a_wrong_value(tmp_path: Path) -> None:
    (tmp_path / "b.csv").write_text(HEAD + "skin,b,9,20,600,30,small\n", encoding="utf-8")
    model = WITH_ROWS.replace("rows.csv", "[rows.csv, b.csv]")
    found = read(tmp_path, HEAD + "skin,a,8,20,600,30,small\n", model)
    assert [row.name for row in found.model.parts["skin"].rows][-2:] == ["a", "b"]
    assert places(loaded(tmp_path, WITH_ROWS.replace("rows.csv", "{a: b}"))) == [("bad-value", 3, 12)]
    assert loaded(tmp_path, MODEL).findings == []
