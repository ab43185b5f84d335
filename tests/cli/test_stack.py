from __future__ import annotations

import json
from pathlib import Path

import pytest

from seqviz.cli.program import run
from tests.cli.shelf import MODEL, write_shelf

Captured = pytest.CaptureFixture[str]

# 1.0 + 0.8 = 1.8
WHOLE = (
    "stiffener.foot 1-14: stiffener 1 over panel 0.8, grip 1.8; "
    "blind rivet 3.2 length 6 (grips 1.5 to 3.5); 14 holes\n"
)


@pytest.fixture(autouse=True)
def in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write_shelf(tmp_path)


@pytest.mark.parametrize("file", ["shelf.yaml", "evening.yaml"])
def test_the_summary_of_a_model_or_a_sequence(file: str, capsys: Captured) -> None:
    assert run(["stack", file]) == 0
    assert capsys.readouterr() == (f"{WHOLE}\n14 hole stacks in 1 row. Thicknesses in mm.\n", "")


def test_a_line_a_hole(capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", "--holes"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == 14
    assert lines[2] == (
        "stiffener.foot.3 = panel.edge.3: stiffener 1 over panel 0.8, grip 1.8; "
        "blind rivet 3.2 length 6 (grips 1.5 to 3.5)"
    )


def test_a_part_a_row_and_a_hole(capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", "stiffener", "panel.edge", "panel.edge.3"]) == 0
    # Leg 20 wide less thickness 1.0 and bend radius 1.5 x 1.0: the flat is 17.5 x 300 = 5250 mm2.
    assert capsys.readouterr().out == (
        "stiffener\n"
        "  sits on panel: 5250 mm2\n"
        f"  {WHOLE}"
        "\n"
        f"{WHOLE}"
        "\n"
        "panel.edge.3 (also stiffener.foot.3)\n"
        "  1  stiffener         1  stiffener.foot.3\n"
        "  2  panel           0.8  panel.edge.3\n"
        "  grip 1.8\n"
        "  hole 3.3 (small): blind rivet 3.2 length 6 (grips 1.5 to 3.5)\n"
    )


def test_an_unknown_name_ends_with_2_and_a_guess(capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", "stifener"]) == 2
    assert capsys.readouterr() == (
        "",
        "There is no part, row or hole called stifener that is placed. Did you mean stiffener? "
        "A name with spaces needs quotation marks around it.\n",
    )


def test_json_of_everything_and_of_one_hole(capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", "--json"]) == 0
    whole = json.loads(capsys.readouterr().out)
    assert (len(whole["stacks"]), len(whole["contacts"])) == (14, 1)
    assert run(["stack", "shelf.yaml", "panel.edge.3", "--json"]) == 0
    one = json.loads(capsys.readouterr().out)
    assert one["stacks"] == [whole["stacks"][2]]
    assert one["contacts"] == []
    assert run(["stack", "shelf.yaml", "panel", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == whole


def test_mistakes_on_the_way_are_told_beside_the_stacks(tmp_path: Path, capsys: Captured) -> None:
    head, tail = MODEL.rsplit("[280, 10]", 1)  # the stiffener's row: its last hole is 6 mm too far
    wrong = f"{head}[286, 10]{tail}"
    write_shelf(tmp_path, model=wrong)
    assert run(["stack", "shelf.yaml"]) == 1
    told = capsys.readouterr()
    assert told.err.startswith("1 error found on the way. Not to be relied on: stiffener.")
    assert told.err.endswith(" Look first: seqviz check shelf.yaml\n")


def test_rules_of_the_whole_and_of_a_part(tmp_path: Path, capsys: Captured) -> None:
    # The panel's row is 5 from its edge; the stiffener's rivets are 3.2 times its 1.0.
    near = MODEL.replace("size: small}\n  stiffener", "size: small}  # row\n  stiffener")
    near = near.replace(
        "{from: [20, 10], to: [280, 10], count: 14, size: small}  # row",
        "{from: [20, 5], to: [280, 5], count: 14, size: small}",
    )
    write_shelf(tmp_path, model=near)
    assert run(["stack", "shelf.yaml", "--rules"]) == 0
    told = capsys.readouterr().out
    assert told.startswith("warning: edge-distance at shelf.yaml:13:7\n")
    assert "\n\nnote: rivet-for-sheet at shelf.yaml:20:7\n" in told
    assert told.endswith("\n\n2 rules not kept. On parts of a kit the maker's drawing governs.\n")
    assert run(["stack", "shelf.yaml", "stiffener", "--rules"]) == 0
    told = capsys.readouterr().out
    assert "edge-distance" not in told
    assert told.endswith("\n\n1 rule not kept. On parts of a kit the maker's drawing governs.\n")
    assert run(["stack", "shelf.yaml", "panel.edge.3", "--rules", "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert [finding["kind"] for finding in document["findings"]] == ["edge-distance", "rivet-for-sheet"]


def test_where_every_rule_is_kept_one_line_says_so(tmp_path: Path, capsys: Captured) -> None:
    write_shelf(tmp_path, model=MODEL.replace("thickness: 1.0", "thickness: 1.1"))
    assert run(["stack", "shelf.yaml", "--rules"]) == 0
    assert capsys.readouterr() == ("No rule of edges, pitch, bends and rivets for sheets is broken.\n", "")


@pytest.mark.parametrize("other", ["--parts", "--holes", "--why", "--hardware"])
def test_rules_are_a_question_of_their_own(other: str, capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", "--rules", other]) == 2
    assert f"--rules and {other} are two questions" in capsys.readouterr().err
