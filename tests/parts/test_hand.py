from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely

from seqviz.geometry.prism import Prismoid
from seqviz.geometry.volume import corners_of
from seqviz.parts.hand import other_hand
from seqviz.parts.make import make_parts
from seqviz.parts.part import Part
from seqviz.records.model import BlockShape, Opening, PlateShape, Points, Shape, TeeShape, TubeShape
from tests.parts.samples import angle, at, channel, hat, model, part, prisms, row, zed

MIRROR = np.array([1, -1, 1])
PLATE = PlateShape(
    thickness=1.0,
    outline=((0, 0), (60, 0), (60, 20), (20, 20), (20, 80), (0, 80)),
    openings=(Opening(name="o", center=(10, 60), diameter=8.0, outline=(), at=at()),),
)


def made(shape: Shape, flat: str) -> Part:
    parts, findings = make_parts(model(part(shape, row(Points(points=((12, 10), (18, 12))), flat=flat))))
    assert findings == []
    return parts["p"]


SAMPLES = [
    made(angle(angle=83.0), "leg 1"),
    made(angle(angle=83.0), "leg 2"),
    made(PLATE, "face"),
    made(BlockShape(length=50.0, width=20.0, height=15.0), "left"),
    made(channel(angles=(90.0, 83.0)), "flange 2"),
    made(zed(angles=(70.0, 100.0)), "web"),
    made(hat(angle=75.0), "web 2"),
    made(TeeShape(thickness=2.0, stem_thickness=1.6, length=60.0, flange=30.0, stem=25.0), "stem"),
    made(TubeShape(length=60.0, diameter=25.0, wall=1.5), "wall"),
]


@pytest.mark.parametrize("piece", SAMPLES, ids=lambda p: f"{p.shape} {p.holes[0].flat}")
def test_every_point_is_mirrored(piece: Part) -> None:
    twin = other_hand(piece)
    assert twin.mirrored
    for name, flat in piece.flats.items():
        other = twin.flats[name]
        assert np.linalg.det(other.frame.rotation) == pytest.approx(1.0)
        assert shapely.LinearRing(other.outline).is_ccw
        for face in ("outside", "inside"):
            assert np.allclose(other.face_normal(face), flat.face_normal(face) * MIRROR)
            here = np.column_stack([flat.outline, np.full(len(flat.outline), flat.face_level(face))])
            there = np.column_stack([other.outline, np.full(len(other.outline), other.face_level(face))])
            assert np.allclose(other.frame.points(there)[::-1], flat.frame.points(here) * MIRROR)
    for before, after in zip(prisms(piece), prisms(twin), strict=True):
        assert shapely.LinearRing(after.polygon).is_ccw
        for here, there in zip(corners_of(before), corners_of(after), strict=True):
            assert np.allclose(there[::-1], here * MIRROR)
    for hole, mirrored in zip(piece.holes, twin.holes, strict=True):
        assert mirrored.name == hole.name
        assert np.allclose(mirrored.centre, hole.centre * MIRROR)
        assert np.allclose(mirrored.axis, twin.flats[hole.flat].face_normal("outside"))


@pytest.mark.parametrize("piece", SAMPLES, ids=lambda p: f"{p.shape} {p.holes[0].flat}")
def test_twice_is_the_part_again(piece: Part) -> None:
    again = other_hand(other_hand(piece))
    assert not again.mirrored
    for name, flat in piece.flats.items():
        assert np.array_equal(again.flats[name].frame.rotation, flat.frame.rotation)
        assert np.array_equal(again.flats[name].frame.translation, flat.frame.translation)
        assert np.array_equal(again.flats[name].outline, flat.outline)
        for before, after in zip(flat.openings, again.flats[name].openings, strict=True):
            assert np.array_equal(before, after)
    for old, new in zip(prisms(piece), prisms(again), strict=True):
        assert np.array_equal(old.polygon, new.polygon)
        assert np.array_equal(old.frame.rotation, new.frame.rotation)
    for hole, again_hole in zip(piece.holes, again.holes, strict=True):
        assert np.array_equal(hole.centre, again_hole.centre)
        assert np.array_equal(hole.axis, again_hole.axis)


def test_a_prismoid_is_mirrored_corner_by_corner() -> None:
    ramp = Prismoid(
        bottom=np.array([[0.0, 1, 0], [0, 9, 0], [0, 9, 1]]),
        top=np.array([[6.0, 1, 1], [6, 9, 1], [6, 9, 2]]),
    )
    (twin,) = other_hand(replace(SAMPLES[0], pieces=(ramp,), piece_flats=(None,))).pieces
    assert isinstance(twin, Prismoid)
    assert twin.bottom.tolist() == [[0, -1, 0], [0, -9, 0], [0, -9, 1]]
    assert twin.top.tolist() == [[6, -1, 1], [6, -9, 1], [6, -9, 2]]


def test_an_angle_of_the_other_hand_lies_at_negative_y() -> None:
    twin = other_hand(made(angle(), "leg 1"))
    assert np.allclose(twin.holes[0].centre, [12, -10, 0.5])
    assert twin.flats["leg 1"].outline[:, 1].min() == -20
    assert np.allclose(twin.flats["leg 2"].face_normal("outside"), [0, 1, 0])
