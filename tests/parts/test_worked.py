from __future__ import annotations

import math
from dataclasses import replace

import pytest
import trimesh

from seqviz.geometry.solids import solids_of
from seqviz.geometry.volume import volume_of
from seqviz.parts.flat_pattern import flat_pattern
from seqviz.parts.hand import other_hand
from seqviz.parts.make import make_parts
from seqviz.parts.mesh import mesh_of
from seqviz.parts.part import Part
from seqviz.records.formed_words import Bent
from seqviz.records.model import Points, Row
from seqviz.records.work_types import Corner, EndCut, EndTab, Joggle, Kink, Notch, Work
from tests.parts.samples import angle, at, channel, hat, model, part, row, zed

# Legs of 20 and 25, 1 thick, sharp inside; the bend is a quarter disc of radius 1. Length 620.
SHARP = angle(radius=0.0)


def kink(x: float = 300.0, degrees: float = 3.0, flat: str = "leg 1", towards: str = "inside") -> Kink:
    return Kink(x=x, angle=degrees, flat=flat, towards=towards, at=at(9))


def end_joggle(end: str = "end", flat: str = "leg 1", towards: str = "inside") -> Joggle:
    return Joggle(
        end=end, length=25.0, start=None, stop=None, depth=0.8, run=6.0, flat=flat, towards=towards, at=at(9)
    )


def notch(flats: tuple[str, ...], start: float, stop: float, *depth: float) -> Notch:
    return Notch(flats=flats, start=start, stop=stop, depth=depth, at=at(9))


def made(shape: Bent, work: Work, *rows: Row) -> Part:
    parts, findings = make_parts(model(part(replace(shape, work=work), *rows)))
    assert findings == []
    return parts["p"]


def volume(piece: Part) -> float:
    return sum(volume_of(one) for one in piece.pieces)


def mesh_volume(piece: Part) -> float:
    mesh = mesh_of(piece)
    solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert solid.is_watertight
    assert solid.is_winding_consistent
    return float(solid.volume)


STRAIGHT = volume(made(SHARP, Work()))


@pytest.mark.parametrize(
    ("flat", "towards", "moment"),
    [
        # What lies d above the middle of leg 1 is 2 tan(1.5) d shorter: leg 2 of 24 x 1 with d = 12.5,
        # and the bend, pi / 4 with its middle 4 / 3 pi from (1, 1).
        ("leg 1", "inside", 24 * 12.5 + math.pi / 4 * (0.5 - 4 / (3 * math.pi))),
        ("leg 1", "outside", -(24 * 12.5 + math.pi / 4 * (0.5 - 4 / (3 * math.pi)))),
        # The same for leg 1 of 19 x 1, 10 from the middle of leg 2.
        ("leg 2", "inside", 19 * 10 + math.pi / 4 * (0.5 - 4 / (3 * math.pi))),
    ],
)
def test_a_kink_makes_one_side_longer_and_the_other_shorter(flat: str, towards: str, moment: float) -> None:
    piece = made(SHARP, Work(kinks=(kink(flat=flat, towards=towards),)))
    expected = STRAIGHT - 2 * math.tan(math.radians(1.5)) * moment
    assert volume(piece) == pytest.approx(expected, abs=0.01)
    assert mesh_volume(piece) == pytest.approx(volume(piece), abs=1e-4)


def test_holes_beyond_a_kink_lean_with_their_stretch() -> None:
    foot = row(Points(points=((100, 10), (400, 10))), "foot", flat="leg 1")
    near, far = made(SHARP, Work(kinks=(kink(),)), foot).holes
    assert near.centre == pytest.approx([100, 10, 0.5])
    assert (near.flat, far.flat) == ("leg 1", "leg 1 from 300 to 620")
    # 100 mm beyond the kink, along the middle of the sheet; leg 2 stands on its inside: up.
    lean = math.radians(3.0)
    assert far.centre == pytest.approx([300 + 100 * math.cos(lean), 10, 0.5 + 100 * math.sin(lean)])
    assert far.axis == pytest.approx([math.sin(lean), 0, -math.cos(lean)])


