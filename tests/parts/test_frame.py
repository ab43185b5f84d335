from __future__ import annotations

import math

import numpy as np
import pytest

from seqviz.geometry.polygons import facets
from seqviz.geometry.separation import deepest
from seqviz.geometry.solids import solids_of
from seqviz.geometry.volume import volume_of
from seqviz.parts.body import Body
from seqviz.parts.formed import formed_body
from seqviz.parts.hand import other_hand
from seqviz.parts.part import Part
from seqviz.records.model import AlongEdge, ChannelShape, FromTo, Points
from tests.parts.frames import TRAPEZOID, flange, frame, made
from tests.parts.samples import at, row, spacing

CURVED = ((0.0, 0.0), (100.0, 0.0), (130.0, 20.0), (140.0, 50.0), (130.0, 80.0), (100.0, 100.0), (0.0, 100.0))
DENTED = ((0.0, 0.0), (140.0, 0.0), (140.0, 80.0), (100.0, 76.0), (40.0, 76.0), (0.0, 80.0))


def volume(body: Part) -> float:
    return sum(volume_of(piece) for piece in body.pieces)


def bend(angle: float = 90.0) -> float:
    """Return the area of the facets of a bend from 2 to 3 mm: each a triangle of radius 3 less one of 2."""
    count = facets(3.0, angle)
    return count * 0.5 * (9 - 4) * math.sin(math.radians(angle) / count)


def together(body: Part) -> float:
    """Return how deep any two pieces of a part go into each other, mm."""
    solids = [solids_of([piece]) for piece in body.pieces]
    return max(deepest(a, b) for k, a in enumerate(solids) for b in solids[:k])


def test_two_flanges_are_a_channel() -> None:
    body = made(frame(flange("left edge"), flange("right edge", width=15.0)))
    # Web 60 - 2 x 3, flanges 20 - 3 and 15 - 3, all 100 long and 1 thick.
    assert volume(body) == pytest.approx(100 * (54 + 17 + 12 + 2 * bend()))
    channel = ChannelShape(
        thickness=1.0, length=100.0, flanges=(15.0, 20.0), web=60.0, bend_radius=2.0, angles=(90.0, 90.0)
    )
    like = formed_body("c", channel, at())
    assert isinstance(like, Body)
    assert volume(body) == pytest.approx(sum(volume_of(piece) for piece in like.pieces))
    assert list(body.flats) == ["web", "flange right edge", "flange left edge"]


def test_flanges_all_round() -> None:
    body = made(frame(*(flange(str(side), side) for side in (1, 2, 3, 4))))
    # At a square corner flange and bend stay back by the setback: 94 and 54 are left of 100 and 60.
    assert volume(body) == pytest.approx(94 * 54 + 2 * (94 + 54) * (17 + bend()))
    assert together(body) < 1e-6


def test_the_web_is_set_back_and_keeps_what_was_drawn() -> None:
    web = made(frame(flange("left edge"))).flats["web"]
    assert web.drawn is not None
    assert web.drawn.tolist() == [[0, 0], [100, 0], [100, 60], [0, 60]]
    assert web.outline.max(axis=0) == pytest.approx([100, 57])
    # Written anticlockwise: the outside looks to +z.
    assert web.face_normal("outside").tolist() == [0, 0, 1]


@pytest.mark.parametrize(
    ("side", "sense", "centre", "axis"),
    [
        # The web fills 0 to 1. To the inside the flange goes down from z = 1: 10 of its 20 are z = 1 - 10.
        # Its outer face is y = 60, its middle 59.5. To the outside it rises from z = 0.
        ("inside", 1, (30, 59.5, -9), (0, 1, 0)),
        ("outside", 1, (30, 59.5, 10), (0, 1, 0)),
        # Written clockwise the outside is -z, so that inside rises.
        ("inside", -1, (30, 59.5, 10), (0, 1, 0)),
        ("outside", -1, (30, 59.5, -9), (0, 1, 0)),
    ],
)
def test_where_a_flange_turns_and_a_hole_in_it_lies(
    side: str, sense: int, centre: tuple[float, ...], axis: tuple[float, ...]
) -> None:
    outline = frame().outline[::sense]
    holes = row(Points(points=((30, 10),)), flat="flange left")
    body = made(frame(flange("left edge", side=side), outline=outline), holes)
    assert body.holes[0].centre == pytest.approx(centre)
    assert body.holes[0].axis == pytest.approx(axis)
    assert body.holes[0].flat == "flange left edge"
    left = body.flats["flange left edge"]
    # y runs from the mould line on the outer face, the tangent is 3 further on.
    assert left.frame.points(np.array([0.0, 0.0, left.face_level("outside")])) == pytest.approx(
        (0, 60, 1 if centre[2] < 0 else 0)
    )
    assert sorted({float(y) for y in left.outline[:, 1]}) == pytest.approx([3, 20])
    twin = other_hand(body)
    assert twin.holes[0].centre == pytest.approx((centre[0], -centre[1], centre[2]))
    assert twin.holes[0].axis == pytest.approx((0, -1, 0))
    assert volume(twin) == pytest.approx(volume(body))


@pytest.mark.parametrize(
    ("name", "edges", "point"),
    [
        # Named edges run as rows along them do: left and right from aft, forward and aft from the right.
        ("right edge", (), (30, 0)),
        ("left edge", (), (30, 60)),
        ("forward edge", (), (100, 30)),
        ("aft edge", (), (0, 30)),
        # Numbered sides run from their first corner to their second.
        ("top", (3,), (70, 60)),
        ("back", (4,), (0, 30)),
    ],
)
def test_where_x_of_a_flange_begins(name: str, edges: tuple[int, ...], point: tuple[float, float]) -> None:
    body = made(frame(flange(name, *edges)))
    flat = body.flats[f"flange {name}"]
    assert flat.frame.points(np.array([30.0, 0.0, flat.face_level("outside")]))[:2] == pytest.approx(point)
    assert np.linalg.det(flat.frame.rotation) == pytest.approx(1)


