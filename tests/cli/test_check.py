from __future__ import annotations

import json
from pathlib import Path

import pytest

from seqviz.cli.program import run
from tests.cli.shelf import MODEL, SEQUENCE, write_shelf

Captured = pytest.CaptureFixture[str]

BEFORE = "  - place: stiffener\n    pins: ends and every 4th\n"


TOO_EARLY = SEQUENCE.replace(BEFORE, "").replace("everything ready", "panel.edge") + "  - place: stiffener\n"
"""The rivets come before the stiffener: line 5, column 5."""


@pytest.fixture(autouse=True)
def in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write_shelf(tmp_path)


def test_a_clean_sequence_ends_with_0(capsys: Captured) -> None:
    assert run(["check", "evening.yaml"]) == 0
    # The base and the stiffener; 14 rivets; nothing is left, so there is no second line.
    assert capsys.readouterr() == ("2 parts, 14 fasteners, 2 steps: nothing found.\n", "")


def test_a_model_alone(capsys: Captured) -> None:
    assert run(["check", "shelf.yaml"]) == 0
    assert capsys.readouterr() == ("2 parts, 28 holes: nothing found.\n", "")


def test_what_is_not_there_yet_is_one_line_and_no_mistake(tmp_path: Path, capsys: Captured) -> None:
    write_shelf(tmp_path, sequence=SEQUENCE.replace("everything ready", "panel.edge.1-4"))
    assert run(["check", "evening.yaml"]) == 0
    assert capsys.readouterr().out == (
        "2 parts, 4 fasteners, 2 steps: nothing found.\nNot there yet: 10 holes.\n"
    )


def test_an_error_ends_with_1_and_stands_at_its_line(tmp_path: Path, capsys: Captured) -> None:
    write_shelf(tmp_path, sequence=TOO_EARLY)
    assert run(["check", "evening.yaml"]) == 1
    text = capsys.readouterr().out
    assert text.startswith(
        "error: layer-missing at evening.yaml:5:5\n    |   - rivet: panel.edge\n    |     ^\n"
    )
    assert text.endswith("2 parts, 14 fasteners, 2 steps: 1 error.\n")


def test_one_line(tmp_path: Path, capsys: Captured) -> None:
    write_shelf(tmp_path, sequence=TOO_EARLY)
    assert run(["check", "evening.yaml", "--one-line"]) == 1
    text = capsys.readouterr().out
    assert text.startswith("evening.yaml:5:5: error layer-missing: ")
    assert text.count("\n") == 1


def test_json(tmp_path: Path, capsys: Captured) -> None:
    write_shelf(tmp_path, sequence=TOO_EARLY)
    assert run(["check", "evening.yaml", "--json"]) == 1
    document = json.loads(capsys.readouterr().out)
    assert (document["format"], document["model"], document["sequence"]) == (1, "shelf.yaml", "evening.yaml")
    assert [(f["kind"], f["at"]["line"], f["at"]["column"]) for f in document["findings"]] == [
        ("layer-missing", 5, 5)
    ]
    assert document["summary"] == {
        "parts": 2,
        "placed": 2,
        "holes": 28,
        "stacks": 14,
        "fasteners": 14,
        "steps": 2,
        "errors": 1,
        "warnings": 0,
        "notes": 0,
        "known": 0,
        "open": {"parts": 0, "holes": 0},
    }


def test_a_settled_error_does_not_count(tmp_path: Path, capsys: Captured) -> None:
    known = "known:\n  - {kind: layer-missing, at: panel.edge, why: it is only a try, sure: yes}\n"
    write_shelf(tmp_path, sequence=TOO_EARLY + known)
    assert run(["check", "evening.yaml"]) == 0
    assert capsys.readouterr().out == (
        "Known, and settled with a reason:\n"
        "  evening.yaml:5:5: layer-missing: it is only a try\n"
        "\n"
        "2 parts, 14 fasteners, 2 steps: nothing found. 1 known.\n"
    )


def test_json_and_one_line_do_not_go_together(capsys: Captured) -> None:
    assert run(["check", "evening.yaml", "--json", "--one-line"]) == 2
    assert capsys.readouterr() == ("", "Take --json or --one-line, not both.\n")


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"a: [1", b"\x00\x01"])
def test_what_is_no_text_or_no_yaml_ends_with_2(tmp_path: Path, capsys: Captured, content: bytes) -> None:
    (tmp_path / "broken.yaml").write_bytes(content)
    assert run(["check", "broken.yaml"]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("broken.yaml:")
    assert told.err.count("\n") == 1


@pytest.mark.parametrize("path", ["nothing.yaml", ".", ""])
def test_no_such_file_ends_with_2(capsys: Captured, path: str) -> None:
    assert run(["check", path]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "This is a mistake in seqviz" not in told.err
    assert told.err.count("\n") == 1


def test_mistakes_of_both_files_come_in_one_run(tmp_path: Path, capsys: Captured) -> None:
    write_shelf(
        tmp_path,
        model=MODEL.replace("thickness: 1.0", "thicknes: 1.0"),
        sequence=SEQUENCE.replace("place:", "plaec:"),
    )
    assert run(["check", "evening.yaml", "--one-line"]) == 1
    places = {line.split(": ")[0] for line in capsys.readouterr().out.splitlines()}
    assert {"shelf.yaml:16:5", "evening.yaml:5:5"} <= places


def near_the_edge(folder: Path, maker: str = "kit") -> None:
    """Put the panel's rivets 5 from its edge."""
    model = MODEL.replace(
        "[20, 10], to: [280, 10], count: 14, size: small}\n  stiffener",
        "[20, 5], to: [280, 5], count: 14, size: small}\n  stiffener",
    )
    assert model != MODEL
    write_shelf(folder, model=model.replace("units: mm", f"units: mm\nmade by: {maker}"))


def test_rules_tells_each_rule_that_a_kit_does_not_keep(tmp_path: Path, capsys: Captured) -> None:
    near_the_edge(tmp_path)
    assert run(["check", "shelf.yaml", "--one-line"]) == 0
    (one,) = capsys.readouterr().out.splitlines()
    assert one.startswith(
        "shelf.yaml:14:7: note edge-distance: The handbooks' rules are not kept at 28 places"
    )
    assert run(["check", "shelf.yaml", "--one-line", "--rules"]) == 0
    # 3.2 / 1.0 is 3.2 times the thickest sheet.
    near, thick = capsys.readouterr().out.splitlines()
    assert near.startswith("shelf.yaml:14:7: warning edge-distance: panel.edge 1-14: down to 5 mm")
    assert thick.startswith(
        "shelf.yaml:21:7: note rivet-for-sheet: stiffener.foot 1-14: a rivet of 3.2 mm is 3.2"
    )


def test_on_ones_own_parts_rules_are_told_without_asking(tmp_path: Path, capsys: Captured) -> None:
    near_the_edge(tmp_path, "me")
    assert run(["check", "shelf.yaml"]) == 0
    assert capsys.readouterr().out.endswith("1 warning, 1 note.\n")
