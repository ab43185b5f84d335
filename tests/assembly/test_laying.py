"""Stacks of parts without dimensions, and of some that have them already."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.assembly.structure import Assembly
from tests.checks.expect import built

HEAD = """\
format: 1
base: skin
sizes: {small: {diameter: 3.3, with: pull 3.2}, big: {diameter: 4.1, with: blind rivet 4.0}}
hardware:
  pull 3.2: {kind: blind rivet, diameter: 3.2, lengths: {6: [1.5, 3.5], 8: [3.5, 5.0]}}
parts:
  rail: {shape: sketch, thickness: 1.6}
  strip: {shape: sketch, thickness: 0.8}
"""
SKETCHED = HEAD + "  skin: {shape: sketch, thickness: 0.5}\n"
MEASURED = (
    HEAD
    + """\
  skin:
    shape: skin
    thickness: 0.5
    outline: [[0, 0], [300, 0], [300, 120], [0, 120]]
    holes:
      foot: {from: [20, 10], to: [280, 10], count: 5, size: small}
      mid: {from: [20, 60], to: [280, 60], count: 5, size: small}
  plate:
    shape: plate
    thickness: 1
    outline: [[0, 0], [300, 0], [300, 20], [0, 20]]
    holes: {eye: {from: [20, 10], to: [280, 10], count: 5, size: small}}
placed:
  plate: {part: plate, match: {eye.1: skin.mid.1, eye.5: skin.mid.5}}
"""
)


def assembled(folder: Path, model: str) -> Assembly:
    made = built(folder, model)
    assert made.noticed == ()
    return made.assembly


def told(assembly: Assembly) -> list[tuple[str, tuple[str, ...], float, str | None, float | None]]:
    """Return of every stack: first hole, parts, grip, fastener, length."""
    return [(s.holes[0], s.parts, round(s.grip, 6), s.fastener, s.length) for s in assembly.stacks]


def test_layers_grip_and_length_come_from_the_rows(tmp_path: Path) -> None:
    rows = """\
rows:
  foot: {layers: [rail, skin], count: 5, size: small, 2: big, 3: none, 4-5: [strip, rail, skin]}
"""
    # 1.6 + 0.5 = 2.1 lies in 1.5 to 3.5; ISO 15981 has 4 x 6 for 1 to 3; 0.8 + 1.6 + 0.5 = 2.9.
    assert told(assembled(tmp_path, SKETCHED + rows)) == [
        ("rail.foot.1", ("rail", "skin"), 2.1, "pull 3.2", 6.0),
        ("rail.foot.2", ("rail", "skin"), 2.1, "blind rivet 4.0", 6.0),
        ("strip.foot.4", ("strip", "rail", "skin"), 2.9, "pull 3.2", 6.0),
        ("strip.foot.5", ("strip", "rail", "skin"), 2.9, "pull 3.2", 6.0),
    ]


def test_a_stack_from_rows_has_no_place_and_its_layers_touch(tmp_path: Path) -> None:
    assembly = assembled(
        tmp_path, SKETCHED + "rows: {foot: {layers: [rail, strip, skin], count: 1, size: small}}\n"
    )
    (stack,) = assembly.stacks
    assert not stack.located
    assert stack.holes == ("rail.foot.1", "strip.foot.1", "skin.foot.1")
    # From the bench up: 0.5, then 0.8, then 1.6.
    levels = [(layer.part, round(layer.bottom, 6), round(layer.top, 6)) for layer in stack.layers]
    assert levels == [("rail", 1.3, 2.9), ("strip", 0.5, 1.3), ("skin", 0.0, 0.5)]
    assert stack.gaps == (0.0, 0.0)
    assert assembly.unmeasured == ("skin", "rail", "strip")
    assert assembly.contacts == ()


def test_parts_named_in_rows_are_placed_and_an_entry_may_give_more_of_one_kind(tmp_path: Path) -> None:
    more = """\
placed:
  rail: {part: rail, both sides: same part}
rows:
  foot left: {layers: [rail left, skin], count: 2, size: small}
  foot right: {layers: [rail right, strip, skin], count: 2, size: small}
"""
    assembly = assembled(tmp_path, SKETCHED + "mirror line: y=0\n" + more)
    assert list(assembly.placed) == ["skin", "rail left", "rail right", "strip"]
    assert [stack.parts for stack in assembly.stacks] == [
        ("rail left", "skin"),
        ("rail left", "skin"),
        ("rail right", "strip", "skin"),
        ("rail right", "strip", "skin"),
    ]


def test_a_measured_hole_and_a_sketch_become_one_stack(tmp_path: Path) -> None:
    rows = """\
rows:
  foot: {layers: [rail, skin], count: 5, size: small}
  mid: {layers: [rail, plate, skin], count: 5, size: small}
"""
    assembly = assembled(tmp_path, MEASURED + rows)
    assert {(s.parts, round(s.grip, 6), s.located) for s in assembly.stacks} == {
        (("rail", "skin"), 2.1, False),
        (("rail", "plate", "skin"), 3.1, False),
    }
    assert len(assembly.stacks) == 10
    joined = assembly.stacks[assembly.stack_of["rail.mid.2"]]
    assert set(joined.holes) == {"rail.mid.2", "plate.eye.2", "plate.mid.2", "skin.mid.2"}
    # The plate has its place, also at holes that the row calls by another name.
    assert assembly.unmeasured == ("rail",)
    assert assembly.placed["plate"].located


def test_where_all_have_holes_the_geometry_stands(tmp_path: Path) -> None:
    model = MEASURED.replace("holes: {eye:", "holes: {mid:").replace("eye.", "mid.")
    assembly = assembled(tmp_path, model + "rows: {mid: {layers: [plate, skin], count: 5, size: small}}\n")
    stack = assembly.stacks[assembly.stack_of["plate.mid.1"]]
    assert (stack.located, stack.parts) == (True, ("plate", "skin"))
    assert assembly.unmeasured == ()


def test_a_part_with_dimensions_that_hangs_on_nothing_is_told_by_its_rows(tmp_path: Path) -> None:
    model = MEASURED.replace(
        "placed:\n  plate: {part: plate, match: {eye.1: skin.mid.1, eye.5: skin.mid.5}}\n", ""
    )
    assembly = assembled(tmp_path, model + "rows: {mid: {layers: [plate, skin], count: 5, size: small}}\n")
    plate = assembly.placed["plate"]
    assert not plate.located
    assert len(plate.solids) == 0
    # Its own holes keep their names, though nobody knows where they are.
    assert assembly.stacks[assembly.stack_of["plate.eye.3"]].parts == ("plate",)
    assert assembly.stacks[assembly.stack_of["plate.mid.3"]].grip == pytest.approx(1.5)


def test_no_question_of_geometry_sees_a_hole_of_rows(tmp_path: Path) -> None:
    rows = "rows: {clip: {layers: [rail, skin], count: 3, size: small}}\n"
    skin = assembled(tmp_path, MEASURED + rows).placed["skin"]
    assert {hole.row for hole in skin.part.holes} == {"foot", "mid"}
    assert {hole.row for hole in skin.holes} == {"foot", "mid", "clip"}
