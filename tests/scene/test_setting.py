"""When each hole is set, in words and as data."""

from __future__ import annotations

import json
from pathlib import Path

from seqviz.build import Build, build
from seqviz.report.stack_document import stacks_as_json
from seqviz.scene.setting import Setting, settings, settings_text
from seqviz.scene.words import words_of_step
from tests.sequence.files import HEAD, ORDER

# A strap of three holes; a rail 9 high stands 8 beside the second and third.
MODEL = """\
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes: {row: {from: [100, 100], to: [200, 100], count: 3, size: SIZE}}
  strap:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [120, 0], [120, 20], [0, 20]]
    holes: {rim: {from: [10, 10], to: [110, 10], count: 3, size: SIZE}}
  rail: {shape: block, length: 100, width: 5, height: 30}
placed:
  strap: {part: strap, match: {rim.1: skin.row.1, rim.3: skin.row.3}}
  rail: {part: rail, at: [130, 108, 2], x along: forward, y along: left}
"""
PULLERS = """\
tools:
  short puller: {for: blind rivet, body: [{cylinder: 20, from: 0, to: 90}], reach: {diameter: 20}}
  long puller: {for: blind rivet, body: [{cylinder: 10, from: 0, to: 90}], reach: {diameter: 10}}
"""
WRENCHES = """\
tools:
  wrench: {for: bolt, body: [{cylinder: 12, from: 0, to: 9}], reach: {diameter: 9}}
"""


def _made(folder: Path, steps: str, size: str, tools: str) -> Build:
    (folder / "model.yaml").write_text(HEAD + MODEL.replace("SIZE", size), encoding="utf-8")
    path = folder / "order.yaml"
    path.write_text(f"{ORDER}bench: trestles\n{tools}steps:\n{steps}", encoding="utf-8")
    return build(str(path))


def test_which_puller_reaches_which_hole_of_a_row(tmp_path: Path) -> None:
    steps = "  - place: [strap, rail]\n  - rivet: strap.rim\n    head: upper\n"
    made = _made(tmp_path, steps, "small", PULLERS)
    told = settings(made.replay)
    # 8 beside the holes: a radius of 10 meets the rail there, one of 5 does not.
    assert [one.tools for _, one in sorted(told.items())] == [
        ("short puller",),
        ("long puller",),
        ("long puller",),
    ]
    assert settings_text(told, 0) == "set in step 2 with the short puller"
    assert settings_text(told, 7) == ""
    assert made.replay is not None
    words = words_of_step(made.model, made.assembly, made.replay, 1)
    assert "With the short puller: strap.rim 1. With the long puller: strap.rim 2-3." in words.lines
    document = json.loads(stacks_as_json("m", made.assembly.stacks, (), told))
    assert document["stacks"][1]["set"] == {
        "step": 2,
        "finger_tight": False,
        "tightened": None,
        "tools": ["long puller"],
    }


def test_one_tool_for_all_is_not_worth_a_word(tmp_path: Path) -> None:
    steps = "  - place: strap\n  - rivet: strap.rim\n    head: upper\n"
    made = _made(tmp_path, steps, "small", PULLERS)
    assert made.replay is not None
    words = words_of_step(made.model, made.assembly, made.replay, 1)
    assert not [line for line in words.lines if "puller" in line]


def test_bolts_put_in_by_hand_and_tightened_later(tmp_path: Path) -> None:
    steps = """\
  - place: strap
  - bolt: strap.rim
    finger tight: yes
  - bolt: strap.rim.1
  - drill out: strap.rim.3
"""
    told = settings(_made(tmp_path, steps, "bolt", WRENCHES).replay)
    assert told == {
        0: Setting(step=2, tightened=3, tools=("wrench", "wrench")),
        1: Setting(step=2, by_hand=True),
    }
    assert settings_text(told, 0) == "put in in step 2, tightened in step 3 with the wrench at both ends"
    assert settings_text(told, 1) == "put in finger tight in step 2"
