"""The order of work on parts without dimensions: the whole ledger, and no question of room."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.checks.expect import SEQUENCE, STEPS, built, found_as_marked

MODEL = """\
format: 1
base: skin
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  skin: {shape: sketch, thickness: 0.8}
  rail: {shape: sketch, thickness: 1.6}
  strip: {shape: sketch, thickness: 0.8}
rows:
  foot: {layers: [rail, skin], count: 9, size: small, 5-7: [rail, strip, skin]}
"""
MIXED = MODEL.replace(
    "  skin: {shape: sketch, thickness: 0.8}\n",
    """\
  skin:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 100], [0, 100]]
    holes: {foot: {from: [20, 50], to: [180, 50], count: 9, size: small}}
""",
)
"""The skin has its dimensions, and its holes a place."""

LEDGERS = (
    """
  - place: [strip, rail]
    pins: ends and every 4th
  - rivet: everything ready
""",
    """
  - place: rail
  - rivet: rail.foot.6  # expect: layer-missing
  - place: strip
  - rivet: rail.foot
""",
    """
  - place: rail
    pins: [rail.foot.5]
  - place: strip  # expect: pin-in-the-way
  - rivet: rail.foot
""",
    """
  - place: rail
  - leave open: strip.foot
    for: strip
  - rivet: rail.foot.5  # expect: fills-left-open
  - place: strip
  - rivet: rail.foot
""",
    """
  - place: [strip, rail]
  - leave open: rail.foot.9  # expect: left-open-forever
    for: the cable
  - rivet: everything ready
""",
    # From below: nobody knows whether a tool gets there, so nobody says that it does not.
    """
  - place: [strip, rail]
    pins: all
  - turn over: sideways
  - rivet: everything ready
    head: upper
""",
)


@pytest.mark.parametrize("model", [MODEL, MIXED], ids=["sketches", "mixed"])
@pytest.mark.parametrize("steps", LEDGERS)
def test_the_ledger(tmp_path: Path, model: str, steps: str) -> None:
    found_as_marked(tmp_path, model, SEQUENCE + steps)


def test_what_is_forgotten(tmp_path: Path) -> None:
    model = MODEL.replace("  strip: {", "  strip: {").replace(
        "thickness: 0.8}\nrows", "thickness: 0.8}  # expect: part-unplaced\nrows"
    )
    model = model.replace("skin]}\n", "skin]}  # expect: never-set\n")
    findings = found_as_marked(tmp_path, model, SEQUENCE + "  - place: rail\n  - rivet: rail.foot.1-4\n")
    assert {finding.kind: finding.holes for finding in findings} == {
        "part-unplaced": (),
        "never-set": ("rail.foot.8", "rail.foot.9"),
    }


def test_pins_and_rivets_are_counted_along_the_row(tmp_path: Path) -> None:
    steps = "  - place: [strip, rail]\n    pins: ends and every 4th\n  - rivet: everything ready\n"
    made = built(tmp_path, MODEL, STEPS + steps)
    assert made.replay is not None
    pinned, riveted = made.replay.states
    # Rail holes 1, 5, 9; of the strip's own, 5 to 7, the ends.
    assert sorted(made.assembly.stacks[k].holes[0] for k in pinned.pinned) == [
        "rail.foot.1",
        "rail.foot.5",
        "rail.foot.7",
        "rail.foot.9",
    ]
    assert len(riveted.filled) == 9
    assert set(riveted.head_sides.values()) == {1}


TOWER = "  tower: {shape: block, length: 20, width: 20, height: 300}\n"
TOWER_PLACED = "  tower: {part: tower, at: [90, 70, 0.8], x along: forward, y along: left}\n"
RAIL = """\
  rail:
    shape: plate
    thickness: 1.6
    outline: [[0, 0], [180, 0], [180, 20], [0, 20]]
    holes: {foot: {from: [10, 10], to: [170, 10], count: 9, size: small}}
"""
WIDE = SEQUENCE.replace("{cylinder: 10, from: 0, to: 20}", "{cylinder: 60, from: 0, to: 20}")
"""A tool of 30 about its axis; the tower stands 20 beside the holes."""


def test_no_tool_is_asked_for_a_hole_without_a_place(tmp_path: Path) -> None:
    steps = "  - place: [tower, strip, rail]\n  - rivet: everything ready\n"
    # A second tower where a stack would stand if its place were taken for the origin.
    towers = (
        "placed:\n" + TOWER_PLACED + TOWER_PLACED.replace("tower:", "post:").replace("[90, 70,", "[5, -10,")
    )
    model = MIXED.replace("rows:", TOWER + towers + "rows:")
    steps = steps.replace("[tower,", "[tower, post,")
    assert found_as_marked(tmp_path, model, WIDE + steps) == []


def test_once_all_have_dimensions_the_tool_is_asked_for(tmp_path: Path) -> None:
    # The tower closes the upper side, so they could be set from below only.
    steps = "  - place: [tower, rail]\n  - rivet: everything ready  # expect: wrong-side-up\n"
    parts, _, _ = MIXED.partition("  rail: {")
    placed = "placed:\n" + TOWER_PLACED
    placed += "  rail: {part: rail, match: {foot.1: skin.foot.1, foot.9: skin.foot.9}}\n"
    rows = "rows:\n  foot: {layers: [rail, skin], count: 9, size: small}\n"
    found_as_marked(tmp_path, parts + RAIL + TOWER + placed + rows, WIDE + steps)


def test_forward_of_wants_places(tmp_path: Path) -> None:
    steps = (
        "  - place: [strip, rail]\n  - rivet: everything ready\n    forward of: rail  # expect: bad-value\n"
    )
    (finding,) = found_as_marked(tmp_path, MODEL, STEPS + steps)
    assert finding.message == "Nothing is known to be forward of rail: it has no dimensions yet."


def test_what_has_no_place_is_not_forward_of_anything(tmp_path: Path) -> None:
    made = built(
        tmp_path, MODEL, STEPS + "  - place: [strip, rail]\n  - rivet: rail.foot\n    forward of: x=-1\n"
    )
    assert made.replay is not None
    assert made.replay.states[1].filled == ()
