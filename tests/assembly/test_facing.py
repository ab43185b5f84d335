"""Bench words for the way a part faces: checked against its pose, and choosing between hands."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tests.assembly.trial import FLOOR, kinds, placed

SECTIONS = """
  zed:
    shape: zed
    thickness: 1.0
    length: 300
    flanges: [20, 18]
    web: 30
    bend radius: 2
    holes:
      foot: {flat: flange 1, from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}
  channel:
    shape: channel
    thickness: 1.0
    length: 300
    flanges: [20, 18]
    web: 30
    bend radius: 2
    holes:
      foot: {flat: flange 1, from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}
      back: {flat: web, from: [20, 15], to: [280, 15], count: 3, diameter: 3.3}
  hat:
    shape: hat
    thickness: 1.0
    length: 300
    feet: [18, 18]
    webs: [20, 20]
    crown: 30
    bend radius: 2
    holes:
      foot: {flat: foot 1, from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}
"""


def attempt(folder: Path, part: str, words: str, row: str = "foot", *, backwards: bool = False) -> list[str]:
    """Return kinds and messages where ``part`` lies on the left row, its x forward or backwards."""
    ends = (3, 1) if backwards else (1, 3)
    match = f"{{{row}.1: floor.left.{ends[0]}, {row}.3: floor.left.{ends[1]}}}"
    entry = f"  it: {{part: {part}, match: {match}, {words}}}\n"
    _, findings = placed(folder, f"{FLOOR}{SECTIONS}placed:\n{entry}")
    assert all(f.kind in ("faces-wrong-way", "bad-value") for f in findings)
    return [f"{f.kind}: {f.message}" for f in findings]


@pytest.mark.parametrize(
    ("part", "words", "row"),
    [
        # x runs forward; y of the flange runs to the left from its corner, so the web stands on the right.
        # The row lies on the left of the mirror line, so right is inboard.
        ("zed", "standing leg: right", "foot"),
        ("zed", "standing leg: inboard", "foot"),
        # The zed's web has its outside away from flange 1: to the right. Flange 2 reaches to the right.
        ("zed", "web faces: right", "foot"),
        ("zed", "flange faces: inboard", "foot"),
        # The channel's flange 2 lies over flange 1: it reaches to the left.
        ("channel", "web faces: right", "foot"),
        ("channel", "flange faces: left", "foot"),
        ("hat", "standing leg: right", "foot"),
        # On its web: the outside lies down, both flanges stand up.
        ("channel", "web faces: down", "back"),
        ("channel", "flange faces: up", "back"),
    ],
)
def test_what_is_so_passes(tmp_path: Path, part: str, words: str, row: str) -> None:
    assert attempt(tmp_path, part, words, row) == []
    if row == "foot":
        assert [one.partition(":")[0] for one in attempt(tmp_path, part, words, row, backwards=True)] == [
            "faces-wrong-way"
        ]


def test_what_is_not_so_is_told_in_bench_words(tmp_path: Path) -> None:
    assert attempt(tmp_path, "zed", "standing leg: left") == [
        "faces-wrong-way: The standing leg of it stands right of its rivets, not left."
    ]
    assert attempt(tmp_path, "zed", "web faces: outboard") == [
        "faces-wrong-way: The web of it faces right, not outboard."
    ]
    assert attempt(tmp_path, "channel", "flange faces: down", "back") == [
        "faces-wrong-way: A flange of it reaches up, not down."
    ]


@pytest.mark.parametrize(
    ("part", "words", "row"),
    [
        ("hat", "web faces: left", "foot"),
        ("hat", "flange faces: left", "foot"),
        ("channel", "standing leg: left", "back"),
    ],
)
def test_what_says_nothing(tmp_path: Path, part: str, words: str, row: str) -> None:
    word = words.replace(":", ": ").replace("  ", " ")
    assert attempt(tmp_path, part, words, row) == [f"bad-value: `{word}` says nothing about it."]


@pytest.mark.parametrize(("side", "left_mirrored"), [("inboard", False), ("outboard", True)])
def test_faces_choose_between_the_hands(tmp_path: Path, side: str, left_mirrored: bool) -> None:
    both = "      side: {from: [20, 190], to: [280, 190], count: 3, diameter: 3.3, both sides: yes}\n"
    entry = (
        "  z: {part: zed, match: {foot.1: floor.side.1, foot.3: floor.side.3}, "
        f"web faces: {side}, both sides: other hand}}\n"
    )
    assembly, findings = placed(tmp_path, f"{FLOOR}{both}{SECTIONS}placed:\n{entry}")
    assert kinds(findings) == []
    left, right = assembly.placed["z left"], assembly.placed["z right"]
    assert (left.part.mirrored, right.part.mirrored) == (left_mirrored, not left_mirrored)
    for one, outboard in ((left, [0, 1, 0]), (right, [0, -1, 0])):
        faces = one.pose.vectors(one.part.flats["web"].face_normal("outside"))
        assert np.allclose(faces, np.array(outboard) * (1 if side == "outboard" else -1))


STOCK = """
stock:
  zed stock: {shape: zed, thickness: 0.8, flanges: [18, 16], web: 25, row in: 9, ends: 10}
  channel stock: {shape: channel, thickness: 0.8, flanges: [18, 16], web: 25, row on: web, row in: 9, ends: 9}
  hat stock: {shape: hat, thickness: 0.8, feet: [16, 16], webs: [20, 20], crown: 25, row in: 9, ends: 10}
