"""Structures with rolled skins, as files: where parts lie on a curve, what sits on what, what is found."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from seqviz.build import Build, build
from seqviz.geometry.separation import deepest
from tests.checks.expect import besides_the_kit

HEAD = "format: 1\nname: Trial\nbase: {base}\nsizes: {{small: {{diameter: 3.3, with: blind rivet 3.2}}}}\n"

NOSE = """
stock:
  light angle: {shape: angle, thickness: 0.6, legs: [18, 18], row in: 9, ends: 12}
parts:
  nose skin:
    shape: skin
    thickness: 0.6
    outline: [[0, 0], [900, 0], [900, 500], [0, 500]]
    rolled: {radius: 160, about: [[0, 250], [900, 250]], from: -120, to: 120}
    holes:
      low: {from: [20, 180], to: [880, 180], count: 30, diameter: 3.3}
      high: {from: [20, 300], to: [880, 300], count: 30, diameter: 3.3}
      rim: {along: left edge, in: 10, first: 20, last in: 20, count: 12, diameter: 3.3}
"""


def built(folder: Path, text: str, base: str = "nose skin") -> Build:
    path = folder / "trial.yaml"
    path.write_text(HEAD.format(base=base) + text, encoding="utf-8")
    return build(str(path))


def found(one: Build) -> list[tuple[str, float | None]]:
    return [(finding.kind, finding.figure) for finding in besides_the_kit(one)]


def lap(radius: float, rows: tuple[float, ...]) -> str:
    """Two skins of 90 degrees; the second laps over the first from 25 to 45 degrees.

    Its rows, ``rows`` degrees from the first's middle, lie at 70 degrees less on its own.
    """
    inner, outer = radius + 0.3, radius + 0.6 + 0.4

    def part(name: str, thickness: float, inside: float, middle: float, turned: float) -> str:
        half = math.radians(45) * middle
        text = (
            f"  {name}:\n    shape: skin\n    thickness: {thickness}\n"
            f"    outline: [[0, {-half}], [600, {-half}], [600, {half}], [0, {half}]]\n"
            f"    rolled: {{radius: {inside}, about: [[0, 0], [600, 0]]}}\n    holes:\n"
        )
        for k, degrees in enumerate(rows):
            s = math.radians(degrees - turned) * middle
            text += f"      lap {k}: {{from: [20, {s}], to: [580, {s}], count: 20, size: small}}\n"
        return text

    pairs = ", ".join(f"lap {k}.{n}: first.lap {k}.{n}" for k in range(len(rows)) for n in (1, 20))
    return (
        "parts:\n"
        + part("first", 0.6, radius, inner, 0)
        + part("second", 0.8, radius + 0.6, outer, 70)
        + f"placed:\n  second: {{part: second, match: {{{pairs}}}}}\n"
    )


@pytest.mark.parametrize("rows", [(35.0,), (30.0, 40.0)])
@pytest.mark.parametrize("radius", [40.0, 160.0, 2000.0])
def test_a_skin_laps_over_another(tmp_path: Path, radius: float, rows: tuple[float, ...]) -> None:
    one = built(tmp_path, lap(radius, rows), base="first")
    assert found(one) == []
    first, second = (one.assembly.placed[name] for name in ("first", "second"))
    # Turned by 70 degrees about the common middle line, which is radius + 0.6 below the first's outside.
    turn, middle = math.radians(70), np.array([0, 0, 0.6 - (radius + 0.6)])
    assert np.allclose(
        second.pose.vectors(np.array([0, 0, 1])), [0, math.sin(turn), math.cos(turn)], atol=1e-9
    )
    assert np.allclose(second.pose.points(np.array([0, 0, -(radius + 0.6)])), middle, atol=1e-6)
    # Both facet the same curve: within 0.01 mm each, far from 0.05.
    assert -0.02 < deepest(first.solids, second.solids) < 0.02
    (contact,) = one.assembly.contacts
    assert (contact.upper, contact.lower) == ("second", "first")
    assert contact.area == pytest.approx(600 * math.radians(20) * (radius + 0.6), rel=0.02)
    for stack in one.assembly.stacks:
        assert stack.parts == ("second", "first")
        assert stack.grip == pytest.approx(1.4)
        assert stack.gaps == pytest.approx([0.0], abs=1e-6)


def test_a_skin_of_the_same_radius_does_not_nest(tmp_path: Path) -> None:
    # Laid over the first it stands on its edges: 20 degrees of it are too tight by 0.6 mm.
    text = lap(160, (35.0,)).replace("radius: 160.6", "radius: 150")
    assert [kind for kind, _ in found(built(tmp_path, text, base="first"))] != []


def test_angles_outside_and_inside_a_roll(tmp_path: Path) -> None:
    text = NOSE + (
        "placed:\n"
        "  outside: {stock: light angle, along: nose skin.low}\n"
        "  inside: {stock: light angle, along: nose skin.high, side: lower}\n"
    )
    one = built(tmp_path, text)
    ((kind, gap),) = found(one)
    # Outside the flat leg touches at its holes. Inside it stands on its edge, 9 mm beside them:
    # 160 - sqrt(160^2 - 9^2) = 0.2533, and 0.01 of a facet more at most.
    assert kind == "gap-drawn-shut"
    assert gap is not None
    assert 0.2533 - 0.001 < gap < 0.2533 + 0.011
    placed = one.assembly.placed
    for name, most in (("outside", 0.001), ("inside", 0.001)):
        assert -0.011 < deepest(placed["nose skin"].solids, placed[name].solids) < most
    areas = {contact.upper: contact.gap for contact in one.assembly.contacts}
    assert areas["outside"] == pytest.approx(0.0, abs=0.02)
    assert areas["inside"] == pytest.approx(0.25, abs=0.03)
    turn = 70 / 160.3
    hole = one.assembly.stacks[one.assembly.stack_of["nose skin.low.1"]]
    assert np.allclose(hole.axis, [0, -math.sin(turn), math.cos(turn)])
    assert hole.parts == ("outside", "nose skin")
    assert one.assembly.stacks[one.assembly.stack_of["nose skin.high.1"]].parts == ("nose skin", "inside")


def test_a_wide_leg_inside_wants_another_shape(tmp_path: Path) -> None:
    strip = (
        "  strip:\n    shape: plate\n    thickness: 0.6\n"
        "    outline: [[0, 0], [900, 0], [900, 40], [0, 40]]\n"
    )
    text = NOSE + strip + "placed:\n  strip: {part: strip, along: nose skin.high, side: inside}\n"
    one = built(tmp_path, text)
    ((kind, gap),) = found(one)
    # 160 - sqrt(160^2 - 20^2) = 1.255
    assert kind == "gap-in-stack"
    assert gap == pytest.approx(1.26, abs=0.012)
    (finding,) = besides_the_kit(one)
    assert "nose skin is rolled, and strip touches it beside the holes" in finding.why


def test_a_doubler_rolled_to_fit_lies_flush_on_either_side(tmp_path: Path) -> None:
    def doubler(name: str, radius: float, side: str) -> str:
        return (
            f"  {name}:\n    shape: plate\n    thickness: 0.8\n"
            "    outline: [[0, 0], [900, 0], [900, 40], [0, 40]]\n"
            f"    rolled: {{radius: {radius}, about: [[0, 20], [900, 20]], side: {side}}}\n"
        )

    text = (
        NOSE
        + doubler("on top", 160.6, "inside")
        + doubler("beneath", 159.2, "outside")
        + "placed:\n"
        + "  on top: {part: on top, along: nose skin.low}\n"
        + "  beneath: {part: beneath, along: nose skin.high, side: inside}\n"
    )
    one = built(tmp_path, text)
    assert found(one) == []
    assert {contact.upper for contact in one.assembly.contacts} == {"on top", "beneath"}
    for contact in one.assembly.contacts:
        assert contact.area == pytest.approx(900 * 40, rel=0.02)


def test_an_angle_over_two_lapped_skins(tmp_path: Path) -> None:
    clip = (
        "  clip:\n    shape: angle\n    thickness: 1.0\n    length: 600\n    legs: [16, 16]\n    holes:\n"
        "      foot: {flat: leg 1, from: [20, 9], to: [580, 9], count: 20, size: small}\n"
    )
    text = lap(160, (35.0,)).replace("placed:\n", clip + "placed:\n")
    text += "  clip: {part: clip, match: {foot.1: first.lap 0.1, foot.20: first.lap 0.20}, over: second}\n"
    one = built(tmp_path, text, base="first")
    assert found(one) == []
    assert {stack.parts for stack in one.assembly.stacks} == {("clip", "second", "first")}
    assert {round(stack.grip, 6) for stack in one.assembly.stacks} == {2.4}
    unsaid = built(tmp_path, text.replace(", over: second", ""), base="first")
    assert "say-over-or-under" in [kind for kind, _ in found(unsaid)]


def test_a_part_that_sinks_into_a_roll_is_found(tmp_path: Path) -> None:
    block = "  block: {shape: block, length: 40, width: 40, height: 40}\n"
    text = (
        NOSE
        + block
        + "placed:\n  block: {part: block, at: [300, 230, %s], x along: forward, y along: left}\n"
    )
    # The middle of its underside, y = 250, lies on the crown at z = 0.6.
    assert "parts-interfere" not in [kind for kind, _ in found(built(tmp_path, text % 0.56))]
    assert "parts-interfere" in [kind for kind, _ in found(built(tmp_path, text % 0.53))]


def test_a_tapered_skin_rolled_up_about_a_sloping_line(tmp_path: Path) -> None:
    text = """
