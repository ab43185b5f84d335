"""Volume, surface and flat size of frames, lips, and long parts that are kinked, joggled, cut and notched."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, pi, radians, sin, sqrt, tan
from pathlib import Path

import numpy as np
import pytest
from scipy.special import ellipe

from seqviz.parts.flat_pattern import flat_pattern
from tests.parts.measured import Case, Holes, Slack, bend_slack, check, lost, opening_slack, part_of


@pytest.mark.parametrize("side", ["inside", "outside"])
@pytest.mark.parametrize("angle", [90, 85, 110])
def test_a_frame_with_two_flanges_is_a_channel(tmp_path: Path, side: str, angle: float) -> None:
    # Blank = 60 + 18 + 15 - 2 x 2.0 - 2 tan(A / 2) x 2.0 + (pi / 2 + A) x 1.6: radius 1.2 and 0.8 thick.
    turn = radians(angle)
    blank = 93 - 4 - 4 * tan(turn / 2) + (pi / 2 + turn) * 1.6
    sheet = 160 * blank - 144 * pi
    case = Case(
        text=f"""
shape: frame
thickness: 0.8
outline: [[0, 0], [160, 0], [160, 60], [0, 60]]
flanges:
  right: {{width: 18, side: {side}}}
  left:  {{width: 15, side: {side}, angle: {angle}}}
openings: {{pass: {{center: [45, 31], diameter: 24}}}}
holes:
  foot: {{flat: flange right, from: [20, 9], to: [140, 9], count: 5, size: small}}
  clip: {{flat: web, at: [[100, 14], [100, 34]], diameter: 5}}
""",
        volume=sheet * 0.8,
        area=2 * sheet + 0.8 * (320 + 2 * blank + 24 * pi),
        size=(160, blank),
        sheet=sheet,
        holes=(
            Holes(count=5, diameter=3.3, thickness=0.8),
            Holes(count=2, diameter=5.0, thickness=0.8),
        ),
        slack=bend_slack(90, 0.8, 1.2, 160) + bend_slack(angle, 0.8, 1.2, 160) + opening_slack(24, 0.8),
    )
    check(part_of(tmp_path, case.text), case)


def test_a_frame_flanged_all_round(tmp_path: Path) -> None:
    # Radius 2, 1 thick: setback 3, also the relief at square corners. The web keeps 94 x 54; along its sides
    # stand pi / 2 x 2.5 of bend and 12 of flange, their ends square.
    leaf = pi / 2 * 2.5 + 12
    sheet = 94 * 54 + 2 * (94 + 54) * leaf
    case = Case(
        text="""
