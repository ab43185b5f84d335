"""Channels, zeds, hats, tees and tubes as written, and the words for the way they face."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.model import ChannelShape, HatShape, TeeShape, TubeShape, ZedShape
from tests.records.written import Place, model_of, places

MODEL = """\
format: 1
units: in
base: rib
sizes: {small: {diameter: 1/8}}
stock:
  light: {shape: zed, thickness: 0.02, flanges: [0.5, 0.5], web: 1, row on: flange 2, row in: 0.25, ends: 0.3}
parts:
  rib:
    shape: channel
    thickness: 0.04
    length: 10
    flanges: [1, 3/4]
    web: 2
    angles: [90, 83]
  stringer: {shape: zed, thickness: 0.04, length: 10, flanges: [1, 1], web: 2, angle: 97, bend radius: 0.16}
  stiffener: {shape: hat, thickness: 0.04, length: 10, feet: [1, 1], webs: [1, 1], crown: 1.5, angle: 80}
  post: {shape: tee, thickness: 0.1, length: 10, flange: 2, stem: 1}
  pipe:
    shape: tube
    length: 10
    diameter: 1
    wall: 0.05
    holes:
      along: {from: [1, 0], to: [9, 0], count: 3, size: small}
placed:
  pipe: {part: pipe, at: [0, 0, 0], x along: forward, y along: left}
  light: {stock: light, along: pipe.along, web faces: aft, flange faces: Inboard}
"""


def test_formed_shapes_are_read_in_mm(tmp_path: Path) -> None:
    read = model_of(tmp_path, MODEL)
    assert read.findings == []
    shapes = {name: part.shape for name, part in read.model.parts.items()}
    # Bend radius left out: 1.5 x 0.04 in = 1.524 mm.
    rib = shapes["rib"]
    assert isinstance(rib, ChannelShape)
    assert (rib.thickness, rib.length, rib.web) == pytest.approx((1.016, 254.0, 50.8))
    assert rib.flanges == pytest.approx((25.4, 19.05))
    assert rib.bend_radius == pytest.approx(1.524)
    assert rib.angles == (90.0, 83.0)
    stringer, stiffener, post = shapes["stringer"], shapes["stiffener"], shapes["post"]
    assert isinstance(stringer, ZedShape)
    assert stringer.angles == (97.0, 97.0)
    assert stringer.bend_radius == pytest.approx(4.064)
    assert isinstance(stiffener, HatShape)
    assert stiffener.angles == (80.0, 80.0, 80.0, 80.0)
    assert (stiffener.feet, stiffener.webs) == ((25.4, 25.4), (25.4, 25.4))
    assert stiffener.crown == pytest.approx(38.1)
    assert isinstance(post, TeeShape)
    assert (post.thickness, post.stem_thickness, post.stem) == pytest.approx((2.54, 2.54, 25.4))
    pipe = shapes["pipe"]
    assert isinstance(pipe, TubeShape)
    assert (pipe.length, pipe.diameter, pipe.wall) == pytest.approx((254.0, 25.4, 1.27))
    assert read.model.parts["pipe"].rows[0].flat is None


def test_stock_and_the_way_it_faces(tmp_path: Path) -> None:
    model = model_of(tmp_path, MODEL).model
    light = model.stock["light"]
    assert isinstance(light.shape, ZedShape)
    assert (light.shape.length, light.row_on) == (0.0, "flange 2")
    placed = model.placed["light"]
    assert placed.web_faces is not None
    assert placed.flange_faces is not None
    assert (placed.web_faces.text, placed.flange_faces.text) == ("aft", "inboard")
    assert (placed.web_faces.at.line, placed.standing_leg) == (27, None)


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("angles: [90, 83]", "angles: [90]", ("bad-value", 14, 13)),
        ("angles: [90, 83]", "angles: [90, 180]", ("bad-value", 14, 18)),
        ("angles: [90, 83]", "angle: 83\n    angles: [90, 83]", ("bad-value", 15, 5)),
        ("web: 2\n    angles", "web: 0\n    angles", ("bad-value", 13, 10)),
        ("    web: 2\n    angles", "    angles", ("missing-word", 8, 3)),
        ("crown: 1.5, ", "", ("missing-word", 16, 3)),
        ("wall: 0.05", "thickness: 0.05", ("unknown-word", 22, 5)),
        ("row on: flange 2", "row on: leg 2", ("unknown-word", 6, 77)),
        ("web faces: aft", "web faces: sternward", ("unknown-word", 27, 55)),
        ("y along: left}", "y along: left, face: inside}", ("bad-value", 26, 70)),
        ("{from: [1, 0]", "{flat: leg 1, from: [1, 0]", ("unknown-name", 24, 21)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, old: str, new: str, place: Place) -> None:
    assert MODEL.count(old) == 1
    found = places(model_of(tmp_path, MODEL.replace(old, new)))
    assert place in found
    assert {kind for kind, _, _ in found} <= {place[0], "missing-word", "unknown-name"}
