from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from seqviz.findings import Finding
from seqviz.geometry.pose import Array
from seqviz.geometry.prism import Prism
from seqviz.parts.body import Body
from seqviz.parts.formed import formed_body
from seqviz.records.model import AngleShape
from seqviz.trade.bends import setback
from tests.parts.samples import angle, at, prisms


def body_of(shape: AngleShape) -> Body:
    body = formed_body("a", shape, at())
    assert isinstance(body, Body)
    return body


def corners(piece: Prism) -> Array:
    """Return the corners of a prism's two ends, part frame."""
    flat = np.column_stack([piece.polygon, np.zeros(len(piece.polygon))])
    return piece.frame.points(np.concatenate([flat, flat + np.array([0.0, 0.0, piece.height])]))


@pytest.mark.parametrize(("degrees", "expected"), [(45.0, 0.130), (135.0, 0.758)])
def test_flats_begin_at_the_setback(degrees: float, expected: float) -> None:
    shape = angle(angle=degrees, radius=0.25 * 25.4, thickness=0.064 * 25.4, legs=(40.0, 50.0))
    for flat in body_of(shape).flats.values():
        assert flat.outline[:, 1].min() / 25.4 == pytest.approx(expected, abs=0.0005)


def test_frames_of_a_square_angle() -> None:
    flats = body_of(angle()).flats
    assert list(flats) == ["leg 1", "leg 2"]
    first, second = flats["leg 1"], flats["leg 2"]
    # setback 1 x (2.4 + 1) = 3.4
    assert np.allclose(first.outline, np.array([[0, 3.4], [620, 3.4], [620, 20], [0, 20]]))
    assert np.allclose(second.outline, np.array([[0, 3.4], [620, 3.4], [620, 25], [0, 25]]))
    assert np.allclose(first.face_normal("outside"), [0, 0, -1])
    assert first.face_level("outside") == 0.0
    assert np.allclose(second.face_normal("outside"), [0, -1, 0])
    assert second.face_level("outside") == 1.0
    # 10 mm up leg 2 on its outside: y = 0, z = 10; on its inside y = 1
    assert np.allclose(second.frame.points(np.array([50.0, 10.0, 1.0])), [50, 0, 10])
    assert np.allclose(second.frame.points(np.array([50.0, 10.0, 0.0])), [50, 1, 10])
    assert np.linalg.det(second.frame.rotation) == pytest.approx(1.0)


def test_a_leg_bent_by_83_degrees_leans_outward() -> None:
    second = body_of(angle(angle=83.0)).flats["leg 2"]
    # direction (-cos 83, sin 83) in (y, z)
    assert np.allclose(second.frame.rotation[:, 1], [0, -0.121869, 0.992546], atol=1e-6)
    tip = second.frame.points(np.array([0.0, 25.0, 1.0]))
    assert np.allclose(tip, [0, -3.04673, 24.81365], atol=1e-5)


@pytest.mark.parametrize("degrees", [30.0, 83.0, 90.0, 140.0])
@pytest.mark.parametrize("radius", [0.0, 0.5, 3.0])
def test_bend_facets_keep_to_the_true_surfaces(degrees: float, radius: float) -> None:
    shape = angle(angle=degrees, radius=radius, legs=(40.0, 40.0))
    body = body_of(shape)
    assert body.piece_flats[0] == "leg 1"
    assert body.piece_flats[-1] == "leg 2"
    middle = np.array([setback(1.0, radius, degrees), radius + 1.0])
    bend = [p for p, flat in zip(prisms(body), body.piece_flats, strict=True) if flat is None]
    for piece in bend:
        assert piece.height == 620.0
        ring = piece.polygon
        distance = np.linalg.norm(ring - middle, axis=1)
        assert np.allclose(np.minimum(abs(distance - radius), abs(distance - radius - 1)), 0, atol=1e-9)
        halfway = np.linalg.norm((ring + np.roll(ring, -1, axis=0)) / 2 - middle, axis=1)
        outer = halfway[(distance > radius + 0.5) & (np.roll(distance, -1) > radius + 0.5)]
        assert len(outer) == 1
        assert radius + 1 - 0.01 - 1e-9 <= outer[0] < radius + 1
    area = sum(_area(piece.polygon) for piece in bend)
    assert area == pytest.approx(math.radians(degrees) / 2 * ((radius + 1) ** 2 - radius**2), abs=0.06)


def test_the_pieces_join_at_the_tangents() -> None:
    body = body_of(angle(angle=120.0, legs=(40.0, 40.0)))
    places = [corners(piece) for piece in prisms(body)]
    for piece, follower in pairwise(places):
        gaps = np.linalg.norm(piece[:, None] - follower[None], axis=2)
        assert int((gaps < 1e-9).sum()) == 4  # a whole side: two corners at either end


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        (angle(thickness=0.1), "thickness 0.1 mm is too small"),
        (angle(angle=180.0), "180 degrees is not possible"),
        (angle(angle=0.0), "0 degrees is not possible"),
        (angle(radius=-1.0), "bend radius is less than 0"),
        # setback tan 45 x (2.4 + 1) = 3.4
        (angle(legs=(20.0, 3.5)), "leg 2 of 3.5 mm ends in the bend, which takes 3.4 mm"),
    ],
)
def test_impossible_angles(shape: AngleShape, words: str) -> None:
    finding = formed_body("a", shape, at(9))
    assert isinstance(finding, Finding)
    assert (finding.kind, finding.at) == ("bad-value", at(9))
    assert words in finding.message


def _area(ring: Array) -> float:
    x, y = ring.T
    area = float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()) / 2
    assert area > 0, "anticlockwise"
    return area