def test_two_kinks_add_up_and_a_kink_of_the_other_leg_goes_sideways() -> None:
    tip = row(Points(points=((610, 10),)), flat="leg 1")
    twice = Work(kinks=(kink(400, 3), kink(300, 3)))
    (hole,) = made(SHARP, twice, tip).holes
    one, two = math.radians(3.0), math.radians(6.0)
    expected = [
        300 + 100 * math.cos(one) + 210 * math.cos(two),
        10,
        100 * math.sin(one) + 210 * math.sin(two),
    ]
    assert hole.centre == pytest.approx([expected[0], 10, expected[2] + 0.5])
    (hole,) = made(SHARP, Work(kinks=(kink(300, 3, "leg 2", "inside"),)), tip).holes
    # The inside of leg 2 looks to +y. Its middle is y = 0.5, the hole 9.5 from it.
    x, y = 310 * math.cos(one) - 9.5 * math.sin(one), 310 * math.sin(one) + 9.5 * math.cos(one)
    assert hole.centre == pytest.approx([300 + x, 0.5 + y, 0.5])


@pytest.mark.parametrize(("end", "x", "name"), [("end", 605, "595 to 620"), ("start", 15, "0 to 25")])
def test_a_joggled_end_is_offset_and_keeps_its_x(end: str, x: float, name: str) -> None:
    foot = row(Points(points=((x, 10), (300, 10))), flat="leg 1")
    wall = row(Points(points=((x, 12),)), "wall", flat="leg 2")
    piece = made(SHARP, Work(joggles=(end_joggle(end),)), foot, wall)
    shifted, plain, side = piece.holes
    assert shifted.centre == pytest.approx([x, 10, 1.3])
    assert shifted.flat == f"leg 1 from {name}"
    assert (plain.flat, plain.centre.tolist()) == ("leg 1", [300, 10, 0.5])
    # The other leg shifts in its own plane.
    assert side.centre == pytest.approx([x, 0.5, 12.8])
    # Every section stays as it is: so does the volume.
    assert volume(piece) == pytest.approx(STRAIGHT, rel=1e-9)
    assert mesh_volume(other_hand(made(SHARP, Work(joggles=(end_joggle(end),))))) == pytest.approx(
        STRAIGHT, rel=1e-7
    )


def test_a_joggle_between_the_ends_comes_back() -> None:
    middle = Joggle(
        end=None, length=None, start=200, stop=230, depth=1, run=6, flat="leg 1", towards="outside", at=at(9)
    )
    piece = made(SHARP, Work(joggles=(middle,)))
    solids = solids_of(piece.pieces)
    assert solids.low.min(axis=0) == pytest.approx([0, 0, -1])
    names = [name for name in piece.flats if name.startswith("leg 1")]
    assert names == ["leg 1", "leg 1 from 200 to 230", "leg 1 from 236 to 620"]
    assert volume(piece) == pytest.approx(STRAIGHT, rel=1e-9)


