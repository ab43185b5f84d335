"""Volume, surface and flat size of the plain shapes, from text to mesh, against closed formulas.

Of sheet with its neutral axis in the middle: volume = sheet x T, surface = 2 x sheet + T x the way round it,
where ``sheet`` is the area of the flat pattern. Bending changes neither: of a bend of A radians the outside
is A (R + T), the inside A R, twice the middle A (R + T/2) together. What is off is what facets take away.
"""

from __future__ import annotations

import math
from math import hypot, pi, radians, tan
from pathlib import Path

import pytest

from tests.parts.measured import Case, Holes, Slack, bend_slack, check, lost, opening_slack, part_of
from tests.parts.surfaces import BENT, pulled, written

SHEETS = {
    # 200 x 120 without a circle of 50 and 40 x 30.
    "skin with openings": Case(
        text="""
shape: skin
thickness: 0.8
outline: [[0, 0], [200, 0], [200, 120], [0, 120]]
openings:
  port: {center: [60, 60], diameter: 50}
  slot: {outline: [[120, 40], [160, 40], [160, 70], [120, 70]]}
holes: {row: {from: [20, 10], to: [180, 10], count: 5, size: small}}
""",
        sheet=24000 - pi / 4 * 2500 - 1200,
        volume=(24000 - pi / 4 * 2500 - 1200) * 0.8,
        area=2 * (24000 - pi / 4 * 2500 - 1200) + 0.8 * (640 + 50 * pi + 140),
        size=(200, 120),
        holes=(Holes(count=5, diameter=3.3, thickness=0.8),),
        slack=opening_slack(50, 0.8),
    ),
    # A trapeze: (80 + 140) / 2 x 300.
    "skin tapered": Case(
        text="""
shape: skin
thickness: 0.6
outline: [[0, 0], [300, 0], [300, 80], [0, 140]]
holes: {row: {at: [[20, 20], [280, 60]], diameter: 4.1}}
""",
        sheet=33000,
        volume=33000 * 0.6,
        area=2 * 33000 + 0.6 * (300 + 80 + hypot(300, 60) + 140),
        size=(300, 140),
        holes=(Holes(count=2, diameter=4.1, thickness=0.6),),
    ),
    # 200 x 120 without two corners of 30 x 60.
    "skin by its half outline": Case(
        text="""
shape: skin
thickness: 1.0
half outline: [[0, 60], [30, 0], [200, 0], [200, 60]]
mirror line: y=60
""",
        sheet=24000 - 1800,
        volume=22200,
        area=2 * 22200 + 2 * hypot(30, 60) + 2 * 170 + 120,
        size=(200, 120),
    ),
    # The arc, 100 degrees x 30.3 = 52.9, leaves 37.1 of the 120 flat beyond it.
    "skin rolled": Case(
        text="""
shape: skin
thickness: 0.6
outline: [[0, 0], [160, 0], [160, 120], [0, 120]]
rolled: {radius: 30, about: [[0, 30], [160, 30]], from: 0, angle: 100, side: outside}
holes: {row: {at: [[20, 10], [80, 10], [20, 110]], size: small}}
""",
        sheet=160 * 120,
        volume=160 * 120 * 0.6,
        area=2 * 160 * 120 + 0.6 * 2 * (160 + 120),
        size=(160, 120),
        holes=(Holes(count=3, diameter=3.3, thickness=0.6),),
        slack=bend_slack(100, 0.6, 30, 160),
    ),
    # A trapeze 160 and 100 wide, 60 high, without a circle of 24; the sides slope 30 over 60.
    "plate": Case(
        text="""
shape: plate
thickness: 1.2
outline: [[0, 0], [160, 0], [130, 60], [30, 60]]
openings: {pass: {center: [80, 38], diameter: 24}}
holes: {foot: {from: [20, 10], to: [140, 10], count: 5, size: small}}
""",
        sheet=7800 - 144 * pi,
        volume=(7800 - 144 * pi) * 1.2,
        area=2 * (7800 - 144 * pi) + 1.2 * (160 + 100 + 2 * hypot(30, 60) + 24 * pi),
        size=(160, 60),
        holes=(Holes(count=5, diameter=3.3, thickness=1.2),),
        slack=opening_slack(24, 1.2),
    ),
}