stock:
  light angle: {shape: angle, thickness: 0.6, legs: [18, 18], row in: 9, ends: 12}
parts:
  tapered:
    shape: skin
    thickness: 0.6
    outline: [[0, 40], [900, 0], [900, 400], [0, 360]]
    rolled: {radius: 120, about: [[0, 100], [900, 130]], from: -40, to: 90, side: outside}
    openings: {port: {center: [300, 190], diameter: 50}}
    holes:
      row: {from: [60, 112], to: [840, 138], count: 20, size: small}
      rim: {along: left edge, in: 10, first: 20, last in: 20, count: 20, size: small}
placed:
  stringer: {stock: light angle, along: tapered.row, side: lower}
  edge angle: {stock: light angle, along: tapered.rim, side: lower}
"""
    one = built(tmp_path, text, base="tapered")
    # The row runs 10 mm left of the line, the rim on the flat beyond the roll: both straight.
    assert found(one) == []
    placed = one.assembly.placed
    assert all(
        -0.02 < deepest(placed["tapered"].solids, placed[name].solids) < 0.01
        for name in ("stringer", "edge angle")
    )
    assert {round(stack.grip, 6) for stack in one.assembly.stacks} == {1.2}


def test_a_closed_roll_with_an_angle_along_its_seam(tmp_path: Path) -> None:
    text = """
