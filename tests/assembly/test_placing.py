"""Where the holes put a part, and which way it faces: every case worked by hand."""

from pathlib import Path

import numpy as np
import pytest

from seqviz.assembly.gaps import gaps
from seqviz.assembly.interference import interfering
from tests.assembly.trial import FLOOR, RAIL, kinds, placed


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
    left = "      left:  {from: [20, 190], to: [280, 190], count: 3, diameter: 3.3}\n"
    right = "right: {from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}"
    both = "edge: {from: [20, 10], to: [280, 10], count: 3, diameter: 3.3, both sides: yes}"
    assert left in FLOOR
    text = (
        FLOOR.replace(left, "").replace(right, both)
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
    right_rail, left_rail = assembly.placed["rail right"], assembly.placed["rail left"]
    # The part as described has its corner at y = 0, right of its holes: outboard on the right side.
    assert (right_rail.part.mirrored, left_rail.part.mirrored) == (False, True)
    assert np.allclose(right_rail.pose.translation, [0, 0, 0.8], atol=1e-9)
    assert np.allclose(left_rail.pose.translation, [0, 200, 0.8], atol=1e-9)
    # Mirror images about y = 100.
    a, b = right_rail.solids, left_rail.solids
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
