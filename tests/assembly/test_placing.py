"""Where parts come to lie: every case worked by hand."""

from pathlib import Path

import numpy as np
import pytest

from seqviz.assembly.gaps import gaps
from seqviz.assembly.interference import interfering
from tests.assembly.trial import kinds, placed

FLOOR = """
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes:
      left:  {from: [20, 190], to: [280, 190], count: 3, diameter: 3.3}
      right: {from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}
      cross: {from: [150, 30], to: [150, 170], count: 3, diameter: 3.3}
      trio:  {at: [[40, 60], [80, 60], [40, 90]], diameter: 3.3}
"""

RAIL = """
  rail:
    shape: angle
    thickness: 1.0
    length: 300
    legs: [20, 25]
    bend radius: 2
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}
"""


def test_a_rail_on_the_floor(tmp_path: Path) -> None:
    text = (
        FLOOR
        + RAIL
        + "placed:\n  rail: {part: rail, match: {foot.1: floor.right.1, foot.3: floor.right.3}}\n"
    )
    assembly, findings = placed(tmp_path, text)
    assert findings == []
    rail = assembly.placed["rail"]
    # foot.1 (20, 10) lies on right.1 (20, 10): the frames agree, the foot lies on the floor's top at 0.8.
    assert np.allclose(rail.pose.rotation, np.eye(3), atol=1e-9)
    assert np.allclose(rail.pose.translation, [0.0, 0.0, 0.8], atol=1e-9)
    assert rail.free
    assert rail.depth == 1


def web_and_angle(lift: float) -> str:
    """Return a web that stands on the floor, and an angle in the corner between the two.

    The web is an angle of 2 mm with its foot on the floor: outer corner at y = 40, its standing leg's outside
    faces -y. The angle lies outside of it: foot on the floor at y < 40, leg 2 against the web.
    """
    return f"""
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes:
      web:  {{from: [20, 50], to: [280, 50], count: 3, diameter: 3.3}}
      clip: {{from: [120, 25], to: [160, 25], count: 2, diameter: 3.3}}
  web:
    shape: angle
    thickness: 2
    length: 300
    legs: [30, 60]
    bend radius: 0
    holes:
      foot: {{flat: leg 1, from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}}
      clip: {{flat: leg 2, from: [120, {20 + lift}], to: [160, {20 + lift}], count: 2, diameter: 3.3}}
  clip:
    shape: angle
    thickness: 1
    length: 60
    legs: [25, 35]
    bend radius: 2
    holes:
      foot: {{flat: leg 1, from: [10, 15], to: [50, 15], count: 2, diameter: 3.3}}
      side: {{flat: leg 2, from: [10, 20], to: [50, 20], count: 2, diameter: 3.3}}
placed:
  web: {{part: web, match: {{foot.1: floor.web.1, foot.3: floor.web.3}}}}
  clip:
    part: clip
    match: {{foot.1: floor.clip.2, foot.2: floor.clip.1, side.1: web.clip.2, side.2: web.clip.1}}
"""


@pytest.mark.parametrize(("lift", "gap"), [(0.0, None), (0.3, 0.3)])
def test_an_angle_on_floor_and_web(tmp_path: Path, lift: float, gap: float | None) -> None:
    assembly, findings = placed(tmp_path, web_and_angle(lift))
    assert findings == []
    clip = assembly.placed["clip"]
    # Holes on two flats hold it: nothing is free, so no contact moves it. The clip's outer corner lies where
    # the floor's top (z = 0.8) meets the web's outside (y = 40); its x runs aft (it was turned about z), so
    # its y runs to the right and its foot.1 (10, 15) lies at x = 160, y = 40 - 15 = 25.
    assert not clip.free
    assert np.allclose(clip.pose.rotation, np.diag([-1.0, -1.0, 1.0]), atol=1e-9)
    assert np.allclose(clip.pose.translation, [170.0, 40.0, 0.8 + lift], atol=1e-9)
    assert clip.depth == 2
    assert interfering(assembly) == ()
    # A web row 0.3 mm high lifts the clip: its foot stands 0.3 mm off the floor, at both holes of the foot.
    assert [round(g.gap, 6) for g in gaps(assembly)] == ([] if gap is None else [gap, gap])
    assert all(g.shut for g in gaps(assembly))


