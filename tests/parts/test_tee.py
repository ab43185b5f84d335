from __future__ import annotations

import math

import numpy as np
import pytest

from seqviz.findings import Finding
from seqviz.parts.hand import other_hand
from seqviz.parts.make import make_parts
from seqviz.parts.mesh import mesh_of
from seqviz.parts.part import Part
from seqviz.parts.tee import tee_body
from seqviz.records.model import Points, Row, TeeShape
from tests.parts.samples import at, model, part, row


def tee(flange: float = 40.0, stem: float = 25.0) -> TeeShape:
    return TeeShape(thickness=2.0, stem_thickness=1.6, length=100.0, flange=flange, stem=stem)


def made(*rows: Row) -> Part:
    parts, findings = make_parts(model(part(tee(), *rows)))
    assert findings == []
    return parts["p"]


ROWS = (
    row(Points(points=((20, 12), (45, -12))), "a", flat="flange"),
    row(Points(points=((30, 15),)), "b", flat="stem", size="big"),
)


def test_where_flange_and_stem_are() -> None:
    body = made(*ROWS)
    assert list(body.flats) == ["flange", "stem"]
    assert np.allclose([hole.centre for hole in body.holes], [[20, 12, 1], [45, -12, 1], [30, 0, 15]])
    assert np.allclose([hole.axis for hole in body.holes], [[0, 0, -1], [0, 0, -1], [0, -1, 0]])
    stem = body.flats["stem"]
    assert np.allclose(stem.frame.points(np.array([10.0, 25.0, stem.face_level("outside")])), [10, -0.8, 25])
    assert tuple(stem.outline[:, 1]) == (2, 2, 25, 25)
    assert tuple(body.flats["flange"].outline[:, 1]) == (-20, -20, 20, 20)


@pytest.mark.parametrize("mirrored", [False, True])
def test_volume_and_area(mirrored: bool) -> None:
    import trimesh

    body = other_hand(made(*ROWS)) if mirrored else made(*ROWS)
    mesh = mesh_of(body)
    solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert solid.is_watertight
    assert solid.is_winding_consistent
    # Holes are polygons of 16 corners: area 2 d2 sin(2 pi / 16), rim 16 d sin(pi / 16).
    areas = [2 * d**2 * math.sin(math.pi / 8) for d in (3.3, 3.3, 4.1)]
    rims = [16 * d * math.sin(math.pi / 16) for d in (3.3, 3.3, 4.1)]
    # Section 40 x 2 + 23 x 1.6 = 116.8; two holes through 2, one through 1.6.
    assert solid.volume == pytest.approx(11680 - 2 * (areas[0] + areas[1]) - 1.6 * areas[2])
    # Round the section 2 x (40 + 25) = 130; two ends.
    surface = 13000 + 2 * 116.8 - 2 * sum(areas) + 2 * (rims[0] + rims[1]) + 1.6 * rims[2]
    assert solid.area == pytest.approx(surface)
    assert mesh.vertices.min(axis=0) == pytest.approx([0, -20, 0])
    assert mesh.vertices.max(axis=0) == pytest.approx([100, 20, 25])


def test_a_hole_in_the_stem_is_told_once() -> None:
    # 0.8 of the stem and 1.65 of the hole: 2.45 from the middle is free, 2.4 is not
    good = row(Points(points=((20, 2.46), (40, -2.46))), "good", flat="flange")
    bad = row(Points(points=((20, 2.4), (40, -2.46), (60, 0))), "bad", flat="flange", line=33)
    _, findings = make_parts(model(part(tee(), good, bad)))
    assert [(f.kind, f.at) for f in findings] == [("bad-value", at(33))]
    assert findings[0].message == "Row bad: 1, 3 would be drilled into the stem."


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        # 0.2 on both sides of 1.6
        (tee(flange=1.9), "the flange of 1.9 mm does not reach beyond the other's 1.6 mm"),
        (tee(stem=2.1), "the stem of 2.1 mm does not reach beyond the other's 2 mm"),
    ],
)
def test_no_tee(shape: TeeShape, words: str) -> None:
    finding = tee_body("a", shape, at(9))
    assert isinstance(finding, Finding)
    assert (finding.kind, finding.at) == ("bad-value", at(9))
    assert words in finding.message
    assert not isinstance(tee_body("a", tee(flange=2.01, stem=2.21), at()), Finding)
