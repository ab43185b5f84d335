from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from seqviz.geometry.polygons import anticlockwise, circle, convex_pieces, facets, is_anticlockwise
from seqviz.geometry.pose import Array

SHEET = np.array([[0.0, 0.0], [620.0, 0.0], [620.0, 360.0], [0.0, 360.0]])
ELL = np.array([[0.0, 0.0], [100.0, 0.0], [100.0, 40.0], [40.0, 40.0], [40.0, 100.0], [0.0, 100.0]])


def _assert_cover(pieces: list[Array], outline: Array, openings: list[Array], most: int = 8) -> None:
    wanted = shapely.Polygon(outline)
    for opening in openings:
        wanted = wanted.difference(shapely.Polygon(opening))
    shapes = [shapely.Polygon(piece) for piece in pieces]
    assert sum(shape.area for shape in shapes) == pytest.approx(wanted.area, rel=1e-9)
    assert shapely.union_all(shapes).symmetric_difference(wanted).area < 1e-9 * wanted.area
    for piece, shape in zip(pieces, shapes, strict=True):
        assert 3 <= len(piece) <= most
        assert is_anticlockwise(piece)
        assert shape.convex_hull.area == pytest.approx(shape.area, rel=1e-9)


def test_which_way_an_outline_runs() -> None:
    assert is_anticlockwise(SHEET)
    assert not is_anticlockwise(SHEET[::-1])
    np.testing.assert_array_equal(anticlockwise(SHEET), SHEET)
    np.testing.assert_array_equal(anticlockwise(SHEET[::-1]), SHEET)
    assert is_anticlockwise(ELL + 1e7)


def test_a_convex_outline_is_its_own_piece() -> None:
    for outline in (SHEET, SHEET[::-1], SHEET[:3]):
        pieces = convex_pieces(outline)
        assert len(pieces) == 1
        np.testing.assert_array_equal(pieces[0], anticlockwise(outline))


def test_an_ell_is_two_pieces() -> None:
    pieces = convex_pieces(ELL)
    _assert_cover(pieces, ELL, [])
    # Cut from the outer corner (0, 0) to the inner one (40, 40): (100 + 60) / 2 * 40 on either side.
    assert [shapely.Polygon(piece).area for piece in pieces] == [3200.0, 3200.0]


def test_a_window_leaves_four_pieces() -> None:
    window = np.array([[100.0, 100.0], [200.0, 100.0], [200.0, 200.0], [100.0, 200.0]])
    pieces = convex_pieces(SHEET, [window])
    _assert_cover(pieces, SHEET, [window])
    assert len(pieces) == 4


def test_points_on_straight_edges_are_no_corners() -> None:
    outline = np.array([[0.0, 0.0], [50.0, 0.0], [100.0, 0.0], [100.0, 40.0], [50.0, 40.0], [0.0, 40.0]])
    pieces = convex_pieces(outline)
    assert len(pieces) == 1
    np.testing.assert_array_equal(np.unique(pieces[0], axis=0), [[0, 0], [0, 40], [100, 0], [100, 40]])


def test_round_openings() -> None:
    openings = [circle((180, 250), 90), circle((400, 100), 20), circle((400, 200), 6)]
    pieces = convex_pieces(SHEET, openings)
    _assert_cover(pieces, SHEET, openings)
    # Each corner of an opening needs a cut; one cut may serve two openings.
    corners = sum(len(opening) for opening in openings)
    assert corners / 2 <= len(pieces) <= corners
    assert min(_width(piece) for piece in pieces) > 0.2


def _width(piece: Array) -> float:
    edges = np.roll(piece, -1, axis=0) - piece
    normals = np.column_stack([edges[:, 1], -edges[:, 0]]) / np.linalg.norm(edges, axis=1)[:, None]
    heights = piece @ normals.T
    return float(np.ptp(heights, axis=0).min())