def bent(text: str, widths: float, angles: tuple[float, ...], *holes: Holes) -> Case:
    """Return a section 160 long of 1 mm, bent inside to 1.5.

    Blank = widths - 2 x sum of tan(A / 2) (R + T) + sum of A (R + T / 2).
    """
    blank = widths - sum(2 * tan(radians(a) / 2) * 2.5 for a in angles) + sum(radians(a) * 2 for a in angles)
    return Case(
        text=f"thickness: 1.0\nlength: 160\n{text}",
        volume=160 * blank,
        area=2 * 160 * blank + 2 * (160 + blank),
        size=(160, blank),
        sheet=160 * blank,
        holes=holes,
        slack=sum((bend_slack(a, 1.0, 1.5, 160) for a in angles), start=Slack()),
    )


def two_rows(first: str, other: str) -> str:
    return (
        f"holes:\n  one: {{flat: {first}, from: [20, 10], to: [140, 10], count: 5, size: small}}\n"
        f"  two: {{flat: {other}, from: [20, 12], to: [140, 12], count: 3, diameter: 5}}\n"
    )


FIVE, THREE = Holes(count=5, diameter=3.3, thickness=1.0), Holes(count=3, diameter=5.0, thickness=1.0)

BENT_SECTIONS = {
    "angle": bent(f"shape: angle\nlegs: [20, 30]\n{two_rows('leg 1', 'leg 2')}", 50, (90,), FIVE, THREE),
    "angle of 30": bent("shape: angle\nlegs: [20, 30]\nangle: 30", 50, (30,)),
    "angle of 83": bent(
        f"shape: angle\nlegs: [20, 30]\nangle: 83\n{two_rows('leg 1', 'leg 2')}", 50, (83,), FIVE, THREE
    ),
    "angle of 135": bent("shape: angle\nlegs: [20, 30]\nangle: 135", 50, (135,)),
    "channel": bent(
        f"shape: channel\nflanges: [18, 20]\nweb: 40\n{two_rows('flange 1', 'web')}",
        78,
        (90, 90),
        FIVE,
        THREE,
    ),
    "channel that opens and closes": bent(
        "shape: channel\nflanges: [18, 20]\nweb: 40\nangles: [80, 97]", 78, (80, 97)
    ),
    "zed": bent(
        f"shape: zed\nflanges: [18, 20]\nweb: 35\n{two_rows('flange 1', 'flange 2')}",
        73,
        (90, 90),
        FIVE,
        THREE,
    ),
    "zed, sloping": bent("shape: zed\nflanges: [18, 20]\nweb: 35\nangles: [100, 70]", 73, (100, 70)),
    "hat": bent(
        f"shape: hat\nfeet: [16, 17]\nwebs: [22, 22]\ncrown: 26\n{two_rows('foot 1', 'crown')}",
        103,
        (90, 90, 90, 90),
        FIVE,
        THREE,
    ),
    "hat, sloping": bent(
        "shape: hat\nfeet: [16, 17]\nwebs: [22, 22]\ncrown: 26\nangles: [75, 75, 75, 75]",
        103,
        (75, 75, 75, 75),
    ),
}