@pytest.mark.parametrize("angle", [85.0, 60.0, 100.0])
def test_an_angle_that_is_not_square(angle: float) -> None:
    holes = row(Points(points=((30, 10),)), flat="flange left edge")
    body = made(frame(flange("left edge", angle=angle)), holes)
    back = 3 * math.tan(math.radians(angle) / 2)
    assert volume(body) == pytest.approx(100 * (60 - back + 20 - back + bend(angle)))
    turn = math.radians(angle)
    # 10 along the outer face, half a thickness in. Below 90 it leans outward, above 90 over the web.
    y, z = 60 + 10 * math.cos(turn) - 0.5 * math.sin(turn), 1 - 10 * math.sin(turn) - 0.5 * math.cos(turn)
    assert body.holes[0].centre == pytest.approx((30, y, z))
    assert body.holes[0].axis == pytest.approx((0, math.sin(turn), math.cos(turn)))


def test_a_curved_edge_is_one_piece_a_side() -> None:
    body = made(
        frame(
            flange("right edge"),
            flange("nose", 2, 3, 4, 5, width=15.0, relief=2.0),
            flange("left", angle=85.0),
            outline=CURVED,
        )
    )
    assert list(body.flats)[1:6] == ["flange right edge", *(f"flange nose {k}" for k in (1, 2, 3, 4))]
    # Side 3 from (130, 20) to (140, 50) is 31.623 long; 2 are relieved at both ends.
    assert body.flats["flange nose 2"].outline[:, 0].tolist() == pytest.approx(
        [2, math.hypot(10, 30) - 2, math.hypot(10, 30) - 2, 2]
    )
    assert together(body) < 1e-6


def test_an_edge_that_curves_inward() -> None:
    body = made(frame(flange("top", 3, 4, 5, width=10.0), outline=DENTED))
    # Flat, a flange of 10 reaches 2.5 x pi / 2 + 7 - 3 beyond the outline. Side 4 turns off by atan(4 / 40):
    # it stays back by that times tan(half the turn), and by half a thickness.
    reach = 2.5 * math.pi / 2 + 7 - 3
    back = reach * math.tan(math.atan(0.1) / 2) + 0.5
    assert body.flats["flange top 2"].outline[:, 0].tolist() == pytest.approx(
        [back, 60 - back, 60 - back, back]
    )
    assert together(body) < 1e-6


def test_a_flange_on_part_of_a_straight_side() -> None:
    outline = ((0.0, 0.0), (40.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0))
    body = made(frame(flange("2", 2), outline=outline))
    # A notch of one thickness parts it from the flat that goes on beside it.
    assert body.flats["flange 2"].outline[:, 0].tolist() == pytest.approx([1, 60, 60, 1])
    assert volume(body) == pytest.approx(100 * 60 - 60 * 3 + 59 * (17 + bend()))


def test_a_named_edge_joins_its_sides_in_one_line() -> None:
    outline = ((0.0, 0.0), (40.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0))
    body = made(frame(flange("right edge"), outline=outline))
    assert body.flats["flange right edge"].outline[:, 0].tolist() == pytest.approx([0, 100, 100, 0])


def test_a_sloping_edge_between_free_ends() -> None:
    body = made(frame(flange("left edge"), outline=TRAPEZOID))
    # At (0, 60) the corner is acute by atan(20 / 100): the bend begins where its tangent meets the web's
    # edge, 3 x 20 / 100 behind the corner. At (100, 40) it is obtuse: the flange ends at the corner.
    length = math.hypot(100, 20)
    flat = body.flats["flange left edge"]
    assert flat.outline[:, 0].tolist() == pytest.approx([0.6, length, length, 0.6])


def test_rows_along_the_web_are_measured_from_the_mould_line() -> None:
    layout = AlongEdge(
        edge="left edge", inset=12.0, first=10.0, last_in=10.0, spacing=spacing(count=3), at=at(11)
    )
    body = made(frame(flange("left edge")), row(layout, flat="web"))
    assert np.array([hole.centre for hole in body.holes]) == pytest.approx(
        np.array([[10, 48, 0.5], [50, 48, 0.5], [90, 48, 0.5]])
    )


def test_rows_along_the_free_edge_of_a_flange() -> None:
    layout = AlongEdge(
        edge="free edge", inset=8.0, first=7.0, last_in=7.0, spacing=spacing(count=2), at=at(11)
    )
    body = made(frame(*(flange(str(k), k) for k in (1, 2, 3, 4))), row(layout, flat="flange 1"))
    # From 3 to 97 along x; 20 - 8 = 12 down from z = 1.
    assert np.array([hole.centre for hole in body.holes]) == pytest.approx(
        np.array([[10, 0.5, -11], [90, 0.5, -11]])
    )


def test_holes_from_point_to_point() -> None:
    layout = FromTo(start=(10, 10), end=(90, 10), spacing=spacing(count=2))
    body = made(frame(flange("right edge", side="outside")), row(layout, flat="flange right"))
    assert np.array([hole.centre for hole in body.holes]) == pytest.approx(
        np.array([[10, 0.5, 10], [90, 0.5, 10]])
    )
