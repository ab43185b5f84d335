"""Parts of their own length along a row: where they lie, and what they refuse."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from seqviz.assembly.structure import PlacedPart
from seqviz.build import Build, build

MODEL = """\
format: 1
base: floor
mirror line: y=100
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}, big: {diameter: 4.1}}
parts:
  floor:
    shape: skin
    thickness: 1
    outline: [[0, 0], [400, 0], [400, 200], [0, 200]]
    holes:
      mid: {from: [50, 100], to: [350, 100], count: 4, size: small, 2: big}
      edge: {from: [50, 20], to: [350, 20], count: 4, size: small, both sides: yes}
  angle: {shape: angle, thickness: 1, length: 330, legs: [20, 25], bend radius: 2}
  strap: {shape: plate, thickness: 2, outline: [[5, 5], [335, 5], [335, 35], [5, 35]]}
  drilled:
    shape: angle
    thickness: 1
    length: 330
    legs: [20, 25]
    holes: {mid: {flat: leg 2, at: [[50, 12]], size: small}}
placed:
"""


def placed(folder: Path, entry: str) -> Build:
    """Return the model with this entry, which stands in line 22."""
    (folder / "model.yaml").write_text(f"{MODEL}  it: {{{entry}}}\n", encoding="utf-8")
    return build(str(folder / "model.yaml"))


def it(folder: Path, entry: str, name: str = "it") -> PlacedPart:
    made = placed(folder, entry)
    assert [finding.message for finding in made.noticed] == []
    return made.assembly.placed[name]


def spot(part: PlacedPart, x: float, y: float) -> list[float]:
    """Return where a point of the part's own x and y, z = 0, stands; hundredths of mm."""
    return [round(float(value), 2) + 0.0 for value in part.pose.points(np.array([x, y, 0.0]))]


@pytest.mark.parametrize("leg", ["left", "right"])
def test_an_angle_runs_so_that_its_leg_stands_as_said(tmp_path: Path, leg: str) -> None:
    part = it(tmp_path, f"part: angle, along: floor.mid, standing leg: {leg}, row in: 9")
    # 330 long over a row of 300: 15 at either end; the outer corner is 9 from the row, on the leg's side.
    corners = {"left": [[365, 109, 1], [35, 109, 1]], "right": [[35, 91, 1], [365, 91, 1]]}[leg]
    assert [spot(part, 0, 0), spot(part, 330, 0)] == corners
    assert [(hole.name, hole.diameter) for hole in part.part.holes] == [
        *(("mid.1", 3.3), ("mid.2", 4.1), ("mid.3", 3.3), ("mid.4", 3.3)),
    ]
    assert len(placed(tmp_path, f"part: angle, along: floor.mid, standing leg: {leg}").assembly.stacks) == 12


def test_without_row_in_it_lies_in_the_middle_and_ends_may_be_said(tmp_path: Path) -> None:
    part = it(tmp_path, "part: strap, along: floor.mid, ends: 10")
    # The outline begins at x = 5, hole 1 is 10 from there, over x = 50; y = 20 is its middle.
    assert [spot(part, 5, 20), spot(part, 15, 20)] == [[40, 100, 1], [50, 100, 1]]
    part = it(tmp_path, "part: strap, along: floor.mid, row in: 8")
    assert spot(part, 20, 13) == [50, 100, 1]


def test_another_flat_takes_the_holes(tmp_path: Path) -> None:
    part = it(tmp_path, "part: angle, along: floor.mid, row on: leg 2, row in: 10, standing leg: right")
    assert {hole.flat for hole in part.part.holes} == {"leg 2"}
    # Leg 1 stands up on the right of the row, 10 from it.
    assert spot(part, 0, 0)[1:] == [90, 1]


@pytest.mark.parametrize(("hand", "leg"), [("other hand", "outboard"), ("same part", "inboard")])
def test_both_sides(tmp_path: Path, hand: str, leg: str) -> None:
    words = f"part: angle, along: floor.edge, row in: 9, standing leg: {leg}, both sides: {hand}"
    sign = 1 if leg == "outboard" else -1
    left, right = it(tmp_path, words, "it left"), it(tmp_path, words, "it right")
    assert spot(left, 0, 0)[1:] == [180 + sign * 9, 1]
    assert spot(right, 0, 0)[1:] == [20 - sign * 9, 1]
    assert right.part.mirrored == (hand == "other hand")


def test_some_holes_of_a_row(tmp_path: Path) -> None:
    part = it(tmp_path, "part: strap, along: floor.mid.2-3, ends: 20")
    assert [hole.name for hole in part.part.holes] == ["mid.1", "mid.2"]
    assert spot(part, 25, 20) == [150, 100, 1]


@pytest.mark.parametrize(
    ("entry", "column", "kind", "words"),
    [
        ("part: angle, along: floor.mid, row on: leg 3", 47, "unknown-name", "There is no flat leg 3."),
        (
            "part: drilled, along: floor.mid, row on: leg 2",
            3,
            "bad-value",
            "has holes of its own on leg 2: mid.",
        ),
        ("part: drilled, along: floor.mid", 3, "duplicate-name", "has a row mid already"),
        ("part: angle, along: floor.mid, ends: 60", 3, "bad-value", "Hole 4 of row mid lies off the flat"),
        (
            "part: angle, along: floor.mid, row in: 21",
            3,
            "bad-value",
            "Holes 1-4 of row mid lie off the flat",
        ),
        ("part: angle, along: floor.mid.2", 28, "bad-value", "is not a row `PLACED.ROW`, or a part of it"),
        ("part: angle, along: floor.mid, standing leg: up", 3, "faces-wrong-way", "stands"),
    ],
)
def test_what_it_refuses(tmp_path: Path, entry: str, column: int, kind: str, words: str) -> None:
    (finding,) = placed(tmp_path, entry).noticed
    assert (finding.kind, finding.at.line, finding.at.column) == (kind, 22, column)
    assert words in finding.message