def test_an_opening_may_cut_the_edge_or_another_opening() -> None:
    notch = np.array([[-10.0, 100.0], [200.0, 100.0], [200.0, 200.0], [-10.0, 200.0]])
    other = np.array([[150.0, 150.0], [300.0, 150.0], [300.0, 300.0], [150.0, 300.0]])
    pieces = convex_pieces(SHEET, [notch, other])
    _assert_cover(pieces, SHEET, [notch, other])


def test_a_round_plate_is_cut_into_pieces_of_at_most_eight_corners() -> None:
    plate = circle((0, 0), 100)
    pieces = convex_pieces(plate)
    _assert_cover(pieces, plate, [])
    # 160 corners share 158 triangles' worth: at best 6 a piece.
    assert len(pieces) <= 45


def test_fewer_corners_on_demand() -> None:
    pieces = convex_pieces(circle((0, 0), 20), most=4)
    _assert_cover(pieces, circle((0, 0), 20), [], most=4)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.lists(st.tuples(st.floats(0.2, 1.0), st.floats(0.4, 1.6)), min_size=3, max_size=24), st.booleans())
def test_any_star_shaped_outline_is_covered(spokes: list[tuple[float, float]], windowed: bool) -> None:
    # Spokes of 60 to 300 mm at uneven angles round the origin, with a window of 20 mm across.
    turns = np.cumsum([step for _, step in spokes]) / sum(step for _, step in spokes) * 2.0 * np.pi
    reach = np.array([length for length, _ in spokes]) * 300.0
    outline = np.column_stack([reach * np.cos(turns), reach * np.sin(turns)])
    area = shapely.Polygon(outline)
    if not area.is_valid or not area.contains(shapely.Point(0, 0).buffer(12.0)):
        outline, area = SHEET, shapely.Polygon(SHEET)
    openings = [circle((0, 0), 20, 0.1) if outline is not SHEET else circle((50, 50), 20, 0.1)] * windowed
    _assert_cover(convex_pieces(outline, openings), outline, openings)


@pytest.mark.parametrize("diameter", [3.2, 20.0, 90.0, 1018.0])
def test_circles_keep_within_a_hundredth(diameter: float) -> None:
    polygon = circle((7, 9), diameter)
    radius = diameter / 2.0
    np.testing.assert_allclose(np.linalg.norm(polygon - [7, 9], axis=1), radius, rtol=1e-12)
    middles = (polygon + np.roll(polygon, -1, axis=0)) / 2.0
    assert (radius - np.linalg.norm(middles - [7, 9], axis=1)).max() < 0.01
    assert is_anticlockwise(polygon)
    np.testing.assert_allclose(polygon[0], [7 + radius, 9])


def test_a_mirrored_circle_is_the_same_polygon() -> None:
    polygon = circle((0, 0), 90)
    mirrored = polygon * [1.0, -1.0]
    np.testing.assert_allclose(np.roll(mirrored[::-1], 1, axis=0), polygon, atol=1e-12)
    # 150 facets would do; 152 have corners on both axes, so that mirroring the other way fits too.
    assert len(polygon) == 152


@pytest.mark.parametrize(
    ("radius", "degrees", "expected"),
    [
        (509.0, 90.0, 126),  # half a facet: acos(1 - 0.01 / 509) = 0.35915 deg; 45 / 0.35915 = 125.3
        (4.0, 90.0, 12),  # acos(1 - 0.01 / 4) = 4.0524 deg; 45 / 4.0524 = 11.1
        (0.005, 90.0, 1),
        (4.0, 1.0, 1),
        (4.0, -90.0, 12),
    ],
)
def test_facets(radius: float, degrees: float, expected: int) -> None:
    assert facets(radius, degrees) == expected


def test_facets_keep_the_sagitta() -> None:
    for radius in (0.5, 2.4, 30.0, 5000.0):
        for sagitta in (0.01, 0.1):
            count = facets(radius, 90.0, sagitta)
            assert radius * (1.0 - math.cos(math.pi / 4.0 / count)) <= sagitta * (1 + 1e-9)
            assert count == 1 or radius * (1.0 - math.cos(math.pi / 4.0 / (count - 1))) > sagitta
