from __future__ import annotations

import os
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from seqviz.cli.program import run
from tests.cli.shelf import MODEL, write_shelf

Captured = pytest.CaptureFixture[str]

BOTH = MODEL.replace(
    "placed:\n  stiffener: {part: stiffener, match: {foot.1: panel.edge.1, foot.14: panel.edge.14}}\n",
    "  post: {shape: block, length: 10, width: 10, height: 10}\n"
    "placed:\n  rib: {part: stiffener, match: {foot.1: panel.edge.1, foot.14: panel.edge.14}}\n",
)


@pytest.fixture(autouse=True)
def in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write_shelf(tmp_path, model=BOTH)


def title(path: str) -> str:
    root = ElementTree.fromstring(Path(path).read_text(encoding="utf-8"))
    return next(element.text or "" for element in root if element.tag.endswith("title"))


@pytest.mark.parametrize("name", ["stiffener", "Stiffener", "rib"])
def test_a_part_by_its_own_name_or_where_it_goes(name: str, capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", "--flat", name]) == 0
    assert capsys.readouterr() == ("stiffener flat.svg\n", "")
    assert title("stiffener flat.svg") == "Flat pattern of stiffener"


def test_a_file_that_is_there_is_left_alone(capsys: Captured) -> None:
    Path("mine.svg").write_text("mine", encoding="utf-8")
    assert run(["stack", "shelf.yaml", "--flat", "panel", "--out", "mine.svg"]) == 2
    assert capsys.readouterr().err == (
        "mine.svg is there already; nothing was written. Write over it with --force, or use --out.\n"
    )
    assert Path("mine.svg").read_text(encoding="utf-8") == "mine"
    assert run(["stack", "shelf.yaml", "--flat", "panel", "--out", "mine.svg", "--force"]) == 0
    assert title("mine.svg") == "Flat pattern of panel"
    assert sorted(os.listdir()) == ["evening.yaml", "mine.svg", "shelf.yaml"]


def test_all_go_into_a_folder_and_the_rest_is_named(capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", "--flat", "all"]) == 0
    assert capsys.readouterr().out == (
        "shelf flat patterns/panel flat.svg\n"
        "shelf flat patterns/stiffener flat.svg\n"
        "No flat pattern: post is a block, and not one sheet that is cut out flat.\n"
    )
    assert sorted(os.listdir("shelf flat patterns")) == ["panel flat.svg", "stiffener flat.svg"]
    assert run(["stack", "shelf.yaml", "--flat", "all"]) == 2


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (
            ["--flat", "stifener"],
            "There is no part called stifener. Did you mean stiffener? "
            "A name with spaces needs quotation marks around it.",
        ),
        (
            ["--flat", "post"],
            "There is no flat pattern to draw: post is a block, and not one sheet that is cut out flat.",
        ),
        (["--flat", "panel", "--out", "p.pdf"], "--out p.pdf: the name of the file ends in .svg or .dxf."),
        (
            ["--flat", "panel", "--out", "no/p.svg"],
            "no: no such folder. Make it first, or give another path.",
        ),
        (
            ["--flat", "all", "--out", "p.svg"],
            "p.svg: all flat patterns go into a folder. Give the name of one.",
        ),
        (["--out", "p.svg"], "--out and --force go with --flat PART and with --section HOLE."),
        (["--force"], "--out and --force go with --flat PART and with --section HOLE."),
        (
            ["--flat", "panel", "--parts"],
            "--flat and --parts are two questions: ask them one after the other.",
        ),
        (
            ["rib", "--parts"],
            "--parts goes with FILE alone: names of parts, --holes and --why are for the layers at holes.",
        ),
        (
            ["--flat", "panel", "--json"],
            "--flat writes a drawing; --json goes with --parts and with the layers at holes.",
        ),
    ],
)
def test_slips_end_with_2_and_write_nothing(arguments: list[str], said: str, capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", *arguments]) == 2
    assert capsys.readouterr() == ("", f"{said}\n")
    assert sorted(os.listdir()) == ["evening.yaml", "shelf.yaml"]


def test_both_hands_are_two_drawings(capsys: Captured) -> None:
    text = BOTH.replace("base: panel", "base: panel\nmirror line: y=60")
    text = text.replace(
        "count: 14, size: small}\n  stiffener:", "count: 14, size: small, both sides: yes}\n  stiffener:"
    )
    text = text.replace("foot.14: panel.edge.14}}", "foot.14: panel.edge.14}, both sides: other hand}")
    Path("shelf.yaml").write_text(text, encoding="utf-8")
    assert run(["stack", "shelf.yaml", "--flat", "stiffener", "--out", "s.svg"]) == 2
    assert capsys.readouterr().err == (
        "Both hands are needed, and each is a drawing of its own. With --out say which: "
        "rib left or rib right.\n"
    )
    assert run(["stack", "shelf.yaml", "--flat", "stiffener"]) == 0
    assert capsys.readouterr().out == "rib left flat.svg\nrib right flat.svg\n"


def test_a_part_with_a_mistake_is_sent_to_check(capsys: Captured) -> None:
    Path("shelf.yaml").write_text(BOTH.replace("legs: [20, 20]", "legs: [2, 20]"), encoding="utf-8")
    assert run(["stack", "shelf.yaml", "--flat", "stiffener"]) == 2
    assert capsys.readouterr().err == (
        "stiffener has a mistake in its description, so that it cannot be drawn. Look first: seqviz check.\n"
    )


def test_dxf_by_the_name_of_the_file(capsys: Captured) -> None:
    pytest.importorskip("ezdxf")
    assert run(["stack", "shelf.yaml", "--flat", "panel", "--out", "p.dxf"]) == 0
    assert capsys.readouterr().out == "p.dxf\n"
    assert "LWPOLYLINE" in Path("p.dxf").read_text(encoding="utf-8")


def test_dxf_without_its_package_names_the_extra(monkeypatch: pytest.MonkeyPatch, capsys: Captured) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf.filemanagement", None)
    assert run(["stack", "shelf.yaml", "--flat", "panel", "--out", "p.dxf"]) == 2
    assert "pip install 'seqviz[dxf]'" in capsys.readouterr().err
    assert not Path("p.dxf").exists()


def test_the_pile_as_text_and_as_json(capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", "--parts"]) == 0
    assert capsys.readouterr().out.splitlines()[1].startswith("panel      1       300 x 120 x 0.8")
    assert run(["stack", "shelf.yaml", "--parts", "--json"]) == 0
    assert '"needed": 1' in capsys.readouterr().out
