"""Frames as written: flanges by edge, by number, by name; lips; and where mistakes stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.model import FrameShape, Lip
from tests.records.written import Place, model_of, places

MODEL = """\
format: 1
base: rib
sizes: {small: {diameter: 3.3}}
parts:
  rib:
    shape: frame
    thickness: 0.8
    outline: [[0, 0], [400, 0], [430, 20], [440, 50], [400, 110], [0, 80]]
    flanges:
      left: {width: 18, side: outside, angle: 85}
      Right_edge: {width: 3/4 in}
      6: {width: 20}
      nose: {edges: [2, 3, 4], width: 15, relief: 3}
    openings:
      hand hole: {center: [200, 50], diameter: 60, lip: 6}
      pass: {center: [100, 50], diameter: 30, lip: {height: 5, side: outside, angle: 45}}
      slot: {outline: [[300, 20], [340, 20], [340, 40]]}
    holes:
      top: {flat: flange left, from: [10, 9], to: [90, 9], count: 3, size: small}
"""


def test_a_frame_is_read(tmp_path: Path) -> None:
    read = model_of(tmp_path, MODEL)
    assert read.findings == []
    rib = read.model.parts["rib"].shape
    assert isinstance(rib, FrameShape)
    # Left out: 1.5 x 0.8.
    assert rib.bend_radius == pytest.approx(1.2)
    assert [(one.name, one.edges, one.side, one.angle, one.relief) for one in rib.flanges] == [
        ("left edge", (), "outside", 85.0, None),
        ("right edge", (), "inside", 90.0, None),
        ("6", (6,), "inside", 90.0, None),
        ("nose", (2, 3, 4), "inside", 90.0, 3.0),
    ]
    assert [one.width for one in rib.flanges] == pytest.approx([18, 19.05, 20, 15])
    assert [one.at.line for one in rib.flanges] == [10, 11, 12, 13]
    hand, through, slot = (one.lip for one in rib.openings)
    assert isinstance(hand, Lip)
    assert isinstance(through, Lip)
    assert (hand.height, hand.side, hand.angle) == (6, "inside", 90)
    assert (through.height, through.side, through.angle) == (5, "outside", 45)
    assert slot is None
    assert read.model.parts["rib"].rows[0].flat == "flange left"


def test_half_an_outline_will_do(tmp_path: Path) -> None:
    half = "half outline: [[400, 0], [400, 40], [0, 40], [0, 0]]\n    mirror line: y=0"
    whole = "outline: [[0, 0], [400, 0], [430, 20], [440, 50], [400, 110], [0, 80]]"
    read = model_of(tmp_path, MODEL.replace(whole, half))
    assert read.findings == []
    rib = read.model.parts["rib"].shape
    assert isinstance(rib, FrameShape)
    assert rib.outline == ((400, 0), (400, 40), (0, 40), (0, 0), (0, -40), (400, -40))


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("left: {width: 18,", "left: {", [("missing-word", 10, 7)]),
        ("side: outside, angle: 85", "side: upper", [("unknown-word", 10, 31)]),
        ("angle: 85", "angle: 180", [("bad-value", 10, 47)]),
        ("left: {width: 18,", "lfet edge: {width: 18,", [("missing-word", 10, 7)]),
        ("edges: [2, 3, 4], width: 15", "width: 15", [("missing-word", 13, 7)]),
        ("6: {width: 20}", "6: {edges: [6], width: 20}", [("bad-value", 12, 11)]),
        ("relief: 3", "relief: -3", [("bad-value", 13, 51)]),
        ("edges: [2, 3, 4]", "edges: [0]", [("bad-value", 13, 22)]),
        ("lip: 6", "lip: 0", [("bad-value", 15, 57)]),
        ("height: 5, ", "", [("missing-word", 16, 52)]),
        ("[340, 40]]}", "[340, 40]], lip: 5}", [("bad-value", 17, 58)]),
        ("    flanges:", "    flangs:", [("unknown-word", 9, 5)]),
        ("shape: frame", "shape: skin", None),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, old: str, new: str, expected: list[Place] | None) -> None:
    assert old in MODEL
    found = places(model_of(tmp_path, MODEL.replace(old, new)))
    if expected is None:
        # A skin has no flanges, and its openings no lips.
        assert [place[:2] for place in found if place[0] == "unknown-word"] == [
            ("unknown-word", 9),
            ("unknown-word", 15),
            ("unknown-word", 16),
        ]
    else:
        assert found == expected


def test_a_misspelt_edge_is_guessed(tmp_path: Path) -> None:
    (finding,) = model_of(tmp_path, MODEL.replace("left: {", "lefft edge: {")).findings
    assert finding.fix == "Did you mean `left edge`?"
