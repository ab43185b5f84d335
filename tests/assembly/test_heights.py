"""How high a part lies, by its lay-up: every case worked by hand."""

from pathlib import Path

import numpy as np
import pytest

from seqviz.assembly.gaps import gaps
from seqviz.assembly.interference import interfering
from tests.assembly.trial import FLOOR, RAIL, kinds, placed

STRIP = """
  strip:
    shape: plate
    thickness: 1.5
    outline: [[0, 0], [300, 0], [300, 14], [0, 14]]
    holes:
      row: {from: [20, 7], to: [280, 7], count: 3, diameter: 3.3}
"""
ON_RIGHT = "{{part: {part}, match: {{{row}.1: floor.right.1, {row}.3: floor.right.3}}{more}}}"


@pytest.mark.parametrize("first", ["strip", "rail"])
@pytest.mark.parametrize("said_by", ["strip", "rail"])
def test_a_strip_under_a_rail_whatever_comes_first(tmp_path: Path, first: str, said_by: str) -> None:
    strip = "  strip: " + ON_RIGHT.format(
        part="strip", row="row", more=", under: rail" if said_by == "strip" else ""
    )
    rail = "  rail: " + ON_RIGHT.format(
        part="rail", row="foot", more=", over: strip" if said_by == "rail" else ""
    )
    lines = [strip, rail] if first == "strip" else [rail, strip]
    assembly, findings = placed(tmp_path, FLOOR + RAIL + STRIP + "placed:\n" + "\n".join(lines) + "\n")
    assert findings == []
    # floor 0.8, strip 1.5 on it, rail on the strip: 0.8 + 1.5 = 2.3. Legs are 3 mm clear of the strip's edge
    # at y = 3: the rail's flat begins at its bend tangent, y = 1 + 2 = 3.
    assert assembly.placed["strip"].pose.translation[2] == pytest.approx(0.8)
    assert assembly.placed["rail"].pose.translation[2] == pytest.approx(2.3)
    stack = assembly.stacks[assembly.stack_of["rail.foot.2"]]
    assert stack.parts == ("rail", "strip", "floor")
    assert stack.grip == pytest.approx(1.0 + 1.5 + 0.8)


def test_a_lay_up_that_nobody_said(tmp_path: Path) -> None:
    lines = [
        "  strip: " + ON_RIGHT.format(part="strip", row="row", more=""),
        "  rail: " + ON_RIGHT.format(part="rail", row="foot", more=""),
    ]
    assembly, findings = placed(tmp_path, FLOOR + RAIL + STRIP + "placed:\n" + "\n".join(lines) + "\n")
    assert kinds(findings) == ["say-over-or-under"]
    # Both are matched to the base: the later name in the alphabet carries the finding.
    assert findings[0].parts == ("strip", "rail")
    assert assembly.muted == {"strip"}


CHANNEL = """
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes:
      low: {at: [[20, 30], [280, 30]], diameter: 3.3}
      clip: {at: [[100, 32], [140, 32]], diameter: 2.5}
  low angle:
    shape: angle
    thickness: 1
    length: 300
    legs: [30, 40]
    bend radius: 2
    holes:
      foot: {flat: leg 1, at: [[20, 10], [280, 10]], diameter: 3.3}
      back: {flat: leg 2, at: [[20, 32], [280, 32]], diameter: 3.3}
      clip: {flat: leg 1, at: [[100, 12], [140, 12]], diameter: 2.5}
  high angle:
    shape: angle
    thickness: 1
    length: 300
    legs: [30, 20]
    bend radius: 2
    holes:
      back: {flat: leg 2, at: [[20, 10], [280, 10]], diameter: 3.3}
  clip:
    shape: plate
    thickness: 1.2
    outline: [[0, 0], [60, 0], [60, 14], [0, 14]]
    holes:
      row: {at: [[10, 7], [50, 7]], diameter: 2.5}
placed:
  low angle: {part: low angle, match: {foot.1: floor.low.1, foot.2: floor.low.2}}
  high angle: {part: high angle, match: {back.1: low angle.back.2, back.2: low angle.back.1}, side: inside}
  clip:
    part: clip
    match: {row.1: low angle.clip.1, row.2: low angle.clip.2}
    side: inside
    over: high angle
"""


def test_a_clip_inside_a_channel_like_pair_of_angles(tmp_path: Path) -> None:
    assembly, findings = placed(tmp_path, CHANNEL)
    assert findings == []
    # low angle: corner at y = 20, foot on the floor at 0.8, leg 2 up to 40.8. The high angle hangs inside on
    # leg 2's inner face (y = 21): its holes 10 from its corner lie at 32 + 0.8 = 32.8, so its flange's outer
    # face is at 42.8 and its inner at 41.8: a roof over the foot, from y = 21 to 51.
    high = assembly.placed["high angle"].solids
    assert high.high[:, 2].max() == pytest.approx(42.8)
    assert high.low[:, 1].min() == pytest.approx(21.0)
    # The clip is said to be over the high angle, whose flange overlaps it in plan. Its least height is the
    # foot's inner face, 1.8; there it meets nothing, so it stays inside.
    assert assembly.placed["clip"].pose.translation[2] == pytest.approx(1.8)
    assert interfering(assembly) == ()