shape: frame
thickness: 1.0
bend radius: 2
outline: [[0, 0], [100, 0], [100, 60], [0, 60]]
flanges: {right: {width: 15}, left: {width: 15}, 2: {width: 15}, 4: {width: 15}}
""",
        volume=sheet,
        area=2 * sheet + 2 * (94 + 54) + 8 * leaf,
        size=(94 + 2 * leaf, 54 + 2 * leaf),
        sheet=sheet,
        slack=sum((bend_slack(90, 1.0, 2.0, length) for length in (94, 94, 54, 54)), start=Slack()),
    )
    check(part_of(tmp_path, case.text), case)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """A lip of 1 mm bent inside to 2, from the web's edge to its rim; by Pappus all is 2 pi x arm x section.

    Arms are from the opening's middle; the middle of the bend lies ``edge`` from it.
    """

    opening: float
    height: float
    turn: float

    @property
    def edge(self) -> float:
        return self.opening / 2 + 3 * tan(self.turn / 2)

    @property
    def wall(self) -> float:
        return self.height - 3 * tan(self.turn / 2)

    @property
    def volume(self) -> float:
        # A sector from 2 to 3: its middle of area lies 4 / 3 sin(A / 2) / A (27 - 8) / (9 - 4) from its own.
        away = 4 / 3 * sin(self.turn / 2) / self.turn * 19 / 5
        bend = self.turn / 2 * 5 * (self.edge - away * sin(self.turn / 2))
        return 2 * pi * (bend + self.wall * self.arm(2.5, self.wall / 2))

    @property
    def area(self) -> float:
        # An arc lies on average (1 - cos A) / A of its radius nearer than its middle.
        bends = sum(
            radius * self.turn * (self.edge - radius * (1 - cos(self.turn)) / self.turn) for radius in (2, 3)
        )
        walls = sum(self.wall * self.arm(radius, self.wall / 2) for radius in (2, 3))
        return 2 * pi * (bends + walls + self.arm(2.5, self.wall))

    def arm(self, radius: float, along: float) -> float:
        """Return the arm of a point of the wall: ``along`` from the bend, in the sheet as ``radius`` says."""
        return self.edge - radius * sin(self.turn) - along * cos(self.turn)

    @property
    def slack(self) -> Slack:
        # Facets round the opening are counted on the web's edge, those of the bend on its outer radius. The
        # chords of the bend lie 0.01 farther out from the middle of the opening than their arcs at most.
        round_it, across = lost(self.edge), lost(3.0)
        arcs = self.turn * (2 + 3)
        return Slack(
            less_volume=self.volume * round_it[0] + 2 * pi * self.edge * self.turn / 2 * 9 * across[0],
            less_area=self.area * round_it[1] + 2 * pi * self.edge * arcs * across[1],
            more_area=2 * pi * 0.01 * arcs,
        ) + Slack(
            more_volume=pi * self.edge**2 * round_it[0],
            more_area=2 * pi * self.edge**2 * round_it[0],
        )


@pytest.mark.parametrize("side", ["inside", "outside"])
@pytest.mark.parametrize("angle", [90, 45, 100])
def test_a_lip(tmp_path: Path, angle: float, side: str) -> None:
    lip = Turned(opening=30, height=7, turn=radians(angle))
    # The sheet before it is formed reaches in from the web's edge by the arc and the wall.
    blank = lip.edge - lip.turn * 2.5 - lip.wall
    # With the flange it is as wide as 60 + 15 - 2 x 3 + pi / 2 x 2.5.
    wide = 69 + pi / 2 * 2.5
    flanged = 100 * wide - pi * lip.edge**2
    case = Case(
        text=f"""
shape: frame
thickness: 1.0
bend radius: 2
outline: [[0, 0], [100, 0], [100, 60], [0, 60]]
flanges: {{right: {{width: 15}}}}
openings: {{pass: {{center: [50, 30], diameter: 30, lip: {{height: 7, side: {side}, angle: {angle}}}}}}}
""",
        volume=flanged + lip.volume,
        area=2 * flanged + 2 * (100 + wide) + lip.area,
        size=(100, wide),
        sheet=100 * wide - pi * blank**2,
        slack=lip.slack + bend_slack(90, 1.0, 2.0, 100),
    )
    part = part_of(tmp_path, case.text)
    check(part, case)
    pattern = flat_pattern(part)
    assert pattern is not None
    (hole,) = pattern.openings
    assert np.linalg.norm(hole - [50, 30], axis=1) == pytest.approx(blank)


ANGLE = "shape: angle\nthickness: 1.0\nlegs: [20, 28]\nbend radius: 1.5\n"
SETBACK, ARC = 2.5, pi / 2 * 2
BLANK = 48 - 2 * SETBACK + ARC
"""Legs of 17.5 and 25.5, and the arc in the middle of the sheet between them."""


def test_a_joggle_keeps_the_volume(tmp_path: Path) -> None:
    # All of a ramp is sheared by k = 3 / 12 square to leg 1: what stands square to that shear gets longer by
    # sqrt(1 + k2), what lies along it stays, and a bend does both: the integral of sqrt(1 + k2 cos2 a) da
    # from 0 to pi / 2 is the complete elliptic integral of -k2.
    k = 3 / 12
    longer = 12 * (sqrt(1 + k**2) - 1)
    bend = 12 * (1.5 + 2.5) * (float(ellipe(-(k**2))) - pi / 2)
    case = Case(
        text=f"""{ANGLE}length: 240
