from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from seqviz.geometry.volume import volume_of
from seqviz.parts.hand import other_hand
from seqviz.parts.make import make_parts
from seqviz.parts.mesh import Mesh, mesh_of
from seqviz.parts.part import Part
from seqviz.records.model import AngleShape, BarShape, BlockShape, Opening, PlateShape, Points, Row, Shape
from tests.parts.samples import SQUARE, angle, at, model, part, row, skin


def made(shape: Shape, *rows: Row) -> Part:
    parts, findings = make_parts(model(part(shape, *rows)))
    assert findings == []
    return parts["p"]


def checked(mesh: Mesh) -> float:
    """Return the volume of a mesh that must be watertight and turned outside out."""
    import trimesh

    body = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert body.is_watertight
    assert body.is_winding_consistent
    return float(body.volume)


def polygon_area(diameter: float, corners: int) -> float:
    return corners / 8 * diameter**2 * math.sin(2 * math.pi / corners)


def bend_volume(shape: AngleShape, facets: int) -> float:
    """Return the bend's volume by the sector formula, and with chords for arcs: A/2 (Ro2 - Ri2) x length."""
    turn = math.radians(shape.angle)
    outer, inner = shape.bend_radius + shape.thickness, shape.bend_radius
    chords = facets * math.sin(turn / facets)
    return chords / 2 * (outer**2 - inner**2) * shape.length


def test_skin_with_holes_and_openings() -> None:
    openings = (
        Opening(name="round", center=(180, 250), diameter=90.0, outline=(), at=at()),
        Opening(
            name="square", center=None, diameter=None, outline=((300, 50), (400, 50), (400, 90)), at=at()
        ),
    )
    plate = PlateShape(thickness=0.8, outline=SQUARE, openings=openings)
    mesh = mesh_of(made(plate, row(Points(points=((20, 20), (45, 20))))), segments=24)
    # 620 x 360 - pi/4 x 90^2 (within its facets) - 100 x 40 / 2 - 2 holes of 24 corners
    area = 223200 - math.pi / 4 * 90**2 - 2000 - 2 * polygon_area(3.3, 24)
    assert checked(mesh) == pytest.approx(area * 0.8, rel=1e-4)
    assert mesh.vertices[:, 2].min() == 0.0
    assert mesh.vertices[:, 2].max() == 0.8
    assert mesh.vertices.dtype == np.float64


def test_hole_walls_lie_on_the_hole() -> None:
    mesh = mesh_of(made(skin(), row(Points(points=((100, 50),)))), segments=12)
    distance = np.linalg.norm(mesh.vertices[:, :2] - [100, 50], axis=1)
    assert int((np.abs(distance - 1.65) < 1e-9).sum()) == 24  # 12 corners on each face
    assert distance.min() == pytest.approx(1.65)


@pytest.mark.parametrize("radius", [0.0, 0.4, 2.4])
@pytest.mark.parametrize("bend", [20.0, 83.0, 90.0, 135.0])
def test_angle_is_two_legs_and_a_sector(radius: float, bend: float) -> None:
    shape = angle(angle=bend, radius=radius)
    body = made(shape)
    facets = sum(name is None for name in body.piece_flats)
    setback = math.tan(math.radians(bend) / 2) * (radius + 1.0)
    legs = (20 - setback + 25 - setback) * 620 * 1.0
    assert checked(mesh_of(body)) == pytest.approx(legs + bend_volume(shape, facets), rel=1e-9)
    exact = math.radians(bend) / 2 * ((radius + 1) ** 2 - radius**2) * 620
    # Each face strays by 0.01 mm at most, so the volume does by 0.01 mm of the outer arc.
    assert abs(bend_volume(shape, facets) - exact) <= 0.01 * math.radians(bend) * (radius + 1) * 620


def test_angle_of_90_lies_where_its_description_says() -> None:
    mesh = mesh_of(made(angle(), row(Points(points=((20, 10),)), flat="leg 1")))
    assert mesh.vertices.min(axis=0) == pytest.approx([0, 0, 0], abs=1e-12)
    assert mesh.vertices.max(axis=0) == pytest.approx([620, 20, 25])
    near = np.linalg.norm(mesh.vertices - [20, 10, 0], axis=1)
    assert int((np.abs(near - 1.65) < 1e-9).sum()) == 16
    other = mesh_of(other_hand(made(angle())))
    assert other.vertices.min(axis=0) == pytest.approx([0, -20, 0], abs=1e-12)