parts:
  tube:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 590], [0, 590]]
    rolled: {radius: 95, about: [[0, 295], [300, 295]], angle: 350}
    holes:
      seam: {from: [20, 20], to: [280, 20], count: 9, size: small}
  rail:
    shape: angle
    thickness: 0.8
    length: 300
    legs: [16, 16]
    holes:
      foot: {flat: leg 1, from: [20, 9], to: [280, 9], count: 9, size: small}
placed:
  rail: {part: rail, match: {foot.1: tube.seam.1, foot.9: tube.seam.9}, side: SIDE}
"""
    for side, kinds in (("upper", []), ("outside", []), ("inside", ["gap-drawn-shut"])):
        one = built(tmp_path, text.replace("SIDE", side), base="tube")
        assert [kind for kind, _ in found(one)] == kinds
        # From y 20 to 295 the middle turns by 275 / 95.4 rad: the seam is below, and so is its outside.
        turn = 275 / 95.4
        assert np.allclose(one.assembly.stacks[0].axis, [0, -math.sin(turn), math.cos(turn)])
        out = one.assembly.placed["rail"].side @ one.assembly.stacks[0].axis
        assert out == pytest.approx(-1 if side == "inside" else 1)


def test_a_trough_has_its_upper_face_inside(tmp_path: Path) -> None:
    text = NOSE.replace("to: 120}", "to: 120, side: outside}") + (
        "placed:\n  upper: {stock: light angle, along: nose skin.low}\n"
    )
    one = built(tmp_path, text)
    ((kind, _),) = found(one)
    assert kind == "gap-drawn-shut"
    turn = 70 / 160.3
    assert np.allclose(one.assembly.placed["upper"].side, [0, math.sin(turn), math.cos(turn)])


def test_layer_1_is_on_the_upper_face_all_round(tmp_path: Path) -> None:
    # Written clockwise the outside is below; rolled towards it, and it stays the lower face everywhere.
    clockwise = "[[0, 500], [900, 500], [900, 0], [0, 0]]"
    text = NOSE.replace("[[0, 0], [900, 0], [900, 500], [0, 500]]", clockwise)
    text = text.replace("to: 120}", "to: 120, side: outside}")
    one = built(tmp_path, text + "placed:\n  angle: {stock: light angle, along: nose skin.low}\n")
    assert found(one) == []
    stack = one.assembly.stacks[one.assembly.stack_of["nose skin.low.1"]]
    turn = 70 / 160.3
    assert np.allclose(stack.axis, [0, -math.sin(turn), math.cos(turn)])
    assert stack.parts == ("angle", "nose skin")


def test_what_strays_by_less_than_a_touch_lifts_nothing(tmp_path: Path) -> None:
    # 9 mm beside the holes a radius of 2000 strays by 81 / 4000 = 0.02 mm.
    text = NOSE.replace("radius: 160", "radius: 2000")
    one = built(
        tmp_path, text + "placed:\n  angle: {stock: light angle, along: nose skin.high, side: inside}\n"
    )
    assert found(one) == []
    stack = one.assembly.stacks[one.assembly.stack_of["nose skin.high.1"]]
    assert stack.gaps == pytest.approx([0.0], abs=1e-9)


BETWEEN = """
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [620, 0], [620, 400], [0, 400]]
    holes:
      left: {from: [20, 340], to: [600, 340], count: 20, size: small}
      right: {from: [20, 60], to: [600, 60], count: 20, size: small}
  cover:
    shape: skin
    thickness: 0.6
    outline: [[0, 0], [620, 0], [620, 640], [0, 640]]
    rolled: {radius: RADIUS, about: [[0, 320], [620, 320]], angle: 180}
    holes:
      left: {from: [20, 630], to: [600, 630], count: 20, size: small}
      right: {from: [20, 10], to: [600, 10], count: 20, size: small}
  angle:
    shape: angle
    thickness: 1.0
    length: 620
    legs: [20, 25]
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [600, 10], count: 20, size: small}
      wall: {flat: leg 2, from: [20, 15], to: [600, 15], count: 20, size: small}