joggles: [{{at: start, length: 24, depth: 3, run: 12, flat: leg 1, towards: inside}}]
holes: {{foot: {{flat: leg 1, from: [50, 11], to: [170, 11], count: 5, size: small}}}}
""",
        volume=240 * BLANK,
        # Both faces of leg 1, and the free edge of leg 2.
        area=480 * BLANK + 2 * (240 + BLANK) + longer * (2 * 17.5 + 1) + bend,
        size=(240, BLANK),
        sheet=240 * BLANK,
        holes=(Holes(count=5, diameter=3.3, thickness=1.0),),
        slack=bend_slack(90, 1.0, 1.5, 240),
    )
    check(part_of(tmp_path, case.text), case)


@pytest.mark.parametrize(("towards", "sign"), [("inside", -1), ("outside", 1)])
def test_a_kink_shortens_its_hollow_side(tmp_path: Path, towards: str, sign: float) -> None:
    # A fibre h above the middle of leg 1 loses 2 tan(12 / 2) h where it lies on the hollow side.
    lost_there = sign * 2 * tan(radians(6))
    # Moments about the middle of leg 1, z = 0.5: of the section leg 2 from 2.5 to 28, and the bend, whose
    # middle of area lies 4 / 3 sin(45) / (pi / 2) (2.5^3 - 1.5^3) / (2.5^2 - 1.5^2) from its own at z = 2.5.
    away = 4 / 3 * sin(pi / 4) / (pi / 2) * (2.5**3 - 1.5**3) / 4
    section = 25.5 * (2.5 + 12.75 - 0.5) + ARC * (2.5 - away * sin(pi / 4) - 0.5)
    # Of the way round it: both faces of leg 2 and its edge, and two arcs, on average 2 / pi of their radius
    # below their middle.
    way = 2 * 25.5 * (2.5 + 12.75 - 0.5) + 1 * (28 - 0.5)
    way += sum(pi / 2 * radius * (2.5 - radius * 2 / pi - 0.5) for radius in (1.5, 2.5))
    case = Case(
        text=f"""{ANGLE}length: 240
kinks: [{{at: 190, angle: 12, flat: leg 1, towards: {towards}}}]
holes: {{end: {{flat: leg 1, from: [205, 11], to: [230, 11], count: 2, size: small}}}}
""",
        volume=240 * BLANK + lost_there * section,
        area=480 * BLANK + 2 * (240 + BLANK) + lost_there * way,
        size=(240, BLANK),
        sheet=240 * BLANK,
        holes=(Holes(count=2, diameter=3.3, thickness=1.0),),
        # Outside, the fibres of the bend get up to 2 tan 6 x 2 = 0.4 longer.
        slack=bend_slack(90, 1.0, 1.5, 240.5),
    )
    check(part_of(tmp_path, case.text), case)


def test_cut_ends_a_tab_and_notches(tmp_path: Path) -> None:
    # Cut by 35 degrees over the 17.5 of leg 1; a corner of 14 x 12; by 40 degrees over the 25.5 of leg 2; a
    # tab of 18 x 10; a notch of 22 x 13; a window of 18 through the bend, to 8 and 12 from the outer corner.
    one, two = tan(radians(35)), tan(radians(40))
    window = 8 - SETBACK + 12 - SETBACK + ARC
    gone = 17.5**2 * one / 2 + 14 * 12 / 2 + 25.5**2 * two / 2 + 22 * 13 + 18 * window
    sheet = 160 * BLANK + 18 * 10 - gone
    around = 2 * (160 + BLANK) + 2 * 18 + 2 * 13 + 2 * (18 + window)
    around += hypot(14, 12) - 14 - 12
    # The slope for the end and what it takes of the free edge.
    around += 17.5 * (1 / cos(radians(35)) - 1 - one) + 25.5 * (1 / cos(radians(40)) - 1 - two)
    case = Case(
        text=f"""{ANGLE}length: 160
cut ends: {{start: {{leg 1: 35, leg 2: [14, 12]}}, end: {{leg 2: 40}}}}
end tabs: {{end: {{flat: leg 1, length: 18, width: 10}}}}
notches:
  - {{flat: leg 2, from: 44, to: 66, depth: 13}}
  - {{flats: [leg 1, leg 2], at: 95, width: 18, depth: [8, 12]}}
holes:
  foot: {{flat: leg 1, from: [20, 12], to: [140, 12], count: 5, size: small}}
""",
        volume=sheet,
        area=2 * sheet + around,
        size=(160 + 18, BLANK),
        sheet=sheet,
        holes=(Holes(count=5, diameter=3.3, thickness=1.0),),
        # The bend is there over 160 - 18, and at the window's two ends.
        slack=bend_slack(90, 1.0, 1.5, 160 - 18) + Slack(less_area=2 * ARC * lost(2.5)[0]),
    )
    check(part_of(tmp_path, case.text), case)