def strap(thickness: float, hole_at: float) -> str:
    """Return a rail of 1.0 along y < 20 and a strap across it that is riveted to rail and floor."""
    return (
        FLOOR.replace(
            "cross: {from: [150, 30], to: [150, 170], count: 3,",
            f"cross: {{at: [[150, 10], [150, {hole_at}], [150, 120]],",
        )
        + RAIL.replace("count: 3", "count: 3", 1)
        + f"""
  strap:
    shape: plate
    thickness: {thickness}
    outline: [[0, 0], [20, 0], [20, 130], [0, 130]]
    holes:
      row: {{at: [[10, 5], [10, {hole_at - 5}], [10, 115]], diameter: 3.3}}
placed:
  rail: {{part: rail, match: {{foot.1: floor.right.1, foot.3: floor.right.3}}}}
  strap: {{part: strap, match: {{row.1: floor.cross.1, row.3: floor.cross.3}}, over: rail}}
"""
    )


@pytest.mark.parametrize(
    ("thickness", "hole_at", "shut"),
    [
        (0.8, 40, True),  # 20 mm from the rail's edge at y = 20: 1.0 mm is exactly 1/20 of the way
        (0.8, 39.9, False),  # 19.9 / 20 = 0.995 < 1.0
        (1.6, 40, True),
        (1.7, 40, False),  # thicker than 1.6 does not lie down
    ],
)
def test_a_strap_on_two_heights(tmp_path: Path, thickness: float, hole_at: float, shut: bool) -> None:
    assembly, findings = placed(tmp_path, strap(thickness, hole_at))
    assert findings == []
    # floor 0.8 + rail 1.0 = 1.8; beyond the rail the strap stands 1.0 above the floor.
    assert assembly.placed["strap"].pose.translation[2] == pytest.approx(1.8)
    found = gaps(assembly)
    assert [(g.upper, g.lower, round(g.gap, 6), g.under, g.shut) for g in found] == [
        ("strap", "floor", 1.0, "rail", shut)
    ] * 2
    assert found[0].run == pytest.approx(hole_at - 20)
    # The gap adds nothing to the grip.
    assert assembly.stacks[found[0].stack].grip == pytest.approx(thickness + 0.8)
    assert interfering(assembly) == ()


def test_a_part_under_the_base(tmp_path: Path) -> None:
    entry = "{part: rail, match: {foot.1: floor.right.1, foot.3: floor.right.3}, side: lower}"
    text = FLOOR + RAIL + f"placed:\n  rail: {entry}\n"
    assembly, findings = placed(tmp_path, text)
    assert findings == []
    rail = assembly.placed["rail"]
    # Its foot's outside lies against the floor's lower face, z = 0; the leg hangs down 25.
    assert rail.solids.high[:, 2].max() == pytest.approx(0.0)
    assert rail.solids.low[:, 2].min() == pytest.approx(-25.0)
    assert np.allclose(rail.side, [0, 0, -1])
    stack = assembly.stacks[assembly.stack_of["rail.foot.1"]]
    assert stack.parts == ("floor", "rail")  # layer 1 is the one farthest out on the upper side


def over_the_edge(row_in: int) -> str:
    """Return a rail with its foot's inside on the floor, its other leg down past the edge at y = 200.

    Its corner is at y = 190 + row_in, its leg's inner face 1 mm inside of that, and its foot is flat from
    3 mm (thickness and bend radius) inside of the corner: 13 mm brings the bend's end to the sheet's edge.
    """
    rail = RAIL.replace("from: [20, 10], to: [280, 10]", f"from: [20, {row_in}], to: [280, {row_in}]")
    entry = "  rail: {part: rail, match: {foot.1: floor.left.1, foot.3: floor.left.3}, face: inside}\n"
    return FLOOR + rail + "placed:\n" + entry


def test_a_second_leg_that_covers_the_sheets_edge(tmp_path: Path) -> None:
    clear, findings = placed(tmp_path, over_the_edge(13))
    assert findings == []
    assert interfering(clear) == ()
    # The leg is no lying flat: it never lifts the part. It cuts the sheet, and that is said.
    deep, findings = placed(tmp_path, over_the_edge(9))
    assert findings == []
    height = clear.placed["rail"].pose.translation[2]
    assert deep.placed["rail"].pose.translation[2] == pytest.approx(height) == pytest.approx(1.8)
    assert [pair[:2] for pair in interfering(deep)] == [("floor", "rail")]