placed:
  angle r: {part: angle, match: {foot.1: floor.right.1, foot.20: floor.right.20}}
  angle l: {part: angle, match: {foot.1: floor.left.20, foot.20: floor.left.1}}
  cover: {part: cover, match: {right.1: angle r.wall.1, right.20: angle r.wall.20, left.1: angle l.wall.20}}
"""


@pytest.mark.parametrize(("radius", "gap"), [(150.0, 0.0), (150.2, 0.2)])
def test_half_round_over_two_walls(tmp_path: Path, radius: float, gap: float) -> None:
    one = built(tmp_path, BETWEEN.replace("RADIUS", str(radius)), base="floor")
    # Outer faces of the walls at y = 50 and 350. Two of the three pairs are on the right: all the same what
    # is too wide is shared out, half on either side.
    cover = one.assembly.placed["cover"]
    crown = cover.pose.points(np.array([0.0, 320.0, 0.6]))
    assert crown[1] == pytest.approx(200, abs=1e-6)
    assert {kind for kind, _ in found(one)} == ({"gap-drawn-shut"} if gap else set())
    walls = [stack for stack in one.assembly.stacks if "cover" in stack.parts]
    assert len(walls) == 40
    assert all(stack.gaps == pytest.approx([gap], abs=1e-6) for stack in walls)


def test_a_cover_too_narrow_for_two_walls_interferes(tmp_path: Path) -> None:
    one = built(tmp_path, BETWEEN.replace("RADIUS", "149.8"), base="floor")
    assert {kind for kind, _ in found(one)} == {"parts-interfere"}


def test_a_rolled_skin_is_riveted_and_goes_in(tmp_path: Path) -> None:
    model = NOSE.replace("30, diameter: 3.3", "30, size: small", 1)
    model += "placed:\n  outside: {stock: light angle, along: nose skin.low}\n"
    (tmp_path / "nose.yaml").write_text(HEAD.format(base="nose skin") + model, encoding="utf-8")
    steps = (
        "format: 1\nmodel: nose.yaml\nup: upper\nsteps:\n"
        "  - place: outside\n    pins: ends and every 4th\n  - rivet: outside.low\n"
    )
    (tmp_path / "steps.yaml").write_text(steps, encoding="utf-8")
    assert found(build(str(tmp_path / "steps.yaml"))) == []
