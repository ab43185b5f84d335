from __future__ import annotations

import math

import numpy as np
import pytest

from seqviz.findings import Finding
from seqviz.parts.hand import other_hand
from seqviz.parts.make import make_parts
from seqviz.parts.mesh import mesh_of
from seqviz.parts.part import Part
from seqviz.parts.tube import tube_body
from seqviz.records.model import Points, Row, TubeShape
from tests.parts.samples import at, model, part, prisms, row

TUBE = TubeShape(length=100.0, diameter=25.0, wall=1.5)
QUARTER = math.pi * 25 / 4


def made(*rows: Row) -> Part:
    parts, findings = make_parts(model(part(TUBE, *rows)))
    assert findings == []
    return parts["p"]


def test_rows_run_along_and_around() -> None:
    along = row(Points(points=((20, 0), (60, 0))), "along")
    around = row(Points(points=((30, QUARTER), (30, 2 * QUARTER), (30, -QUARTER))), "around")
    body = made(along, around)
    # The middle of the wall is at 12.5 - 0.75 = 11.75. y = 0 is the top, then it goes towards +y.
    expected = [[20, 0, 11.75], [60, 0, 11.75], [30, 11.75, 0], [30, 0, -11.75], [30, -11.75, 0]]
    assert np.allclose([hole.centre for hole in body.holes], expected)
    axes = [[0, 0, 1], [0, 0, 1], [0, 1, 0], [0, 0, -1], [0, -1, 0]]
    assert np.allclose([hole.axis for hole in body.holes], axes)
    assert [hole.flat for hole in body.holes] == ["wall"] * 2 + [
        "wall at 19.635",
        "wall at 39.27",
        "wall at -19.635",
    ]
    for hole in body.holes:
        flat = body.flats[hole.flat]
        assert np.allclose(flat.face_normal("outside"), hole.axis)
        assert np.linalg.det(flat.frame.rotation) == pytest.approx(1.0)
    mirrored = other_hand(body)
    assert np.allclose(mirrored.holes[2].centre, [30, -11.75, 0])


def test_a_flat_touches_a_tube_along_a_strip() -> None:
    strip = made().flats["wall"]
    half = float(strip.outline[:, 1].max())
    # sagitta of a chord of half width h: h2 / (2 R) = 0.05
    assert half**2 / 25 == pytest.approx(0.05)
    assert np.allclose(strip.frame.points(np.array([10.0, 0.0, strip.face_level("outside")])), [10, 0, 12.5])


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("drilled", [False, True])
def test_volume_and_area(drilled: bool, mirrored: bool) -> None:
    import trimesh

    # one on the zero line, one on the seam of the mesh at the bottom
    rows = (row(Points(points=((20, 0), (50, 2 * QUARTER), (70, 5.0)))),) if drilled else ()
    body = other_hand(made(*rows)) if mirrored else made(*rows)
    mesh = mesh_of(body, segments=64)
    solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert solid.is_watertight
    assert solid.is_winding_consistent
    # Three holes of 3.3 through 1.5; they run to the middle line, so they narrow from 3.3 to 2.9 around.
    gone = 3 * math.pi / 4 * 3.3**2 * 1.5 if drilled else 0.0
    section = math.pi * (12.5**2 - 11**2)
    facets = len(body.pieces)
    chords = facets / (2 * math.pi) * math.sin(2 * math.pi / facets)
    assert solid.volume == pytest.approx(100 * section * chords - gone, rel=0.0004)
    # 0.01 mm at most off the outer surface
    assert abs(solid.volume + gone - 100 * section) < 100 * 2 * math.pi * 12.5 * 0.01
    if not drilled:
        assert solid.volume == pytest.approx(100 * section * chords, rel=1e-9)
        surface = 100 * 2 * math.pi * (12.5 + 11) + 2 * section
        assert solid.area == pytest.approx(surface, rel=1e-3)
    assert mesh.vertices.max(axis=0) == pytest.approx([100, 12.5, 12.5], abs=0.01)
    assert mesh.vertices.min(axis=0) == pytest.approx([0, -12.5, -12.5], abs=0.01)


def test_pieces_fill_the_wall() -> None:
    body = made()
    assert set(body.piece_flats) == {"wall"}
    for piece in prisms(body):
        x, y = piece.polygon.T
        area = float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()) / 2
        assert area > 0
        # The chord of the outside stays within 0.01 mm of the circle.
        assert 12.49 <= np.linalg.norm((piece.polygon[0] + piece.polygon[1]) / 2) < 12.5


def test_a_row_off_the_tube_and_a_tube_without_a_bore() -> None:
    _, findings = make_parts(model(part(TUBE, row(Points(points=((101, 0),))))))
    assert [f.kind for f in findings] == ["bad-value"]
    finding = tube_body("a", TubeShape(length=100.0, diameter=3.0, wall=1.45), at(9))
    assert isinstance(finding, Finding)
    assert finding.message == "a: a wall of 1.45 mm fills a tube of 3 mm."
