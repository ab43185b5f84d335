"""Whole files: joggled, kinked and notched parts where they are meant to lie, and without that work."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from seqviz.build import Build, build
from tests.checks.expect import besides_the_kit

HEAD = """
format: 1
name: Worked
base: floor
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
"""

LAP = """
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [400, 0], [400, 100], [0, 100]]
    holes:
      row: {from: [20, 50], to: [380, 50], count: 19, size: small}
      edge: {from: [380, 20], to: [380, 80], count: 3, size: small}
  strip:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [20, 0], [20, 80], [0, 80]]
    holes:
      row: {from: [10, 10], to: [10, 70], count: 3, size: small}
  rail:
    shape: angle
    thickness: 1.0
    length: 380
    legs: [20, 20]
    WORK
    holes:
      foot: {flat: leg 1, from: [10, 10], to: [370, 10], count: 19, size: small}
placed:
  strip: {part: strip, match: {row.1: floor.edge.1, row.3: floor.edge.3}}
  rail: {part: rail, match: {foot.1: floor.row.1, foot.18: floor.row.18}, over: strip}
"""

JOGGLE = "joggles: [{at: end, length: 22, depth: 1.0, run: 6, towards: inside}]"


def built(tmp_path: Path, text: str, work: str) -> Build:
    path = tmp_path / "m.yaml"
    path.write_text(HEAD + text.replace("WORK", work or "made by: kit"), encoding="utf-8")
    return build(str(path))


def kinds(made: Build) -> list[str]:
    return sorted(finding.kind for finding in besides_the_kit(made))


@pytest.mark.parametrize("other_way", [False, True])
def test_a_joggled_end_lies_over_a_strip(tmp_path: Path, other_way: bool) -> None:
    made = built(tmp_path, LAP, JOGGLE.replace("inside", "outside") if other_way else JOGGLE)
    if other_way:
        # It dips 1 mm into the skin instead.
        assert "parts-interfere" in kinds(made)
        return
    assert kinds(made) == []
    stack = next(one for one in made.assembly.stacks if "rail.foot.19" in one.holes)
    assert [layer.part for layer in stack.layers] == ["rail", "strip", "floor"]
    assert [round(layer.top - layer.bottom, 6) for layer in stack.layers] == [1.0, 1.0, 0.8]
    # The rail itself lies on the skin, its joggled end on the strip.
    assert {(one.upper, one.lower) for one in made.assembly.contacts} == {
        ("rail", "floor"),
        ("rail", "strip"),
        ("strip", "floor"),
    }


def test_without_the_joggle_the_rail_stands_off(tmp_path: Path) -> None:
    assert kinds(built(tmp_path, LAP, "")) == ["gap-in-stack"]


KINKED = """
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 60], [0, 60]]
    holes:
      row: {from: [10, 30], to: [190, 30], count: 10, size: small}
  slope:
    shape: plate
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 60], [0, 60]]
    holes:
      row: {from: [10, 30], to: [190, 30], count: 10, size: small}
  rail:
    shape: angle
    thickness: 1.0
    length: 400
    legs: [20, 20]
    WORK
    holes:
      foot: {flat: leg 1, from: [10, 10], to: [390, 10], count: 20, size: small}
placed:
  rail: {part: rail, match: {foot.1: floor.row.1, foot.10: floor.row.10}}
  slope: {part: slope, face: outside, match: {row.1: rail.foot.11, row.10: rail.foot.20}}
"""


@pytest.mark.parametrize("degrees", [1, 6, 20])
def test_a_kinked_angle_joins_two_flat_skins_that_meet_at_an_angle(tmp_path: Path, degrees: int) -> None:
    made = built(tmp_path, KINKED, f"kinks: [{{at: 200, angle: {degrees}, towards: inside}}]")
    assert kinds(made) == []
    assert sum(len(stack.layers) == 2 for stack in made.assembly.stacks) == 20
    normals = [made.assembly.placed[name].pose.rotation[:, 2] for name in ("floor", "slope")]
    assert np.degrees(np.arccos(abs(normals[0] @ normals[1]))) == pytest.approx(degrees, abs=1e-4)
    assert {(one.upper, one.lower) for one in made.assembly.contacts} == {
        ("rail", "floor"),
        ("slope", "rail"),
    }


def test_a_kinked_angle_matched_on_both_skins_is_held_by_its_holes(tmp_path: Path) -> None:
    far = "    holes:\n      far: {from: [10, 5], to: [190, 5], count: 10, size: small}\n"
    text = KINKED.replace("    holes:\n      row:", f"{far}      row:").replace(
        "placed:",
        "placed:\n  second: {part: rail, match: {foot.1: floor.far.1, foot.10: floor.far.10, "
        "foot.11: slope.far.1, foot.20: slope.far.10}}",
    )
    made = built(tmp_path, text, "kinks: [{at: 200, angle: 6, towards: inside}]")
    assert kinds(made) == []
    assert sum(len(stack.layers) == 2 for stack in made.assembly.stacks) == 40
    assert made.assembly.placed["rail"].free
    assert not made.assembly.placed["second"].free
    # It stands beside the first, 25 mm to the right.
    poses = [made.assembly.placed[name].pose.translation for name in ("rail", "second")]
    assert poses[1] - poses[0] == pytest.approx([0, -25, 0], abs=1e-6)


CROSSING = """
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [400, 0], [400, 400], [0, 400]]
    holes:
      row: {from: [20, 200], to: [380, 200], count: 19, size: small, skip: [9, 10]}
      cross: {from: [195, 20], to: [195, 380], count: 2, size: small}
  stringer:
    shape: channel
    thickness: 0.8
    length: 380
    flanges: [12, 12]
    web: 18
    holes:
      foot: {flat: flange 1, from: [10, 7], to: [370, 7], count: 2, size: small}
  rib:
    shape: zed
    thickness: 1.0
    length: 380
    flanges: [18, 18]
    web: 50
    WORK
    holes:
      foot: {flat: flange 1, from: [10, 10], to: [370, 10], count: 19, size: small, skip: [9, 10]}
placed:
  stringer: {part: stringer, match: {foot.1: floor.cross.1, foot.2: floor.cross.2}}
  rib: {part: rib, match: {foot.1: floor.row.1, foot.19: floor.row.19}}
"""

# The stringer takes x = 190 to 202 of the skin, 180 to 192 of the rib, and is 18 high.
THROUGH = "{flats: [flange 1, web], from: 176, to: 196, depth: [18, DEEP]}"


@pytest.mark.parametrize(
    ("work", "expected"),
    [
        (f"notches: [{THROUGH.replace('DEEP', '20')}]", []),
        # 17.9 of 18: the stringer's upper flange goes 0.1 into the web.
        (f"notches: [{THROUGH.replace('DEEP', '17.9')}]", ["parts-interfere"]),
        # 17.95 of 18 is 0.05: that counts as touching.
        (f"notches: [{THROUGH.replace('DEEP', '17.95')}]", []),
        ("notches: [{flat: flange 1, from: 176, to: 196}]", ["parts-interfere"]),
    ],
)
def test_a_notch_clears_a_crossing_stringer(tmp_path: Path, work: str, expected: list[str]) -> None:
    assert kinds(built(tmp_path, CROSSING, work)) == expected
