"""Both hands of a piece in a larger structure: it holds a rolled skin, a frame, a kink, a mesh, a fitting."""

from __future__ import annotations

import shutil
from pathlib import Path

import numpy as np
import pytest

from seqviz.build import Build, build
from seqviz.geometry.pose import Array
from seqviz.geometry.prism import Piece, Prism
from seqviz.geometry.volume import volume_of
from seqviz.parts.mesh import Mesh, mesh_of
from seqviz.parts.part import Flat
from seqviz.scene.step import scene_of_step
from tests.checks.expect import besides_the_kit

FOLDER = Path(__file__).parent / "examples"
FILES = ("rig.yaml", "rig_steps.yaml", "two_rigs.yaml", "two_rigs_steps.yaml")
IMAGE, SHIFT = np.array([1.0, -1.0, 1.0]), np.array([0.0, 600.0, 0.0])
"""The mirror line is y = 300: y becomes 600 - y."""


@pytest.fixture(scope="module")
def built() -> Build:
    return build(str(FOLDER / FILES[-1]))


def changed(folder: Path, file: str = "", *swaps: tuple[str, str]) -> list[tuple[str, str]]:
    """Return kinds and messages once ``file`` says the second text of each pair for the first."""
    for name in FILES:
        text = (FOLDER / name).read_text(encoding="utf-8")
        for old, new in swaps if name == file else ():
            assert text.count(old) == 1
            text = text.replace(old, new)
        (folder / name).write_text(text, encoding="utf-8")
    shutil.copy(FOLDER / "spring_seat.stl", folder)
    return [(finding.kind, finding.message) for finding in besides_the_kit(build(str(folder / FILES[-1])))]


def corners(piece: Piece) -> Array:
    if not isinstance(piece, Prism):
        return np.concatenate([piece.bottom, piece.top])
    flat = np.column_stack([piece.polygon, np.zeros(len(piece.polygon))])
    return piece.frame.points(np.concatenate([flat, flat + np.array([0, 0, piece.height])]))


def low_and_high(points: Array) -> Array:
    return np.array([points.min(axis=0), points.max(axis=0)])


