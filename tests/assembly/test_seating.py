"""A kinked stringer on a kinked skin: the faces tell its height, not a tenth of play along it."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from seqviz.build import Build, build
from seqviz.checks.run import run

# Two folds of 5 degrees each, upwards, that begin at x = 400 and x = 800 of the flat pattern.
MODEL = """
format: 1
name: Keel
base: skin
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  skin:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [1200, 0], [1200, 100], [0, 100]]
    rolled:
      - {radius: 10, about: [[400, 100], [400, 0]], from: 0, angle: 5, side: outside}
      - {radius: 10, about: [[800, 100], [800, 0]], from: 0, angle: 5, side: outside}
    holes:
      row: {from: [70, 50], to: [1130, 50], pitch: 20, size: small}
  keel:
    shape: angle
    thickness: 1.0
    length: 1100
    legs: [18, 24]
    kinks: [{at: FIRST, angle: 5, towards: inside}, {at: 750.4, angle: 5, towards: inside}]
    holes:
      foot: {flat: leg 1, from: [20, 9], to: [1080, 9], pitch: 20, size: small}
placed:
  keel: {part: keel, match: {foot.1: skin.row.1, foot.54: skin.row.LAST}}
"""


def built(folder: Path, first: float = 350.4, last: int = 54) -> Build:
    path = folder / "keel.yaml"
    path.write_text(MODEL.replace("FIRST", str(first)).replace("LAST", str(last)), encoding="utf-8")
    return build(str(path))


# The faces meet 0.437 mm beyond x = 400 of the skin: x = 350.4 of the keel. 0.15 mm more or less leans on
# holes that differ by 10 degrees: 0.9 mm of height for the fit of holes alone.
@pytest.mark.parametrize("first", [350.25, 350.4, 350.44, 350.55])
def test_a_tenth_of_play_neither_lifts_nor_sinks_it(tmp_path: Path, first: float) -> None:
    made = built(tmp_path, first)
    assert [finding.kind for finding in run(made)] == []
    stacks = [stack for stack in made.assembly.stacks if len(stack.layers) == 2]
    assert len(stacks) == 54
    gaps = [stack.layers[0].bottom - stack.layers[1].top for stack in stacks]
    assert np.abs(gaps).max() < 0.03


def test_a_kink_in_the_wrong_place_is_off_by_what_it_leans(tmp_path: Path) -> None:
    # 6 mm too far aft of the fold: 6 x tan 5 degrees = 0.52 mm in all, not a lever of it.
    found = run(built(tmp_path, 356.4))
    figures = [finding.figure or 0.0 for finding in found if finding.kind == "parts-interfere"]
    assert len(figures) == 1
    assert 0.15 < figures[0] < 0.53


def test_a_hole_too_far_along_is_told_as_holes_off(tmp_path: Path) -> None:
    # Hole 53 lies 20 mm short of hole 54: 10 mm at each end, not 60 mm of height.
    found = run(built(tmp_path, last=53))
    assert [finding.kind for finding in found] == ["holes-off"]
    assert "misses" in found[0].message


def test_a_row_with_a_hole_in_a_kink_is_told_once(tmp_path: Path) -> None:
    # Hole 17 at x = 340 takes 338.35 to 341.65 of the foot.
    found = run(built(tmp_path, 341.0))
    assert [(finding.kind, finding.message.split(",")[0]) for finding in found] == [
        ("bad-value", "Hole 17 of row foot lies in the kink at 341"),
    ]
