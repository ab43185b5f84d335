from __future__ import annotations

import io
from pathlib import Path

import pytest

from seqviz.build import build
from seqviz.cli.program import run

Captured = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def answer(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))


def test_what_is_usual_gives_an_answer_at_once(capsys: Captured) -> None:
    assert run(["new", "shelf.yaml", "--yes"]) == 0
    told = capsys.readouterr()
    assert told.out == (
        "Wrote shelf.yaml and shelf_steps.yaml. Now try:\n"
        "  seqviz check shelf_steps.yaml\n  seqviz stack shelf_steps.yaml\n"
    )
    assert run(["check", "shelf_steps.yaml"]) == 0
    # (600 - 2 x 20) / 30 = 18.7 spaces: 19, so 20 holes in each of 2 rails.
    assert capsys.readouterr().out == "3 parts, 40 fasteners, 2 steps: nothing found.\n"
    assert run(["stack", "shelf_steps.yaml"]) == 0
    layers = "rail 1.row 1 1-20: rail 1 1 over sheet 0.8, grip 1.8; blind rivet 3.2"
    assert layers in capsys.readouterr().out
    for file in ("shelf.yaml", "shelf_steps.yaml"):
        assert Path(file).read_text(encoding="utf-8").count("# ") >= 4


def test_enter_takes_what_is_usual(monkeypatch: pytest.MonkeyPatch, capsys: Captured) -> None:
    answer(monkeypatch, *[""] * 11)
    assert run(["new", "asked"]) == 0
    assert run(["new", "told", "--yes"]) == 0
    assert Path("asked.yaml").read_bytes() == Path("told.yaml").read_bytes()
    assert capsys.readouterr().out.count("?") == 11


def test_answers_stand_in_the_files(monkeypatch: pytest.MonkeyPatch, capsys: Captured) -> None:
    name = 'Box: "left" # 2'
    answer(
        monkeypatch, name, "in", "30", "400 mm", "1/32", "3", "0.05", "7/8", "solid rivet 1/8", "0.13", "1.5"
    )
    assert run(["new"]) == 0
    assert "Wrote box_left_2.yaml and box_left_2_steps.yaml" in capsys.readouterr().out
    assert run(["check", "box_left_2_steps.yaml"]) == 0
    # (30 - 2 x 0.75) / 1.5 = 19 spaces: 20 holes in each of 3 rails.
    assert capsys.readouterr().out.splitlines()[-1].startswith("4 parts, 60 fasteners, 2 steps:")
    text = Path("box_left_2.yaml").read_text(encoding="utf-8")
    # 400 mm are 15.748 in; the middle rail lies at half of it.
    assert "[30, 15.748]" in text
    assert "row 2: {from: [0.75, 7.874], to: [29.25, 7.874], count: 20, size: small}" in text
    # Room for half a bucking bar beside the leg: 1.27 + 13 mm.
    assert "legs: [0.875, 0.875], row in: 0.5618" in text
    assert build("box_left_2.yaml").model.name == name


def test_what_cannot_be_read_or_does_not_fit_is_asked_again(
    monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    first = ["", "furlong", "mm", "3,5", "600", "100", "", "none", "9", "", "", "nails", "", "", ""]
    answer(monkeypatch, *first, "", "", "", "3", *[""] * 5)
    assert run(["new", "it.yaml"]) == 0
    text = capsys.readouterr().out
    for words in (
        "Please write mm or in.",
        "`3,5` has a decimal comma. Write a point: `3.5`.",
        "Please write a number from 1 to 50.",
        "Please write kind and size, such as blind rivet 3.2, or solid rivet 1/8.",
        # 9 x 1.5 x 20 = 270 mm do not fit on 100 mm, 3 x 30 do.
        "So many rails do not fit side by side; 3 would. Once more, please.",
    ):
        assert words in text
    assert "rail 3:" in Path("it.yaml").read_text(encoding="utf-8")
    assert "[600, 100]" in Path("it.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("there", ["shelf.yaml", "shelf_steps.yaml"])
def test_it_never_writes_over_a_file(there: str, capsys: Captured) -> None:
    Path(there).write_text("mine", encoding="utf-8")
    assert run(["new", "shelf.yaml", "--yes"]) == 2
    assert capsys.readouterr().err == (
        f"{there} is there already; nothing was written. Give another name: seqviz new FILE.\n"
    )
    assert [path.name for path in Path().iterdir()] == [there]
    assert Path(there).read_text(encoding="utf-8") == "mine"


def test_a_folder_that_is_not_there_and_answers_that_end(
    monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    assert run(["new", "nowhere/shelf.yaml", "--yes"]) == 2
    assert "no such folder" in capsys.readouterr().err
    answer(monkeypatch, "Shelf")
    assert run(["new"]) == 2
    assert "seqviz new --yes asks nothing" in capsys.readouterr().err
    assert list(Path().iterdir()) == []


def test_both_files_lie_beside_each_other(capsys: Captured) -> None:
    Path("my models").mkdir()
    assert run(["new", "my models/shelf", "--yes"]) == 0
    assert '  seqviz check "my models/shelf_steps.yaml"\n' in capsys.readouterr().out
    assert run(["check", "my models/shelf_steps.yaml"]) == 0
