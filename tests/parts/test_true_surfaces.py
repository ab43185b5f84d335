"""Facets of bends, rolls, tubes, rods, openings, lips: corners on the true surface, middles within 0.01."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians, sin, tan
from pathlib import Path

import numpy as np
import pytest

from seqviz.geometry.pose import Array
from seqviz.geometry.prism import Piece, Prismoid
from seqviz.geometry.volume import corners_of
from seqviz.parts.part import Part
from tests.parts.measured import SAGITTA, part_of

ON_IT = 1e-9  # mm
COARSE = SAGITTA / 3
"""mm: were all facets nearer than this, there would be more than are needed."""

RIB = """
shape: frame
thickness: 1.0
bend radius: 2
outline: [[0, 0], [100, 0], [100, 60], [0, 60]]
flanges: {{right: {{width: 15, angle: {angle}}}}}
openings: {{pass: {{center: [50, 30], diameter: 30, lip: {{height: 7, angle: {angle}}}}}}}
"""
ANGLE = "shape: angle\nthickness: 1.0\nlength: 100\nlegs: [30, 30]\nbend radius: 1.5\nangle: {angle}"
ROLLED = """
shape: skin
thickness: 0.8
outline: [[0, 0], [160, 0], [160, 200], [0, 200]]
rolled: {radius: 60, about: [[0, 30], [160, 30]], from: 0, angle: 120, side: outside}
"""


def bends(part: Part) -> list[Piece]:
    """Return the facets of bends: the pieces of no flat."""
    return [piece for piece, name in zip(part.pieces, part.piece_flats, strict=True) if name is None]


def strays(pieces: Iterable[Piece], middle: tuple[float, float], radii: tuple[float, float]) -> Array:
    """Return how far the middles of chords are off the one of two cylinders along x that they belong to, mm.

    ``middle`` is their y and z. Both ends of a chord lie on one of them; other edges are no chords.
    """
    found: list[float] = []
    for piece in pieces:
        ring = corners_of(piece)[0][:, 1:] - middle
        away = np.linalg.norm(ring, axis=1)
        nearest = np.argmin(np.abs(away[:, None] - radii), axis=1)
        assert np.abs(away - np.array(radii)[nearest]).max() < ON_IT
        for k in range(len(ring)):
            if nearest[k] == nearest[k - 1]:
                found.append(radii[nearest[k]] - float(np.linalg.norm(ring[k] + ring[k - 1])) / 2)
    return np.array(found)


def within(found: Array, chords: int) -> None:
    assert len(found) >= chords
    assert found.min() > 0
    assert COARSE < found.max() <= SAGITTA + ON_IT


@pytest.mark.parametrize("angle", [30, 83, 90, 135])
def test_bends_of_long_parts(tmp_path: Path, angle: float) -> None:
    part = part_of(tmp_path, ANGLE.format(angle=angle))
    # The bend's middle stands over the tangent on leg 1, at R + T.
    middle = tan(radians(angle) / 2) * 2.5, 2.5
    within(strays(bends(part), middle, (1.5, 2.5)), 2 * 3)


@pytest.mark.parametrize("angle", [85, 90, 100])
def test_flanges_of_frames(tmp_path: Path, angle: float) -> None:
    part = part_of(tmp_path, RIB.format(angle=angle))
    straight = [piece for piece in bends(part) if not isinstance(piece, Prismoid)]
    # They turn down from z = 1.
    within(strays(straight, (tan(radians(angle) / 2) * 3, 1 - 3), (2.0, 3.0)), 2 * 8)


def test_rolls(tmp_path: Path) -> None:
    part = part_of(tmp_path, ROLLED)
    # The hollow face is z = 0.8; its middle stands 60 over it, at the line. The flat ends have no chords.
    rolled = [piece for piece in part.pieces if isinstance(piece, Prismoid)]
    found = []
    for piece in rolled:
        for ring, radius in zip(corners_of(piece), (60.8, 60.0), strict=True):
            away = np.linalg.norm(ring[:, 1:] - [30, 60.8], axis=1)
            assert away == pytest.approx(radius, abs=ON_IT)
            turn = np.arctan2(ring[:, 1] - 30, 60.8 - ring[:, 2])
            chord = ring[np.argmin(turn)] + ring[np.argmax(turn)]
            found.append(radius - float(np.linalg.norm(chord[1:] / 2 - [30, 60.8])))
    within(np.array(found), 2 * 57)


def test_tubes(tmp_path: Path) -> None:
    part = part_of(tmp_path, "shape: tube\nlength: 100\ndiameter: 30\nwall: 1.5")
    within(strays(part.pieces, (0.0, 0.0), (13.5, 15.0)), 2 * 80)


def test_rods_and_openings(tmp_path: Path) -> None:
    rod = "shape: fitting\npieces:\n  stud: {shape: rod, diameter: 8, length: 26}"
    wedges = [corners_of(piece)[0][1:, :2] for piece in part_of(tmp_path, rod).pieces]
    plate = (
        "shape: plate\nthickness: 1\noutline: [[0, 0], [100, 0], [100, 60], [0, 60]]\n"
        "openings: {pass: {center: [50, 30], diameter: 40}}"
    )
    (opening,) = part_of(tmp_path, plate).flats["face"].openings
    for rims, radius in ((wedges, 4.0), ([np.vstack([opening, opening[:1]]) - [50, 30]], 20.0)):
        for rim in rims:
            assert np.linalg.norm(rim, axis=1) == pytest.approx(radius, abs=ON_IT)
            within(radius - np.linalg.norm((rim[1:] + rim[:-1]) / 2, axis=1), 6)


def lip_surface(points: Array, turn: float, radius: float) -> Array:
    """Return how far points (n, 3) are off the face of the rib's lip that is bent to ``radius``, mm.

    The bend's middle is a ring 15 + 3 tan(A / 2) from the opening's middle, 3 below the web's top.
    """
    edge = 15 + 3 * tan(turn / 2)
    inward = edge - np.linalg.norm(points[:, :2] - [50, 30], axis=1)
    down = points[:, 2] - (1 - 3)
    # Turned from straight up by more than A a point belongs to the wall, whose normal stands at A.
    turned = np.arctan2(inward, down)
    on_bend = np.hypot(inward, down) - radius
    on_wall = inward * sin(turn) + down * cos(turn) - radius
    return np.asarray(np.abs(np.where(turned <= turn, on_bend, on_wall)))


@pytest.mark.parametrize("angle", [85, 90, 100])
def test_lips(tmp_path: Path, angle: float) -> None:
    lips = [p for p in part_of(tmp_path, RIB.format(angle=angle)).pieces if isinstance(p, Prismoid)]
    shares = np.linspace(0.0, 1.0, 9)
    farthest = []
    # Corners 0 and 1 of both ends lie on the outer face of the bend, 3 and 2 on the inner one.
    for radius, (one, other) in ((3.0, (0, 1)), (2.0, (3, 2))):
        for lip in lips:
            quad = np.array([[lip.bottom[one], lip.bottom[other]], [lip.top[one], lip.top[other]]])
            assert lip_surface(quad.reshape(-1, 3), radians(angle), radius).max() < ON_IT
            # The web's plane and the rim bound the face; between its edges it is plane.
            across = np.einsum("s,ijc->sijc", np.ones(9), quad)
            side = (1 - shares)[:, None, None] * across[:, 0] + shares[:, None, None] * across[:, 1]
            grid = (1 - shares)[:, None, None] * side[None, :, 0] + shares[:, None, None] * side[None, :, 1]
            farthest.append(lip_surface(grid.reshape(-1, 3), radians(angle), radius).max())
    assert COARSE < max(farthest) <= SAGITTA + ON_IT
    # 18 mm round it need 2 pi / (2 acos(1 - 0.01 / 18)) = 94.2, so 96; the bend of 3 mm 9.6 a right angle.
    assert len(lips) == 96 * (1 + (11 if angle == 100 else 10))
