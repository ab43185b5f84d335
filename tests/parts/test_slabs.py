from __future__ import annotations

import numpy as np
import pytest
import shapely
import trimesh

from seqviz.geometry.pose import Array, turn_about, unit
from seqviz.geometry.volume import volume_of
from seqviz.parts.slabs import MOST_PIECES, Found, pieces_in, prismatic_axis
from seqviz.parts.welding import surface_of
from tests.parts.surfaces import BENT, ball, box, pulled


def found(triangles: Array, square: tuple[Array, ...] = ()) -> Found:
    return pieces_in(surface_of(triangles), (), square)


def volume(one: Found) -> float:
    return sum(volume_of(piece) for piece in one.pieces)


def test_an_angle_is_two_pieces_along_its_length() -> None:
    angle = pulled(shapely.Polygon(BENT), 50.0)
    one = found(angle)
    assert len(one.pieces) == 2
    assert one.off == 0.0
    assert volume(one) == pytest.approx(291 * 50)
    assert abs(prismatic_axis(surface_of(angle))[2]) == 1.0


def test_turned_anyhow_it_is_the_same() -> None:
    angle = pulled(shapely.Polygon(BENT), 50.0) @ turn_about(unit(np.array([1.0, 2.0, 3.0])), 31.0).T
    one = found(angle)
    assert (len(one.pieces), round(one.off, 6)) == (2, 0.0)
    assert volume(one) == pytest.approx(291 * 50, rel=1e-6)


def test_steps_are_levels() -> None:
    # A foot 60 x 50 x 3 with a boss 20 x 20 x 7 on it.
    one = found(np.concatenate([box((60, 50, 3)), box((20, 20, 7), (5, 5, 3))]))
    assert (len(one.pieces), one.off) == (2, 0.0)
    assert volume(one) == pytest.approx(60 * 50 * 3 + 20 * 20 * 7)


def test_a_sloping_wall_is_stepped_and_says_how_far() -> None:
    """A wedge: seen along its length it is exact; square to a flat that leans it has to be stepped."""
    wedge = pulled(shapely.Polygon([(0, 0), (40, 0), (40, 10)]), 30.0)
    assert found(wedge).off == 0.0
    assert volume(found(wedge)) == pytest.approx(200 * 30)
    leaning = (np.array([0.6, 0.0, 0.8]),)
    stepped = found(wedge, leaning)
    assert 0.05 < stepped.off < 1.0
    assert volume(stepped) > 200 * 30


def test_an_axis_suits_all_flats_where_it_can() -> None:
    # Two flats that lean: across both lies the z axis.
    leaning = (np.array([0.6, 0.8, 0.0]), np.array([1.0, 0.0, 0.0]))
    assert abs(prismatic_axis(surface_of(box((10, 20, 30))), leaning)[2]) == pytest.approx(1.0)


def test_pieces_of_a_ball_are_few_and_cover_it() -> None:
    one = found(ball(50.0, 60))
    assert len(one.pieces) <= MOST_PIECES
    assert one.off < 2.0
    mesh = surface_of(ball(50.0, 60))
    solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert volume(one) == pytest.approx(solid.volume, rel=0.03)
    # Every corner of the ball lies in a piece, or no farther from one than is said.
    away = np.full(len(mesh.vertices), np.inf)
    for piece in one.pieces:
        x, y, z = piece.frame.inverse().points(mesh.vertices).T
        aside = shapely.distance(shapely.Polygon(piece.polygon), shapely.points(x, y))
        away = np.minimum(away, np.hypot(aside, np.maximum(0.0, np.maximum(-z, z - piece.height))))
    assert away.max() <= one.off


def test_many_bodies_are_bounded() -> None:
    pins = [box((1, 1, 5 + k % 7), (2 * (k % 30), 2 * (k // 30), 0)) for k in range(900)]
    one = found(np.concatenate(pins))
    assert len(one.pieces) <= MOST_PIECES


def test_a_sheet_without_thickness_has_none() -> None:
    sheet = np.array([[[0, 0, 0], [10, 0, 0], [10, 5, 3]], [[0, 0, 0], [10, 5, 3], [0, 5, 3]]], dtype=float)
    assert found(sheet).pieces == ()


def test_the_same_bytes_give_the_same_pieces() -> None:
    first, second = found(ball(20.0, 30)), found(ball(20.0, 30))
    assert [p.polygon.tobytes() for p in first.pieces] == [p.polygon.tobytes() for p in second.pieces]