def test_two_holes_in_line_fit_with_both_faces(tmp_path: Path) -> None:
    strip = """
  strip:
    shape: plate
    thickness: 1
    outline: [[0, 0], [300, 0], [300, 14], [0, 14]]
    holes:
      row: {from: [20, 5], to: [280, 5], count: 3, diameter: 3.3}
placed:
  as drawn: {part: strip, match: {row.1: floor.right.1, row.3: floor.right.3}}
  turned:   {part: strip, match: {row.1: floor.left.1, row.3: floor.left.3}, face: outside}
"""
    assembly, findings = placed(tmp_path, FLOOR + strip)
    assert findings == []
    # As drawn: y up the sheet, so the strip reaches from y = 10 - 5 = 5 to 19. Its bottom lies at 0.8.
    drawn = assembly.placed["as drawn"].solids
    assert np.allclose([drawn.low.min(axis=0), drawn.high.max(axis=0)], [[0, 5, 0.8], [300, 19, 1.8]])
    # Outside down: turned about x, so y runs the other way: from 190 + 5 = 195 down to 195 - 14 = 181.
    turned = assembly.placed["turned"].solids
    assert np.allclose([turned.low.min(axis=0), turned.high.max(axis=0)], [[0, 181, 0.8], [300, 195, 1.8]])


GUSSET = """
  gusset:
    shape: plate
    thickness: 1
    outline: [[0, 0], [60, 0], [60, 50], [0, 50]]
    holes:
      trio: {{at: [[10, 10], [50, 10], [{third}, 40]], diameter: 3.3}}
placed:
  gusset: {{part: gusset, match: {{trio.1: floor.trio.1, trio.2: floor.trio.2, trio.3: floor.trio.3}}{face}}}
"""


@pytest.mark.parametrize(
    ("third", "face", "expected"),
    [
        (10, "", []),
        # With its outside down the pattern is a mirror image: only the face as drawn fits.
        (10, ", face: outside", ["faces-wrong-way"]),
        # A third hole 2 mm off fits with neither face.
        (12, "", ["holes-off"]),
    ],
)
def test_three_holes_tell_the_face(tmp_path: Path, third: int, face: str, expected: list[str]) -> None:
    assembly, findings = placed(tmp_path, FLOOR + GUSSET.format(third=third, face=face))
    assert kinds(findings) == expected
    assert assembly.muted == (frozenset({"gusset"}) if expected else frozenset())
    if expected == ["holes-off"]:
        # The entry's `match` stands in line 25, behind `  gusset: {part: gusset, `.
        assert (findings[0].at.line, findings[0].at.column) == (25, 26)


def test_a_mirrored_pair(tmp_path: Path) -> None:
    text = (
        FLOOR.replace("right:", "edge:")
        .replace(
            "count: 3, diameter: 3.3}\n      cross",
            "count: 3, diameter: 3.3, both sides: yes}\n      cross",
            1,
        )
        .replace("      left:  {from: [20, 190], to: [280, 190], count: 3, diameter: 3.3}\n", "")
        + RAIL
        + """
placed:
  rail:
    part: rail
    match: {foot.1: floor.edge.1, foot.3: floor.edge.3}
    standing leg: outboard
    both sides: other hand
"""
    )
    assembly, findings = placed(tmp_path, text)
    assert findings == []
    right, left = assembly.placed["rail right"], assembly.placed["rail left"]
    # The part as described has its corner at y = 0, right of its holes: outboard on the right side.
    assert (right.part.mirrored, left.part.mirrored) == (False, True)
    assert np.allclose(right.pose.translation, [0, 0, 0.8], atol=1e-9)
    assert np.allclose(left.pose.translation, [0, 200, 0.8], atol=1e-9)
    # Mirror images about y = 100.
    a, b = right.solids, left.solids
    assert np.allclose(a.low.min(axis=0), [0, 0, 0.8])
    assert np.allclose(b.low.min(axis=0), [0, 180, 0.8])
    assert np.allclose(b.high.max(axis=0), [300, 200, 25.8])


