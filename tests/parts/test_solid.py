from __future__ import annotations

import numpy as np
import pytest

from seqviz.findings import Finding
from seqviz.parts.body import Body
from seqviz.parts.solid import solid_body
from seqviz.records.model import BarShape, BlockShape
from tests.parts.samples import at, prisms

BLOCK = BlockShape(length=50.0, width=20.0, height=15.0)


@pytest.mark.parametrize(
    ("name", "normal", "spot"),
    # the spot: where [4, 3] of the flat's coordinates lies on its outside
    [
        ("top", [0, 0, 1], [4, 3, 15]),
        ("bottom", [0, 0, -1], [4, 3, 0]),
        ("left", [0, 1, 0], [4, 20, 3]),
        ("right", [0, -1, 0], [4, 0, 3]),
        ("front", [1, 0, 0], [50, 4, 3]),
        ("back", [-1, 0, 0], [0, 4, 3]),
    ],
)
def test_flats_of_a_block(name: str, normal: list[float], spot: list[float]) -> None:
    body = solid_body("b", BLOCK, at())
    assert isinstance(body, Body)
    flat = body.flats[name]
    assert np.allclose(flat.face_normal("outside"), normal)
    assert np.allclose(flat.frame.points(np.array([4.0, 3.0, flat.face_level("outside")])), spot)
    # The far corner of the flat's outline, right through, is a corner of the box.
    far = flat.frame.points(np.array([*flat.outline.max(axis=0), flat.face_level("outside")]))
    assert np.allclose(far, np.where(np.array(normal) < 0, 0, [50, 20, 15]))
    assert flat.thickness == abs(np.array(normal) @ [50, 20, 15])
    assert np.linalg.det(flat.frame.rotation) == pytest.approx(1.0)


def test_a_bar_is_one_piece() -> None:
    body = solid_body("b", BarShape(length=100.0, width=20.0, thickness=3.0), at())
    assert isinstance(body, Body)
    (piece,) = prisms(body)
    assert piece.polygon.tolist() == [[0, 0], [100, 0], [100, 20], [0, 20]]
    assert piece.height == 3.0
    assert next(iter(body.flats)) == "top"


def test_a_bar_too_thin() -> None:
    finding = solid_body("b", BarShape(length=100.0, width=20.0, thickness=0.05), at(4))
    assert isinstance(finding, Finding)
    assert finding.message == "b: thickness 0.05 mm is too small."
