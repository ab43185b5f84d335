"""Fittings in whole model files: their pieces, flats and holes."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
import trimesh

from seqviz.build import Build, build
from seqviz.checks.run import run
from seqviz.geometry.volume import volume_of
from seqviz.parts.hand import other_hand
from seqviz.parts.mesh import mesh_of

MODEL = """\
format: 1
base: skin
sizes: {small: {diameter: 5, with: blind rivet 4.8}}
parts:
  skin:
    shape: skin
    thickness: 1
    outline: [[0, 0], [100, 0], [100, 100], [0, 100]]
    holes: {row: {at: [[30, 40], [70, 40]], size: small}}
  stud bracket:
    shape: fitting
    pieces:
      foot: {shape: plate, thickness: 3, outline: [[0, 0], [60, 0], [60, 40], [0, 40]]}
      stud: {shape: rod, diameter: 8, length: 25, at: [30, 20, 3]}
      web: {shape: block, length: 60, width: 4, height: 20, at: [60, 40, 3], x along: -x, y along: -y}
      pipe: {shape: tube, diameter: 10, wall: 1, length: 30, at: [0, 30, 28], x along: +y, y along: -x}
    holes:
      feet: {flat: foot, at: [[10, 20], [50, 20]], size: small}
      side: {flat: web right, at: [[10, 12]], diameter: 4}
      round: {flat: pipe, at: [[10, 0], [20, 7.854]], diameter: 2}