def test_cut_ends_tabs_and_notches_by_their_areas() -> None:
    work = Work(
        cuts=(
            EndCut(end="start", flat="leg 1", cut=30.0, at=at(9)),
            EndCut(end="start", flat="leg 2", cut=Corner(along=6, across=10), at=at(9)),
        ),
        tabs=(EndTab(end="end", flat="leg 1", length=15, width=10, across=None, at=at(9)),),
        notches=(
            notch(("leg 2",), 100, 130, 12),
            notch(("leg 1", "leg 2"), 190, 210, 8, 10),
            notch(("leg 2",), 300, 340),
        ),
    )
    piece = made(SHARP, work)
    bend = math.pi / 4 * 60
    # A cut of 30 degrees over 19, a corner, a tab; a notch of 12; through the bend 7 and 9 beside it,
    # and 20 of the bend; all of leg 2, 24 wide, and 40 of the bend.
    sheet = -(19**2) * math.tan(math.radians(30)) / 2 - 6 * 10 / 2 + 15 * 10
    sheet += -30 * 12 - 20 * (7 + 9) - 40 * 24
    assert volume(piece) == pytest.approx(STRAIGHT + sheet - bend, abs=0.01 * 60 * 1.6)
    assert mesh_volume(piece) == pytest.approx(volume(piece), abs=1e-4)
    assert mesh_volume(other_hand(piece)) == pytest.approx(volume(piece), abs=1e-4)
    assert [n for n in piece.flats if n.startswith("leg 2")] == ["leg 2", "leg 2 from 340 to 620"]


def test_an_end_runs_on_across_the_bends() -> None:
    cuts = (EndCut(end="end", flat="web", cut=30.0, at=at(9)),)
    flats = made(channel(), Work(cuts=cuts)).flats
    # Bends of radius 1.5 take 2.5 at both sides of the web of 40.
    assert flats["flange 1"].outline[:, 0].max() == pytest.approx(100)
    assert flats["flange 2"].outline[:, 0].max() == pytest.approx(100 - 35 * math.tan(math.radians(30)))
    everywhere = (EndCut(end="end", flat=None, cut=45.0, at=at(9)),)
    flats = made(channel(), Work(cuts=everywhere)).flats
    assert sorted(set(flats["flange 2"].outline[:, 0].round(6))) == [0, 82.5, 100]
    assert sorted(set(flats["web"].outline[:, 0].round(6))) == [0, 100]


@pytest.mark.parametrize(
    "shape", [angle(angle=70.0), channel(), zed(), hat(75.0)], ids=lambda s: type(s).__name__
)
def test_every_shape_is_watertight_and_its_pieces_fill_it(shape: Bent) -> None:
    names = list(made(shape, Work()).flats)
    work = Work(
        kinks=(kink(60, 5, names[1], "outside"),),
        joggles=(replace(end_joggle("end", names[0]), length=8.0),),
        cuts=(EndCut(end="start", flat=None, cut=20.0, at=at(9)),),
        tabs=(EndTab(end="end", flat=names[-1], length=5, width=None, across=None, at=at(9)),),
        notches=(notch((names[-1],), 20, 30), notch((names[0], names[1]), 35, 42, 6)),
    )
    piece = made(replace(shape, length=100.0), work)
    assert mesh_volume(piece) == pytest.approx(volume(piece), abs=1e-4)
    assert mesh_volume(other_hand(piece)) == pytest.approx(volume(piece), abs=1e-4)


def test_the_flat_pattern_is_that_of_the_straight_part() -> None:
    work = Work(
        kinks=(kink(),),
        tabs=(EndTab(end="start", flat="leg 1", length=15, width=None, across=None, at=at(9)),),
        notches=(notch(("leg 1", "leg 2"), 190, 210, 8, 10),),
    )
    foot = row(Points(points=((100, 10), (400, 10))), "foot", flat="leg 1")
    pattern = flat_pattern(made(SHARP, work, foot))
    assert pattern is not None
    assert pattern.size[0] == pytest.approx(635)
    # The notch lies inside the sheet: 20 long, 7 and 9 of the legs and the bend, pi / 2 x 0.5, wide.
    (opening,) = pattern.openings
    low, high = opening.min(axis=0), opening.max(axis=0)
    assert high - low == pytest.approx([20, 7 + 9 + math.pi / 4])
    assert [(line.start[0], line.end[0]) for line in pattern.bend_lines] == [(0, 190), (210, 620)]
    assert [hole.centre[0] for hole in pattern.holes] == pytest.approx([100, 400])
    assert pattern.notes[0].startswith("Kinks and joggles are not developed")
