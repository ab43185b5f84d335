from __future__ import annotations

import os
from pathlib import Path
from xml.etree import ElementTree

import pytest

from seqviz.cli.program import run
from tests.cli.shelf import write_shelf

Captured = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write_shelf(tmp_path)


def words(path: str) -> list[str]:
    root = ElementTree.fromstring(Path(path).read_text(encoding="utf-8"))
    return [element.text or "" for element in root.iter() if element.tag.endswith("text")]


def test_a_hole_by_any_of_its_names(capsys: Captured) -> None:
    assert run(["stack", "evening.yaml", "--section", "panel.edge.3"]) == 0
    assert capsys.readouterr() == ("panel.edge.3 section.svg\n", "")
    told = words("panel.edge.3 section.svg")
    assert told[:3] == ["stiffener.foot.3", "= panel.edge.3", "upper side; up on the bench"]
    assert "1.8 mm" in told
    assert "blind rivet 3.2, length 6 mm." in told


def test_of_a_row_one_drawing_of_each_sort(capsys: Captured) -> None:
    assert run(["stack", "evening.yaml", "--section", "stiffener.foot", "--out", "cut.svg"]) == 0
    assert capsys.readouterr().out == "cut.svg\n"
    assert words("cut.svg")[0] == "stiffener.foot.1"
    assert run(["stack", "evening.yaml", "--section", "stiffener.foot.2-4"]) == 0
    assert capsys.readouterr().out.splitlines() == [f"stiffener.foot.{k} section.svg" for k in (2, 3, 4)]


def test_ours_is_replaced_and_a_file_of_others_is_not() -> None:
    Path("mine.svg").write_text("mine", encoding="utf-8")
    arguments = ["stack", "shelf.yaml", "--section", "panel.edge.3", "--out", "mine.svg"]
    assert run(arguments) == 2
    assert Path("mine.svg").read_text(encoding="utf-8") == "mine"
    assert run([*arguments, "--force"]) == 0
    assert run(arguments) == 0


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (
            ["--section", "stifener.foot.3"],
            "There is no part, row or hole called stifener.foot.3 that is placed. Did you mean "
            "stiffener.foot.3 or stiffener.foot.13 or stiffener.foot.9? "
            "A name with spaces needs quotation marks around it.",
        ),
        (
            ["--section", "panel"],
            "panel is a part. --section goes through a hole or the holes of a row: PART.ROW.N or PART.ROW.",
        ),
        (
            ["--section", "panel.edge.1-4", "--out", "a.svg"],
            "These are 4 drawings. With --out say which: panel.edge.1, panel.edge.2, panel.edge.3 "
            "and 1 more; without it each gets a file of its own.",
        ),
        (["--section", "panel.edge.1", "--out", "a.dxf"], "--out a.dxf: the name of the file ends in .svg."),
        (
            ["--section", "panel.edge.1", "--out", "no/a.svg"],
            "no: no such folder. Make it first, or give another path.",
        ),
        (
            ["--section", "panel.edge.1", "--flat", "panel"],
            "--flat and --section are two questions: ask them one after the other.",
        ),
        (
            ["--section", "panel.edge.1", "--json"],
            "--section writes a drawing; --json goes with --parts and with the layers at holes.",
        ),
        (
            ["panel", "--section", "panel.edge.1"],
            "--section goes with FILE alone: names of parts, --holes and --why are for the layers at holes.",
        ),
    ],
)
def test_slips_end_with_2_and_write_nothing(arguments: list[str], said: str, capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", *arguments]) == 2
    assert capsys.readouterr() == ("", f"{said}\n")
    assert sorted(os.listdir()) == ["evening.yaml", "shelf.yaml"]