"""
PLACED = "placed:\n  bracket: {part: stud bracket, match: {feet.1: skin.row.1, feet.2: skin.row.2}}\n"


def model(folder: Path, text: str) -> Build:
    (folder / "model.yaml").write_text(text, encoding="utf-8")
    return build(str(folder / "model.yaml"))


def test_flats_and_holes_stand_where_their_pieces_do(tmp_path: Path) -> None:
    part = model(tmp_path, MODEL).parts["stud bracket"]
    assert [name for name in part.flats if name.startswith(("foot", "web"))] == [
        "foot",
        *(f"web {side}" for side in ("top", "bottom", "left", "right", "front", "back")),
    ]
    assert list(part.flats)[-2:] == ["pipe", "pipe at 7.854"]
    feet, side, top, quarter = part.holes[1], part.holes[2], part.holes[3], part.holes[4]
    assert feet.centre.tolist() == [50, 20, 1.5]
    # The block's x runs back from x = 60, its y from y = 40; its right side (y = 0) looks to +y.
    assert side.centre.round(9).tolist() == [50, 38, 15]
    assert side.axis.round(9).tolist() == [0, 1, 0]
    # The tube runs along +y from y = 30; a quarter of the way round its outside is 10 pi / 4 = 7.854.
    assert top.centre.round(9).tolist() == [0, 40, 28 + 4.5]
    assert quarter.centre == pytest.approx([-4.5, 50, 28], abs=1e-3)
    assert quarter.axis == pytest.approx([-1, 0, 0], abs=1e-3)
    assert (quarter.flat, quarter.name) == ("pipe at 7.854", "round.2")


def test_pieces_fill_it(tmp_path: Path) -> None:
    part = model(tmp_path, MODEL).parts["stud bracket"]
    volume = sum(volume_of(piece) for piece in part.pieces)
    # plate 60 x 40 x 3, block 60 x 4 x 20, rod pi/4 8^2 25, tube pi (5^2 - 4^2) 30
    expected = 7200 + 4800 + math.pi * 16 * 25 + math.pi * 9 * 30
    assert volume == pytest.approx(expected, rel=2e-3)
    assert all(3 <= len(piece.polygon) <= 8 for piece in part.pieces if hasattr(piece, "polygon"))
    assert set(part.piece_flats) == {"foot", "stud", "web top", "pipe"}


def test_its_picture_is_closed_piece_by_piece(tmp_path: Path) -> None:
    part = model(tmp_path, MODEL).parts["stud bracket"]
    holes = 2 * math.pi / 4 * 5**2 * 3 + math.pi / 4 * 4**2 * 4
    for one in (part, other_hand(part)):
        mesh = mesh_of(one, segments=64)
        solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
        assert solid.is_watertight
        bodies = 7200 + 4800 + math.pi * 16 * 25 + math.pi * 9 * 30
        # The two holes of the tube, 2 wide and 1 deep, make 6 more.
        assert solid.volume == pytest.approx(bodies - holes - 6.3, rel=1e-3)
        sign = 1 if one is part else -1
        assert sorted(mesh.vertices[:, 1].round(6).tolist())[0 if sign < 0 else -1] == sign * 60


def test_the_other_hand_mirrors_its_holes(tmp_path: Path) -> None:
    part = model(tmp_path, MODEL).parts["stud bracket"]
    mirror = np.array([1, -1, 1])
    for own, twin in zip(part.holes, other_hand(part).holes, strict=True):
        assert np.allclose(twin.centre, own.centre * mirror)
        assert np.allclose(twin.axis, own.axis * mirror)


def test_it_lies_as_a_plate_does_and_its_grip_is_that_of_its_foot(tmp_path: Path) -> None:
    built = model(tmp_path, MODEL + PLACED)
    assert list(run(built)) == []
    placed = built.assembly.placed["bracket"]
    # Holes 10, 20 and 50, 20 on 30, 40 and 70, 40; the foot's inside on the skin's upper face.
    assert placed.pose.translation.round(6).tolist() == [20, 20, 1]
    assert placed.pose.rotation.round(6).tolist() == np.eye(3).tolist()
    stack = built.assembly.stacks[built.assembly.stack_of["skin.row.1"]]
    assert [(one.part, round(one.top - one.bottom, 6)) for one in stack.layers] == [
        ("bracket", 3.0),
        ("skin", 1.0),
    ]


LID = """\
  lid:
    shape: plate
    thickness: 1
    outline: [[0, 0], [20, 0], [20, 14], [0, 14]]
{}"""


@pytest.mark.parametrize(
    ("opening", "kinds"),
    [("", ["parts-interfere"]), ("    openings: {stud: {center: [10, 7], diameter: 8.5}}\n", [])],
)
def test_a_stud_goes_through_an_opening_only(tmp_path: Path, opening: str, kinds: list[str]) -> None:
    """The stud stands at x = 50, y = 40 of the skin, from 4 to 29; the lid lies at z = 14."""
    text = MODEL + LID.format(opening) + PLACED
    text += "  lid: {part: lid, at: [40, 33, 14], x along: forward, y along: left}\n"
    found = list(run(model(tmp_path, text)))
    assert [finding.kind for finding in found] == kinds
    assert all(sorted(finding.parts) == ["bracket", "lid"] for finding in found)


@pytest.mark.parametrize(
    ("old", "new", "kind", "line", "message"),
    [
        (
            "side: {flat: web right",
            "side: {flat: web rigth",
            "unknown-name",
            19,
            "There is no flat web rigth.",
        ),
        (
            "[50, 20]]",
            "[50, 35]]",
            "bad-value",
            18,
            "Row feet: 2 would be drilled into web as well.",
        ),
        ("y along: -y", "y along: -x", "bad-value", 15, "The piece's x and y are not square to each other."),
        ("diameter: 8", "diameter: 0.1", "bad-value", 14, "stud bracket stud: diameter 0.1 mm is too small."),
        (
            "pipe: {",
            "web top: {shape: plate, thickness: 1, outline: [[0,0],[9,0],[9,9]]}\n      pipe: {",
            "duplicate-name",
            16,
            "The pieces web and web top both have a flat called web top.",
        ),
        ("shape: rod", "shape: rope", "unknown-word", 14, "`rope` is not a shape of a piece."),
        (
            "shape: rod, ",
            "shape: rod, holes: {}, ",
            "unknown-word",
            14,
            "`holes` has no sense in a rod in a fitting.",
        ),
        ("at: [30, 20, 3]", "at: [30, 20, 3], along: [0, 0, 0]", "bad-value", 14, "This direction is zero."),
    ],
)
def test_mistakes(tmp_path: Path, old: str, new: str, kind: str, line: int, message: str) -> None:
    assert old in MODEL
    (finding,) = run(model(tmp_path, MODEL.replace(old, new, 1)))
    assert (finding.kind, finding.at.line, finding.message) == (kind, line, message)


def test_a_hole_may_go_on_through_another_piece_that_has_one_too(tmp_path: Path) -> None:
    doubler = "      doubler: {shape: block, length: 20, width: 40, height: 2, at: [0, 0, -2]}\n"
    text = MODEL.replace("      stud:", doubler + "      stud:").replace(
        "at: [[10, 20], [50, 20]], size", "at: [[10, 20]], size"
    )
    (finding,) = run(model(tmp_path, text))
    assert finding.message == "Row feet: 1 would be drilled into doubler as well."
    more = text.replace(
        "      side:", "      under: {flat: doubler top, at: [[10, 20]], size: small}\n      side:"
    )
    assert list(run(model(tmp_path, more))) == []


def test_no_pieces(tmp_path: Path) -> None:
    text = MODEL[: MODEL.index("    pieces:")] + "    pieces:\n"
    (finding,) = run(model(tmp_path, text))
    assert finding.message == "stud bracket has no pieces."


def test_two_plates_side_by_side_both_sit_on_what_is_under_them(tmp_path: Path) -> None:
    """One has its outside up, the other, written clockwise, down: they are not two ends of one solid."""
    text = MODEL.replace(
        "      stud:",
        "      beside: {shape: plate, thickness: 3, outline: [[0, 50], [0, 70], [20, 70], [20, 50]]}\n"
        "      stud:",
    )
    built = model(tmp_path, text + PLACED)
    assert sorted(round(contact.area) for contact in built.assembly.contacts) == [400, 2400]
