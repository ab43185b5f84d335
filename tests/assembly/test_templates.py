"""A template lies on the structure and is no part of it: no layer, no contact, nothing to be said of it."""

from __future__ import annotations

from pathlib import Path

from seqviz.build import Build, build
from seqviz.checks.run import run

MODEL = """\
format: 1
name: trial
units: mm
base: skin
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [100, 0], [100, 60], [0, 60]]
    holes: {row: {from: [20, 30], to: [80, 30], count: 3, size: small}}
  strap:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [80, 0], [80, 20], [0, 20]]
    holes: {rim: {from: [10, 10], to: [70, 10], count: 3, size: small, punched: no}}
  jig:
    shape: plate
    tool: yes
    thickness: 4.0
    outline: [[0, 0], [80, 0], [80, 40], [0, 40]]
    holes: {lead: {from: [10, 20], to: [70, 20], count: 3, size: small}}
placed:
  strap: {part: strap, match: {rim.1: skin.row.1, rim.3: skin.row.3}}
  jig: {part: jig, match: {lead.1: strap.rim.1, lead.3: strap.rim.3}}
"""
STEPS = """\
format: 1
model: model.yaml
up: upper
bench: trestles
finished: yes
tools:
  puller: {for: blind rivet, body: [{cylinder: 20, from: 0, to: 90}], reach: {diameter: 50, length: 200}}
steps:
"""


def _build(folder: Path, *steps: str) -> Build:
    (folder / "model.yaml").write_text(MODEL, encoding="utf-8")
    path = folder / "order.yaml"
    path.write_text(STEPS + "".join(f"  - {step}\n" for step in steps), encoding="utf-8")
    return build(str(path))


def test_a_template_is_no_layer_and_no_contact(tmp_path: Path) -> None:
    made = _build(tmp_path, "place: strap", "drill: strap.rim", "rivet: strap.rim")
    assert [stack.parts for stack in made.assembly.stacks] == [("strap", "skin")] * 3
    assert {(c.upper, c.lower) for c in made.assembly.contacts} == {("strap", "skin")}
    # It lies on the strap all the same: the strap's upper face is at z = 2.
    assert made.assembly.placed["jig"].pose.translation[2] == 2.0
    # It need not be placed, and nothing is undrilled.
    assert [(f.kind, f.message) for f in run(made)] == []


def test_the_drill_is_led_by_a_template_that_comes_off_again(tmp_path: Path) -> None:
    steps = ("place: [strap, jig]", "drill: strap.rim\n    through: jig.lead", "take off: jig")
    made = _build(tmp_path, *steps, "rivet: everything ready")
    assert made.replay is not None
    assert [state.drilled for state in made.replay.states] == [(), (0, 1, 2), (), ()]
    assert made.replay.drilled == dict.fromkeys(range(3), frozenset({"strap", "skin"}))
    assert made.replay.states[2].taken_off == ("jig",)
    assert [(f.kind, f.message) for f in run(made)] == []


def test_a_template_still_there_is_in_the_way_of_the_tool(tmp_path: Path) -> None:
    made = _build(tmp_path, "place: [strap, jig]", "drill: jig.lead", "rivet: strap.rim.1\n    head: upper")
    assert made.replay is not None
    # A template's own holes are in no stack: the drill step names none, and the strap has no hole yet.
    assert [(e.step, e.parts) for e in made.replay.not_drilled] == [(3, ("strap",))]
    led = _build(
        tmp_path,
        "place: [strap, jig]",
        "drill: strap.rim\n    through: jig.lead",
        "rivet: strap.rim.1\n    head: upper",
    )
    assert led.replay is not None
    assert [(e.step, e.cause, e.blockers) for e in led.replay.tool_stopped] == [(3, "parts", ("jig",))]
