"""A kit with the spacing that light sheet usually has is not nagged about: no warning, in either unit."""

from pathlib import Path

import pytest

from seqviz.checks.run import run
from seqviz.findings import Finding
from tests.checks.expect import built

SHEETS_IN_MM = """\
format: 1
name: Two sheets of a kit
units: mm
base: lower sheet
forward: +x
sizes:
  usual: {diameter: 3.3, with: blind rivet 3.2}
parts:
  lower sheet:
    shape: skin
    thickness: 0.64
    material: 6061-T6
    outline: [[0, 0], [420, 0], [420, 120], [0, 120]]
    holes:
      seam: {from: [10, 60], to: [410, 60], pitch: 40, size: usual}
  upper sheet:
    shape: skin
    thickness: 0.64
    material: 6061-T6
    outline: [[0, 0], [420, 0], [420, 20], [0, 20]]
    holes:
      seam: {from: [10, 10], to: [410, 10], pitch: 40, size: usual}
placed:
  upper sheet: {part: upper sheet, match: {seam.1: lower sheet.seam.1, seam.11: lower sheet.seam.11}}
"""
"""40 mm pitch, 3.2 mm rivets, two sheets of 0.64: grip 1.28, 12.5 D apart, 10 mm (3.1 D) to the edge."""

SHEETS_IN_INCHES = """\
format: 1
name: Two sheets of a kit
units: in
base: lower sheet
forward: +x
sizes:
  usual: {diameter: No. 30, with: blind rivet 1/8}
parts:
  lower sheet:
    shape: skin
    thickness: 0.025
    material: 6061-T6
    outline: [[0, 0], [16.5, 0], [16.5, 4.5], [0, 4.5]]
    holes:
      seam: {from: [0.5, 2.25], to: [16, 2.25], pitch: 1.55, size: usual}
  upper sheet:
    shape: skin
    thickness: 0.025
    material: 6061-T6
    outline: [[0, 0], [16.5, 0], [16.5, 0.8], [0, 0.8]]
    holes:
      seam: {from: [0.5, 0.4], to: [16, 0.4], pitch: 1.55, size: usual}
placed:
  upper sheet: {part: upper sheet, match: {seam.1: lower sheet.seam.1, seam.11: lower sheet.seam.11}}
"""
"""The same in inches: .025 sheets, 1/8 rivets in No. 30 holes 1.55 apart (39.4 mm), .4 to the edge."""

ANGLE_IN_MM = """\
format: 1
name: A sheet and an angle of a kit
units: mm
base: sheet
forward: +x
sizes:
  usual: {diameter: 3.3, with: blind rivet 3.2}
parts:
  sheet:
    shape: skin
    thickness: 0.64
    material: 6061-T6
    outline: [[0, 0], [420, 0], [420, 120], [0, 120]]
    holes:
      edge: {along: left edge, in: 10, first: 10, last in: 10, pitch: 40, size: usual}
  angle:
    shape: angle
    thickness: 0.64
    material: 6061-T6
    length: 420
    legs: [20, 20]
    bend radius: 2
    holes:
      foot: {flat: leg 1, from: [10, 10], to: [410, 10], pitch: 40, size: usual}
placed:
  angle: {part: angle, match: {foot.1: sheet.edge.1, foot.11: sheet.edge.11}, standing leg: right}
"""
"""Angles 20 mm wide: 10 mm to the edge, and 10 - 0.64 - 2 = 7.36 mm (2.3 D) to the bend."""

ANGLE_IN_INCHES = """\
format: 1
name: A sheet and an angle of a kit
units: in
base: sheet
forward: +x
sizes:
  usual: {diameter: No. 30, with: solid rivet 1/8}
parts:
  sheet:
    shape: skin
    thickness: 0.025
    material: 2024-T3
    outline: [[0, 0], [16, 0], [16, 5], [0, 5]]
    holes:
      edge: {along: left edge, in: 0.4, first: 0.5, last in: 0.5, pitch: 1.5, size: usual}
  angle:
    shape: angle
    thickness: 0.025
    material: 2024-T3
    length: 16
    legs: [0.8, 0.8]
    bend radius: 3/32
    holes:
      foot: {flat: leg 1, from: [0.5, 0.4], to: [15.5, 0.4], pitch: 1.5, size: usual}
placed:
  angle: {part: angle, match: {foot.1: sheet.edge.1, foot.11: sheet.edge.11}, standing leg: right}
"""
"""Solid rivets 1/8 with 1.5 in between them (12 D); 2024-T3 of .025 bent to 3/32, 3.75 t."""

KITS = {
    "sheets, mm": SHEETS_IN_MM,
    "sheets, in": SHEETS_IN_INCHES,
    "angle, mm": ANGLE_IN_MM,
    "angle, in": ANGLE_IN_INCHES,
}
RULES = {"edge-distance", "hole-pitch", "rivet-for-sheet", "bend-radius"}


def found(folder: Path, model: str, *, rules: bool = False) -> list[Finding]:
    return list(run(built(folder, model), rules=rules))


@pytest.mark.parametrize("model", KITS.values(), ids=KITS)
def test_a_kit_of_light_sheet_raises_no_warning(tmp_path: Path, model: str) -> None:
    findings = found(tmp_path, model)
    assert [f.message for f in findings if f.severity != "note"] == []
    # What the handbooks say otherwise is one note about the kit at most.
    assert len([f for f in findings if f.kind in RULES]) <= 1


@pytest.mark.parametrize("model", KITS.values(), ids=KITS)
def test_each_of_its_seams_joins_what_it_should(tmp_path: Path, model: str) -> None:
    stacks = built(tmp_path, model).assembly.stacks
    assert len(stacks) == 11
    assert all(len(stack.layers) == 2 for stack in stacks)
    # 2 x 0.64 mm, or 2 x .025 in = 1.27 mm
    assert all(stack.grip == pytest.approx(1.28, abs=0.011) for stack in stacks)


@pytest.mark.parametrize("model", KITS.values(), ids=KITS)
def test_all_rules_asked_for_are_notes_on_wide_rows_only(tmp_path: Path, model: str) -> None:
    """40 mm are 12.5 D of 3.2 and 1.5 in 12 D: more than the handbooks know, and no more than a note."""
    findings = found(tmp_path, model, rules=True)
    assert {f.kind for f in findings if f.severity != "note"} == set()
    assert "hole-pitch" in {f.kind for f in findings}


@pytest.mark.parametrize("model", KITS.values(), ids=KITS)
def test_the_same_made_by_oneself_has_no_warning_either(tmp_path: Path, model: str) -> None:
    own = model.replace("format: 1\n", "format: 1\nmade by: me\n")
    assert [f.message for f in found(tmp_path, own) if f.severity != "note"] == []


def test_it_would_be_told_were_it_wrong(tmp_path: Path) -> None:
    """The seam 5 mm from the edge, and made by oneself: 2 x 3.2 = 6.4 are asked."""
    near = SHEETS_IN_MM.replace("[420, 20], [0, 20]", "[420, 15], [0, 15]")
    own = near.replace("format: 1\n", "format: 1\nmade by: me\n")
    assert [f.kind for f in found(tmp_path, own) if f.severity == "warning"] == ["edge-distance"]
    assert [f.severity for f in found(tmp_path, near) if f.kind == "edge-distance"] == ["note"]