def volume(mesh: Mesh) -> float:
    a, b, c = (mesh.vertices[mesh.faces[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6)


def test_nothing_is_wrong(built: Build) -> None:
    assert [(finding.kind, finding.message) for finding in besides_the_kit(built)] == []
    assert built.replay is not None
    # 2 straps of 7, 2 tabs of 7, 2 lugs of 2, 2 caps of 4 rivets.
    assert len(built.replay.filled_at) == 2 * (7 + 7 + 2 + 4)


def test_every_piece_flat_and_hole_of_the_other_hand_is_mirrored(built: Build) -> None:
    left, right = (built.assembly.placed[f"rig {side}"] for side in ("left", "right"))
    assert (left.part.mirrored, right.part.mirrored) == (False, True)
    for one, other in zip(left.part.pieces, right.part.pieces, strict=True):
        here = left.pose.points(corners(one)) * IMAGE + SHIFT
        assert np.allclose(low_and_high(here), low_and_high(right.pose.points(corners(other))))
    for hole, twin in zip(left.part.holes, right.part.holes, strict=True):
        assert hole.name == twin.name
        assert np.allclose(left.pose.points(hole.centre) * IMAGE + SHIFT, right.pose.points(twin.centre))

    def middle(flat: Flat) -> Array:
        level = np.full((len(flat.outline), 1), flat.thickness / 2)
        return flat.frame.points(np.column_stack([flat.outline, level]))

    flats = [(*side.part.flats.values(), *side.part.facets) for side in (left, right)]
    # The face of a rolled skin is its flat pattern: where it lies its facets say.
    for one_flat, other_flat in zip(*flats, strict=True):
        assert one_flat.name == other_flat.name
        here = left.pose.points(middle(one_flat)) * IMAGE + SHIFT
        assert np.allclose(low_and_high(here), low_and_high(right.pose.points(middle(other_flat))))


def test_plates_lie_on_the_shapes_inside(built: Build) -> None:
    def layers(hole: str) -> list[tuple[str, float]]:
        stack = built.assembly.stacks[built.assembly.stack_of[hole]]
        return [(layer.part, round(layer.thickness, 6)) for layer in stack.layers]

    for side in ("left", "right"):
        # The straight end of the rolled skin is 0.6, the upper flange of the frame 0.8, the kinked leg 1.
        assert layers(f"tab {side}.eye.7") == [(f"tab {side}", 1.2), (f"rig {side}", 0.6)]
        assert layers(f"cap {side}.eye.1") == [(f"cap {side}", 1.2), (f"rig {side}", 0.8)]
        assert set(layers(f"lug {side}.eye.2")) == {(f"lug {side}", 1.2), (f"rig {side}", 1.0)}
        assert layers(f"side plate {side}.eye.1") == [(f"side plate {side}", 1.2), (f"rig {side}", 4.0)]
    # The strip is 30 wide flat, then 100 degrees of a radius of 30: its end leans out by 10 degrees, and what
    # lies on it does.
    tilt = built.assembly.placed["tab left"].pose.rotation[:, 2]
    assert np.abs(tilt) == pytest.approx([0, np.cos(np.radians(10)), np.sin(np.radians(10))])


def test_heads_that_came_set_in_it_are_drawn(built: Build) -> None:
    for side in ("left", "right"):
        part = built.assembly.placed[f"rig {side}"].part
        # Nose, rib and longeron have rows of 5, seat and fitting of 4: 23 rivets of two ends.
        assert part.heads == 46
        heads = sum(volume_of(piece) for piece in part.pieces[-46:])
        members = sum(volume(mesh_of(member.part)) for member in part.members)
        assert heads > 46 * 10  # the smallest is 6 wide and 1 high: 28
        assert volume(mesh_of(part)) == pytest.approx(members + heads)


def test_a_piece_within_a_piece_shows_each_head_once(tmp_path: Path) -> None:
    assert changed(tmp_path) == []
    outer = "format: 1\nbase: sheet\nforward: +x\nparts:\n"
    outer += "  sheet: {shape: skin, thickness: 1, outline: [[0, 0], [800, 0], [800, 800], [0, 800]]}\n"
    outer += "placed:\n  pair: {uses: two_rigs_steps.yaml, at: [0, 0, 50], x along: forward, y along: left}\n"
    (tmp_path / "outer.yaml").write_text(outer, encoding="utf-8")
    made = build(str(tmp_path / "outer.yaml"))
    assert [(finding.kind, finding.message) for finding in besides_the_kit(made)] == []
    part = made.assembly.placed["pair"].part
    # Its own 40 rivets, and those that the two rigs brought.
    assert part.heads == 2 * 46 + 2 * 40
    heads = sum(volume_of(piece) for piece in part.pieces[-80:])
    members = sum(volume(mesh_of(member.part)) for member in part.members)
    assert volume(mesh_of(part)) == pytest.approx(members + heads)


def test_a_sheet_under_its_heads_is_told_for_both_hands(tmp_path: Path) -> None:
    window = "    openings: {well: {outline: [[20, 110], [580, 110], [580, 490], [20, 490]]}}\n"
    ((kind, message),) = changed(tmp_path, "two_rigs.yaml", (window, ""))
    assert kind == "parts-interfere"
    assert message.startswith(
        "Rivets that came set in rig left stand in board and rivets that came set in rig right"
    )


@pytest.mark.parametrize(("wide", "stopped"), [(79.8, False), (80.2, True)])
def test_its_kinked_angle_is_beside_a_tool(tmp_path: Path, wide: float, stopped: bool) -> None:
    # The straps are riveted at y = 190 of the rig; its angle stands at y = 160 - 11 + 1: 40 off.
    found = changed(
        tmp_path,
        FILES[-1],
        ("cylinder: 7, from: 0, to: 40}, {cylinder: 24, from: 40", f"cylinder: {wide}, from: 2"),
        ("finished: yes", "finished: no"),
        ("everything ready", "[strap left.eye, strap right.eye]\n    head: upper"),
    )
    # Hole 6 and 7 are beside the kinked end and the lug on it; the angle ends aft of hole 2.
    for side in ("left", "right"):
        beside = f"strap {side}.eye 3-5: no tool reaches these rivets beside rig {side}."
        assert (("tool-blocked", beside) in found) is stopped


def test_it_is_turned_and_taken_off_in_a_sub_assembly(tmp_path: Path) -> None:
    apart = """\
  - apart: left set
    up: rig left.floor face outside
    steps:
      - place: rig left
      - place: strap left
        pins: ends and every 4th
      - turn over: sideways
      - turn over: sideways
  - place: left set
  - take off: left set
  - place: left set
  - place: rig right
  - take off: rig right
  - place: rig right
"""
    text = (FOLDER / FILES[-1]).read_text(encoding="utf-8")
    head, _, rest = text.partition("steps:\n")
    _, _, rest = rest.partition("  - place: [strap left, strap right]\n")
    assert changed(tmp_path) == []
    (tmp_path / FILES[-1]).write_text(
        head + "steps:\n" + apart + "  - place: strap right\n" + rest, encoding="utf-8"
    )
    made = build(str(tmp_path / FILES[-1]))
    assert [(finding.kind, finding.message) for finding in besides_the_kit(made)] == []
    scenes = [scene_of_step(made, number) for number in range(1, 8)]
    assert [len(scene.items) for scene in scenes] == [1, 2, 2, 2, 3, 3, 3]
    assert [scene.up_name for scene in scenes[:4]] == ["upper side", "upper side", "lower side", "upper side"]