SOLIDS = {
    # 40 x 2 and 28 x 1.6; the way round a T is that round the box about it.
    "tee": Case(
        text="""
shape: tee
thickness: 2.0
stem thickness: 1.6
length: 160
flange: 40
stem: 30
holes:
  foot: {flat: flange, from: [20, 12], to: [140, 12], count: 5, size: small}
  wall: {flat: stem, from: [40, 18], to: [120, 18], count: 3, diameter: 5}
""",
        volume=160 * (40 * 2 + 28 * 1.6),
        area=160 * 2 * (40 + 30) + 2 * (40 * 2 + 28 * 1.6),
        holes=(
            Holes(count=5, diameter=3.3, thickness=2.0),
            Holes(count=3, diameter=5.0, thickness=1.6),
        ),
    ),
    # A ring of 30 and 27. Its sheet is the outside, once round.
    "tube": Case(
        text="shape: tube\nlength: 160\ndiameter: 30\nwall: 1.5",
        volume=160 * pi / 4 * (30**2 - 27**2),
        area=160 * pi * (30 + 27) + 2 * pi / 4 * (30**2 - 27**2),
        size=(160, 30 * pi),
        sheet=160 * 30 * pi,
        slack=bend_slack(360, 1.5, 13.5, 160),
    ),
    "bar": Case(
        text="""
shape: bar
length: 160
width: 20
thickness: 3
holes: {foot: {from: [20, 10], to: [140, 10], count: 5, size: small}}
""",
        volume=160 * 20 * 3,
        area=2 * (160 * 20 + 160 * 3 + 20 * 3),
        holes=(Holes(count=5, diameter=3.3, thickness=3.0),),
    ),
    "block": Case(
        text="""
shape: block
length: 60
width: 24
height: 18
holes: {foot: {flat: front, at: [[12, 5], [12, 13]], diameter: 6}}
""",
        volume=60 * 24 * 18,
        area=2 * (60 * 24 + 60 * 18 + 24 * 18),
        holes=(Holes(count=2, diameter=6.0, thickness=60.0),),
    ),
    # Each piece by itself: 140 x 40 x 3, 140 x 4 x 30, a triangle of 24 x 24 / 2 of 4 mm, a rod of 8.
    "fitting": Case(
        text="""
shape: fitting
pieces:
  foot: {shape: plate, thickness: 3, outline: [[0, 0], [140, 0], [140, 40], [0, 40]]}
  web:  {shape: block, length: 140, width: 4, height: 30, at: [0, 36, 3]}
  rib:  {shape: plate, thickness: 4, outline: [[0, 0], [24, 0], [0, 24]],
         at: [72, 36, 3], x along: -y, y along: up}
  stud: {shape: rod, diameter: 8, length: 26, at: [25, 36, 20], along: -y}
holes:
  foot: {flat: foot, from: [10, 10], to: [130, 10], count: 5, size: small}
  wall: {flat: web left, at: [[50, 20], [110, 20]], diameter: 5}
""",
        volume=16800 + 16800 + 288 * 4 + 16 * pi * 26,
        area=2 * (5600 + 420 + 120)
        + 2 * (560 + 4200 + 120)
        + 2 * 288
        + 4 * (48 + 24 * math.sqrt(2))
        + 8 * pi * 26
        + 2 * 16 * pi,
        holes=(
            Holes(count=5, diameter=3.3, thickness=3.0),
            Holes(count=2, diameter=5.0, thickness=4.0),
        ),
        slack=bend_slack(360, 4.0, 0.0, 26),
    ),
}

CASES = {**SHEETS, **BENT_SECTIONS, **SOLIDS}


@pytest.mark.parametrize("name", CASES)
def test_shape(tmp_path: Path, name: str) -> None:
    check(part_of(tmp_path, CASES[name].text), CASES[name])


@pytest.mark.parametrize("angle", [20, 60, 90, 120, 150])
def test_an_angle_that_is_sharp_inside(tmp_path: Path, angle: float) -> None:
    # Setback tan(A / 2) x 1, allowance A x 0.5; legs of 20 and 25.
    blank = 45 - 2 * tan(radians(angle) / 2) + radians(angle) / 2
    case = Case(
        text=f"shape: angle\nthickness: 1.0\nlength: 100\nlegs: [20, 25]\nbend radius: 0\nangle: {angle}",
        volume=100 * blank,
        area=200 * blank + 2 * (100 + blank),
        size=(100, blank),
        sheet=100 * blank,
        slack=bend_slack(angle, 1.0, 0.0, 100),
    )
    check(part_of(tmp_path, case.text), case)


def test_mesh(tmp_path: Path) -> None:
    import shapely

    written(tmp_path, pulled(shapely.Polygon(BENT), 50.0))
    # 60 x 3 + 3 x 37 pulled up by 50; the way round is that round 60 x 40.
    case = Case(text="shape: mesh\nfile: bracket.stl\nunit: mm", volume=291 * 50, area=50 * 2 * 100 + 2 * 291)
    check(part_of(tmp_path, case.text), case)


def test_the_slack_by_hand() -> None:
    # Of a radius of 2.5 a chord over 0.1790 stands off by 2.5 x (1 - cos 0.0895) = 0.0100; it loses about
    # t2 / 6 = 0.53 % of the sector and t2 / 24 = 0.13 % of the arc.
    assert lost(2.5) == pytest.approx((0.1790**2 / 6, 0.1790**2 / 24), rel=0.005)
