"""Worked examples of handbooks that a builder meets in a model: through files, stacks and checks."""

from pathlib import Path

import numpy as np
import pytest

from seqviz.checks.run import run
from seqviz.findings import Finding
from seqviz.trade.tables import INCH
from tests.checks.expect import built

CLIP = """\
format: 1
name: A clip
units: in
made by: me
base: sheet
forward: +x
sizes:
  usual: {{diameter: No. 30, with: solid rivet 1/8}}
parts:
  sheet:
    shape: skin
    thickness: 0.032
    outline: [[0, 0], [6, 0], [6, 3], [0, 3]]
    holes:
      mid: {{from: [1, 1.5], to: [5, 1.5], pitch: 0.5, size: usual}}
  clip:
    shape: angle
    thickness: 0.032
    material: {material}
    length: 5
    legs: [1, 1]
    bend radius: {radius}
    holes:
      foot: {{flat: leg 1, from: [0.5, 0.5], to: [4.5, 0.5], pitch: 0.5, size: usual}}
placed:
  clip: {{part: clip, match: {{foot.1: sheet.mid.1, foot.9: sheet.mid.9}}}}
"""

STRIP = """\
format: 1
name: A row across a strip
units: in
made by: me
base: under
forward: +x
sizes:
  usual: {{diameter: No. 30, with: solid rivet 1/8}}
parts:
  under:
    shape: skin
    thickness: 0.040
    outline: [[0, 0], [4, 0], [4, 1], [0, 1]]
    holes:
      row: {{from: [0.375, 0.5], to: [3.625, 0.5], count: {count}, size: usual}}
  over:
    shape: skin
    thickness: 0.040
    outline: [[0, 0], [4, 0], [4, 1], [0, 1]]
    holes:
      row: {{from: [0.375, 0.5], to: [3.625, 0.5], count: {count}, size: usual}}
placed:
  over: {{part: over, match: {{row.1: under.row.1, row.{count}: under.row.{count}}}}}
"""


def about(folder: Path, model: str, kind: str) -> list[Finding]:
    return [finding for finding in run(built(folder, model)) if finding.kind == kind]


@pytest.mark.parametrize(
    ("material", "tight", "least"),
    # FAA AC 43.13-1B, table 4-6, column .032: 2024-T3 2 t to 4 t, 6061-T6 0.5 t to 1.5 t
    [("2024-T3", 0.060, 0.064), ("6061-T6", 0.015, 0.016)],
)
def test_a5_a_bend_below_the_table_is_told_and_one_on_it_passes(
    tmp_path: Path, material: str, tight: float, least: float
) -> None:
    (found,) = about(tmp_path, CLIP.format(material=material, radius=tight), "bend-radius")
    assert found.figure == pytest.approx((least - tight) * INCH)
    assert f"{least:.3f} in is asked" in found.message
    assert "FAA AC 43.13-1B, table 4-6, column 0.032" in found.why
    assert about(tmp_path, CLIP.format(material=material, radius=least), "bend-radius") == []


def test_a16_the_row_of_seven_stands_where_the_exercise_puts_it(tmp_path: Path) -> None:
    """4 in wide, rivets 1/8, 3 D to the edge: span 3.25, seven rivets 3.25 / 6 = .5417 apart."""
    build = built(tmp_path, STRIP.format(count=7))
    across = np.array([stack.point[0] for stack in build.assembly.stacks]) / INCH
    assert sorted(across) == pytest.approx([0.375, 0.9167, 1.4583, 2.0, 2.5417, 3.0833, 3.625], abs=0.0005)
    assert about(tmp_path, STRIP.format(count=7), "edge-distance") == []
    assert about(tmp_path, STRIP.format(count=7), "hole-pitch") == []


@pytest.mark.parametrize(
    ("count", "told"),
    # 3.25 / 8 = .406, 3.25 D; 3.25 / 9 = .361, 2.89 D: less than the least of 3 D
    [(9, False), (10, True)],
)
def test_a16_as_many_as_the_least_pitch_lets_in(tmp_path: Path, count: int, told: bool) -> None:
    assert bool(about(tmp_path, STRIP.format(count=count), "hole-pitch")) == told