"""


@pytest.mark.parametrize(
    ("stock", "words", "x"),
    [
        # The row runs to the left. With x to the left, y of the flange runs aft: the web stands forward.
        ("zed stock", "standing leg: forward", 1),
        ("zed stock", "standing leg: aft", -1),
        ("zed stock", "web faces: aft", -1),
        ("zed stock", "flange faces: forward", 1),
        ("hat stock", "standing leg: aft", -1),
        ("channel stock", "flange faces: up", 1),
    ],
)
def test_stock_runs_so_that_it_faces_as_said(tmp_path: Path, stock: str, words: str, x: int) -> None:
    entry = f"  it: {{stock: {stock}, along: floor.cross, {words}}}\n"
    assembly, findings = placed(tmp_path, f"{STOCK}{FLOOR}placed:\n{entry}")
    assert kinds(findings) == []
    it = assembly.placed["it"]
    assert np.allclose(it.pose.vectors(np.array([1.0, 0, 0])), [0, x, 0])
    assert it.part.holes[0].flat == {"channel stock": "web", "hat stock": "foot 1"}.get(stock, "flange 1")
    # Hole 1 over hole 1 whichever way it runs: y = 30 of the floor.
    assert np.allclose(it.pose.points(it.part.holes[0].centre)[:2], [150, 30])


@pytest.mark.parametrize(
    ("part", "words", "wrong"),
    [
        # x forward, y left: flange 1 lies on the floor and reaches left, the web stands on its right.
        ("channel", "standing leg: right", ""),
        ("channel", "standing leg: left", "The standing leg of it stands right, not left."),
        # y = 150 is left of the mirror line y = 100: right is inboard there.
        ("channel", "standing leg: inboard", ""),
        ("channel", "web faces: right", ""),
        ("channel", "web faces: left", "The web of it faces right, not left."),
        ("zed", "flange faces: right", ""),
        ("zed", "flange faces: left", "A flange of it reaches right, not left."),
    ],
)
def test_a_part_that_stands_at_a_point(tmp_path: Path, part: str, words: str, wrong: str) -> None:
    entry = f"  it: {{part: {part}, at: [0, 150, 0.8], x along: forward, y along: left, {words}}}\n"
    assembly, findings = placed(tmp_path, f"{FLOOR}{SECTIONS}placed:\n{entry}")
    assert [finding.message for finding in findings] == ([wrong] if wrong else [])
    assert kinds(findings) == (["faces-wrong-way"] if wrong else [])
    assert assembly.muted == (frozenset({"it"}) if wrong else frozenset())


def test_upright_no_leg_lies_down(tmp_path: Path) -> None:
    entry = "  it: {part: channel, at: [50, 150, 0.8], x along: up, y along: left, standing leg: left}\n"
    _, findings = placed(tmp_path, f"{FLOOR}{SECTIONS}placed:\n{entry}")
    assert kinds(findings) == ["bad-value"]
