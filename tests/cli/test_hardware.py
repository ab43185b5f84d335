"""``seqviz stack --hardware`` and ``--why`` on the command line; worked examples through whole files."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from seqviz.cli.program import run
from tests.cli.shelf import write_shelf

Captured = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write_shelf(tmp_path)


def test_the_whole_and_some_steps(capsys: Captured) -> None:
    assert run(["stack", "evening.yaml", "--hardware"]) == 0
    whole = capsys.readouterr().out
    # 10 % of 14 are 1.4, rounded up 2
    assert whole.splitlines()[:4] == [
        "fastener         take      grip  needed  spare  in all",
        "blind rivet 3.2  length 6   1.8      14      2      16".replace("   1.8", "  1.8 "),
        "",
        "14 fasteners.",
    ]
    assert run(["stack", "evening.yaml", "--hardware", "--steps", "1"]) == 0
    assert capsys.readouterr().out.startswith("Steps 1 set no fasteners.\n")
    assert run(["stack", "evening.yaml", "--hardware", "--steps", "1-2", "--spares", "25%"]) == 0
    assert "      14      4      18\n" in capsys.readouterr().out  # 3.5, rounded up


def test_json(capsys: Captured) -> None:
    assert run(["stack", "evening.yaml", "--hardware", "--json", "--spares", "0"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["hardware"] == [
        {
            "kind": "blind rivet",
            "fastener": "blind rivet 3.2",
            "take": "length 6",
            "diameter": 3.2,
            "length": 6.0,
            "grips": [1.8, 1.8],
            "needed": 14,
            "spare": 0,
            "why": "",
        }
    ]
    assert (document["fasteners"], document["unset"], document["steps"]) == (14, 0, None)


def test_the_table_is_written_over_by_itself_and_over_nothing_else(tmp_path: Path, capsys: Captured) -> None:
    ask = ["stack", "evening.yaml", "--hardware", "--csv", "order.csv"]
    assert run(ask) == 0
    assert capsys.readouterr().out == "order.csv\n"
    table = (tmp_path / "order.csv").read_text(encoding="utf-8")
    assert table.splitlines()[1] == "blind rivet,blind rivet 3.2,length 6,3.2,6,1.8,1.8,14,2,16,"
    assert run([*ask, "--spares", "0"]) == 0
    assert ",14,0,14," in (tmp_path / "order.csv").read_text(encoding="utf-8")
    (tmp_path / "order.csv").write_text("mine\n", encoding="utf-8")
    assert run(ask) == 2
    assert (tmp_path / "order.csv").read_text(encoding="utf-8") == "mine\n"
    assert run([*ask, "--force"]) == 0
    assert (tmp_path / "order.csv").read_text(encoding="utf-8") == table
    assert not list(tmp_path.glob(".order*"))


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--steps", "2"], "--steps goes with --hardware"),
        (["--csv", "a.csv"], "--csv goes with --hardware"),
        (["--spares", "5%"], "--spares goes with --hardware"),
        (["--hardware", "--spares", "some"], "--spares some: write a share, as 10% or 0"),
        (["--hardware", "--spares", "-5%"], "--spares -5%: write a share"),
        (["--hardware", "--steps", "3-9"], "--steps 3-9: the sequence has the steps 1 to 2"),
        (["--hardware", "--csv", "a.csv", "--json"], "--csv writes a table"),
        (["--hardware", "--parts"], "--parts and --hardware are two questions"),
        (["--hardware", "stiffener"], "--hardware goes with FILE alone"),
        (["--why", "--json"], "--json tells the reasons anyway"),
        (["--force"], "--out and --force go with"),
    ],
)
def test_what_does_not_go_together(options: list[str], words: str, capsys: Captured) -> None:
    assert run(["stack", "evening.yaml", *options]) == 2
    assert words in capsys.readouterr().err


def test_a_model_has_no_steps(capsys: Captured) -> None:
    assert run(["stack", "shelf.yaml", "--hardware", "--steps", "1"]) == 2
    assert "a model has no steps" in capsys.readouterr().err
    assert run(["stack", "shelf.yaml", "--hardware"]) == 0
    assert "14 fasteners.\nSpares: 10 %" in capsys.readouterr().out


def test_why_stands_under_each_line(capsys: Captured) -> None:
    reason = (
        "The grip of 1.8 mm is within 1.5 to 3.5, the grips of length 6 (ISO 15981:2002, AlA/AlA, heading of "
        "the columns not read)."
    )
    assert run(["stack", "shelf.yaml", "--why"]) == 0
    assert capsys.readouterr().out.splitlines()[1] == f"    {reason}"
    assert run(["stack", "shelf.yaml", "--why", "--holes", "stiffener.foot"]) == 0
    assert capsys.readouterr().out.splitlines()[1::2] == [f"    {reason}"] * 14
    assert run(["stack", "shelf.yaml", "--why", "stiffener", "panel.edge.3"]) == 0
    assert capsys.readouterr().out.count(reason) == 2


# Worked examples through whole files. Sheets in inches, as published; what is not published is computed.
EXAMPLE = """\
format: 1
name: Example
units: in
base: l0
sizes: {{it: {{diameter: 0.2, with: the one}}}}
hardware: {{the one: {{kind: {kind}, diameter: {diameter}{more}}}}}
parts:
{parts}rows:
  row: {{layers: [{layers}], count: 1, size: it}}