def test_a_leg_that_stands_elsewhere(tmp_path: Path) -> None:
    text = (
        FLOOR
        + RAIL
        + """
placed:
  rail:
    part: rail
    match: {foot.1: floor.right.1, foot.3: floor.right.3}
    standing leg: inboard
"""
    )
    assembly, findings = placed(tmp_path, text)
    assert kinds(findings) == ["faces-wrong-way"]
    assert "stands right of its rivets" in findings[0].message
    assert assembly.muted == {"rail"}


STRIP = "  strip: {shape: plate, thickness: 1.5, outline: [[0, 0], [300, 0], [300, 14], [0, 14]], holes: {row: {from: [20, 7], to: [280, 7], count: 3, diameter: 3.3}}}\n"
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


def test_a_clip_inside_a_channel_like_pair_of_angles(tmp_path: Path) -> None:
    text = """
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
  clip: {part: clip, match: {row.1: low angle.clip.1, row.2: low angle.clip.2}, side: inside, over: high angle}
"""
    assembly, findings = placed(tmp_path, text)
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
    text = (
        FLOOR
        + RAIL
        + "placed:\n  rail: {part: rail, match: {foot.1: floor.right.1, foot.3: floor.right.3}, side: lower}\n"
    )
    assembly, findings = placed(tmp_path, text)
    assert findings == []
    rail = assembly.placed["rail"]
    # Its foot's outside lies against the floor's lower face, z = 0; the leg hangs down 25.
    assert rail.solids.high[:, 2].max() == pytest.approx(0.0)
    assert rail.solids.low[:, 2].min() == pytest.approx(-25.0)
    assert np.allclose(rail.side, [0, 0, -1])
    stack = assembly.stacks[assembly.stack_of["rail.foot.1"]]
    assert stack.parts == ("floor", "rail")  # layer 1 is the one farthest out on the upper side


def test_a_face_that_slopes_by_7_degrees(tmp_path: Path) -> None:
    text = (
        FLOOR
        + """
  sloping rail:
    shape: angle
    thickness: 1.0
    length: 300
    legs: [20, 40]
    bend radius: 2
    angle: 83
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}
      side: {flat: leg 2, from: [20, 25], to: [280, 25], count: 3, diameter: 3.3}
  panel:
    shape: plate
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 60], [0, 60]]
    holes:
      low: {from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}
placed:
  sloping rail: {part: sloping rail, match: {foot.1: floor.right.1, foot.3: floor.right.3}}
  panel: {part: panel, match: {low.1: sloping rail.side.1, low.3: sloping rail.side.3}}
"""
    )
    assembly, findings = placed(tmp_path, text)
    assert findings == []
    lean = np.radians(7.0)
    # Leg 2 rises from the corner (y 0, z 0.8) along (-sin 7, cos 7); its outside faces (-cos 7, -sin 7).
    outward = np.array([0.0, -np.cos(lean), -np.sin(lean)])
    panel = assembly.placed["panel"]
    assert np.allclose(panel.side, outward, atol=1e-9)
    levels = (panel.solids.vertices.reshape(-1, 3) - [0, 0, 0.8]) @ outward
    assert levels.min() == pytest.approx(0.0, abs=1e-9)  # flush on the leg
    assert levels.max() == pytest.approx(0.8, abs=1e-9)
    stack = assembly.stacks[assembly.stack_of["panel.low.2"]]
    assert stack.parts == ("panel", "sloping rail")  # no layer is nearer the base's upper side: outside first
    assert interfering(assembly) == ()


def over_the_edge(row_in: int) -> str:
    """Return a rail that lies with its foot's inside on the floor, its other leg down past the edge at y = 200.

    Its corner is at y = 190 + row_in, its leg's inner face 1 mm inside of that, and its foot is flat from 3 mm
    (thickness and bend radius) inside of the corner: 13 mm brings the bend's end just to the sheet's edge.
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