def test_holes_on_both_legs_are_cut_on_both_hands() -> None:
    rows = (
        row(Points(points=((20, 10), (45, 10))), "a", flat="leg 1"),
        row(Points(points=((20, 12), (45, 12), (70, 12))), "b", flat="leg 2", size="big"),
    )
    whole, drilled = made(angle()), made(angle(), *rows)
    removed = 2 * polygon_area(3.3, 16) + 3 * polygon_area(4.1, 16)
    volume = checked(mesh_of(whole)) - removed
    assert checked(mesh_of(drilled)) == pytest.approx(volume, rel=1e-9)
    assert checked(mesh_of(other_hand(drilled))) == pytest.approx(volume, rel=1e-9)


def test_only_the_busiest_way_through_a_block_is_cut() -> None:
    block = BlockShape(length=50.0, width=20.0, height=15.0)
    rows = (
        row(Points(points=((10, 10),)), "a", flat="top"),
        row(Points(points=((20, 10),)), "b", flat="bottom"),
        row(Points(points=((30, 7),)), "c", flat="left"),
    )
    area = 50 * 20 - 2 * polygon_area(3.3, 16)  # the two along z, not the one along y
    assert checked(mesh_of(made(block, *rows))) == pytest.approx(area * 15)
    ends = row(Points(points=((5, 5), (15, 5))), "d", flat="front")
    mesh = mesh_of(made(block, rows[0], ends))
    assert checked(mesh) == pytest.approx((20 * 15 - 2 * polygon_area(3.3, 16)) * 50)
    assert mesh.vertices.max(axis=0) == pytest.approx([50, 20, 15])


def test_bar() -> None:
    assert checked(mesh_of(made(BarShape(length=100.0, width=20.0, thickness=3.0)))) == pytest.approx(6000)


spots = st.tuples(st.floats(5, 95), st.floats(5, 55))


@settings(max_examples=60, deadline=None)
@given(
    points=st.lists(spots, max_size=12, unique=True),
    radii=st.lists(st.floats(20, 60), min_size=5, max_size=11),
    thickness=st.floats(0.2, 6),
    clockwise=st.booleans(),
)
def test_sheets_are_watertight_with_volume_area_times_thickness(
    points: list[tuple[float, float]], radii: list[float], thickness: float, clockwise: bool
) -> None:
    # A star-shaped outline round [50, 30], mostly concave; its holes may overlap each other or its edge.
    turns = np.arange(len(radii)) * 2 * math.pi / len(radii)
    outline = np.array([50, 30]) + np.array(radii)[:, None] * np.column_stack([np.cos(turns), np.sin(turns)])
    sheet = shapely.Polygon(outline)
    inside = [p for p in points if sheet.contains(shapely.Point(p))]
    corners = tuple((float(x), float(y)) for x, y in (outline[::-1] if clockwise else outline))
    rows = [row(Points(points=(p,)), f"r{k}") for k, p in enumerate(inside)]
    solid = made(skin(corners, thickness), *rows)
    turns = np.arange(16) * math.pi / 8
    ring = 1.65 * np.column_stack([np.cos(turns), np.sin(turns)])
    cut = sheet.difference(shapely.union_all([shapely.Polygon(ring + p) for p in inside]))
    assert checked(mesh_of(solid)) == pytest.approx(cut.area * thickness, rel=1e-6)
    filled = sum(volume_of(piece) for piece in solid.pieces)
    assert filled == pytest.approx(sheet.area * thickness, rel=1e-6)  # rivet holes are not cut from pieces


@settings(max_examples=60, deadline=None)
@given(
    bend=st.floats(5, 150),
    radius=st.floats(0, 2),
    near=st.lists(
        st.tuples(st.integers(1, 60), st.floats(0.3, 8)), min_size=1, max_size=6, unique_by=lambda h: h[0]
    ),
    mirrored=st.booleans(),
)
def test_angles_stay_watertight_where_holes_reach_into_the_bend(
    bend: float, radius: float, near: list[tuple[int, float]], mirrored: bool
) -> None:
    shape = angle(angle=bend, radius=radius, legs=(40.0, 40.0))
    tangent = math.tan(math.radians(bend) / 2) * (radius + 1.0)
    points = tuple((10.0 * place, tangent + beyond) for place, beyond in near)
    solid = made(shape, row(Points(points=points), flat="leg 1"))
    volume = checked(mesh_of(other_hand(solid) if mirrored else solid))
    whole = checked(mesh_of(made(shape)))
    removed = len(points) * polygon_area(3.3, 16)
    assert volume < whole
    assert whole - volume == pytest.approx(
        removed, rel=0.35
    )  # a hole in a bend is a little wider or narrower