"""


def chosen(
    capsys: Captured, kind: str, diameter: str, layers: tuple[str, ...], more: str = ""
) -> dict[str, Any]:
    """Return the choice for one hole, from the JSON of the command."""
    names = [f"l{k}" for k in range(len(layers))]
    parts = "".join(
        f"  {name}: {{shape: sketch, thickness: {thick}}}\n"
        for name, thick in zip(names, layers, strict=True)
    )
    text = EXAMPLE.format(
        kind=kind, diameter=diameter, more=more, parts=parts, layers=", ".join(reversed(names))
    )
    Path("example.yaml").write_text(text, encoding="utf-8")
    run(["stack", "example.yaml", "--json"])
    (stack,) = json.loads(capsys.readouterr().out)["stacks"]
    assert stack["length"] == stack["choice"]["length"]
    choice: dict[str, Any] = stack["choice"]
    return choice


@pytest.mark.parametrize(
    ("diameter", "layers", "more", "number", "sixteenths"),
    [
        ("1/8", (".032", ".064"), "", "4-5", 5.0),  # A1: .2835, answer published (secondary)
        ("3/32", (".040", ".040"), "", "3-4", 4.0),  # A2: .2206, answer published (secondary)
        ("1/8", (".040", ".040"), "", "4-5", 5.0),  # A3: .2675 (computed)
        (
            "1/8",
            (".040", ".040"),
            ", half sizes: yes",
            "4-4.5",
            4.5,
        ),  # A3 in half sizes: AC 43.13-1B, 4-57a(4)
        ("1/8", (".032", ".032", ".040"), "", "4-5", 5.0),  # A4: .2915 (computed)
    ],
)
def test_a1_to_a4_solid_rivets(
    diameter: str, layers: tuple[str, ...], more: str, number: str, sixteenths: float, capsys: Captured
) -> None:
    choice = chosen(capsys, "solid rivet", diameter, layers, more)
    assert (choice["verdict"], choice["number"]) == ("fits", number)
    assert choice["length"] == pytest.approx(sixteenths / 16 * 25.4, abs=1e-4)
    grip = sum(float(layer) for layer in layers)
    across = 0.09375 if diameter == "3/32" else 0.125
    assert choice["wanted"] == pytest.approx((grip + 1.5 * across) * 25.4, abs=1e-4)


def test_a12_blind_rivet_by_number(capsys: Captured) -> None:
    # Army TM 10-5410-221-14/1, table 4-3: 1/8, grip .104 is within .063 to .125 of number 42.
    choice = chosen(capsys, "blind rivet", "1/8", (".064", ".040"))
    assert (choice["verdict"], choice["number"]) == ("fits", "42")
    assert choice["grips"] == [pytest.approx(0.063 * 25.4, abs=1e-4), pytest.approx(0.125 * 25.4, abs=1e-4)]


def test_a13_bolt_washer_and_threads(capsys: Captured) -> None:
    # Stack .188: -5, grip .250, length .656, one washer .063; .656 - .188 - .063 - .250 = .155 x 32 = 4.96.
    choice = chosen(capsys, "bolt", "3/16", (".125", ".063"))
    assert (choice["verdict"], choice["number"]) == ("fits", "AN3-5")
    assert choice["length"] == pytest.approx(0.656 * 25.4, abs=1e-4)
    assert choice["bolt_grip"] == pytest.approx(0.250 * 25.4)
    assert choice["washers"] == [{"name": "AN960-10", "thickness": pytest.approx(1.6002), "under": "nut"}]
    assert (choice["threads_showing"], choice["threads_in_hole"]) == (pytest.approx(4.96), 0.0)


def test_a17_formed_head(capsys: Captured) -> None:
    # 1940s manual: .188 x .063 for 1/8, which is 1.5 D x 0.5 D; MIL-HDBK-5H: at least 1.3 D x 0.3 D.
    head = chosen(capsys, "solid rivet", "1/8", (".032", ".064"))["formed_head"]
    assert head["target"] == {"width": pytest.approx(0.188 * 25.4, abs=0.02), "height": pytest.approx(1.5875)}
    assert head["minimum"] == {"width": pytest.approx(4.1275), "height": pytest.approx(0.9525)}
