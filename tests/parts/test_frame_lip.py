from __future__ import annotations

import math

import numpy as np
import pytest

from seqviz.geometry.polygons import facets
from seqviz.geometry.prism import Prismoid
from seqviz.geometry.separation import deepest
from seqviz.geometry.solids import solids_of
from seqviz.geometry.volume import volume_of
from seqviz.parts.part import Part
from tests.parts.frames import frame, lip, made, opening


def ring(body: Part) -> list[Prismoid]:
    return [piece for piece in body.pieces if isinstance(piece, Prismoid)]


def test_volume_of_a_lip() -> None:
    body = made(frame(openings=(opening(lip=lip(6.0)),)))
    pieces = ring(body)
    # The web ends on a polygon about 15 + 3; the lip has as many sides.
    sides = len(body.flats["web"].openings[0])
    assert sides == 4 * math.ceil(facets(18.0, 360.0, 0.05) / 4)
    # Wall: between the polygons of radius 15 and 16, 6 - 3 high. Area of a polygon: n / 2 r2 sin(2 pi / n).
    polygon = sides / 2 * math.sin(2 * math.pi / sides)
    assert sum(volume_of(piece) for piece in pieces[-sides:]) == pytest.approx(polygon * (16**2 - 15**2) * 3)
    # By Pappus the bend is the quarter ring from 2 to 3 mm, whose middle of area lies 4 / (3 pi) x 19 / 5
    # from 18, turned round the middle of the opening; the facets are within 0.05 mm of it.
    quarter, arm = math.pi / 4 * (9 - 4), 18 - 4 / (3 * math.pi) * (27 - 8) / (9 - 4)
    assert sum(volume_of(piece) for piece in pieces[:-sides]) == pytest.approx(
        2 * math.pi * arm * quarter, rel=0.02
    )


@pytest.mark.parametrize(
    ("side", "low", "high"),
    [
        # The web fills 0 to 1, its outside is z = 1: to the inside a lip ends 6 below that, else 6 above 0.
        ("inside", -5.0, 1.0),
        ("outside", 0.0, 6.0),
    ],
)
def test_where_a_lip_is(side: str, low: float, high: float) -> None:
    body = made(frame(openings=(opening(lip=lip(6.0, side)),)))
    corners = np.concatenate([np.concatenate([piece.bottom, piece.top]) for piece in ring(body)])
    assert (corners[:, 2].min(), corners[:, 2].max()) == pytest.approx((low, high))
    away = np.linalg.norm(corners[:, :2] - [50, 30], axis=1)
    # The opening is as wide as written, the bend reaches 3 further.
    assert (away.min(), away.max()) == pytest.approx((15, 18))


def test_a_lip_of_45_degrees() -> None:
    body = made(frame(openings=(opening(lip=lip(6.0, angle=45.0)),)))
    corners = np.concatenate([np.concatenate([piece.bottom, piece.top]) for piece in ring(body)])
    away = np.linalg.norm(corners[:, :2] - [50, 30], axis=1)
    # It leans in: 6 along its outer face are 6 cos 45 to the middle and 6 sin 45 down, and the inner face
    # ends cos 45 lower.
    assert away.min() == pytest.approx(15 - 6 * math.cos(math.pi / 4))
    assert corners[:, 2].min() == pytest.approx(1 - 6 * math.sin(math.pi / 4) - math.cos(math.pi / 4))


def test_its_pieces_fill_it_and_do_not_overlap() -> None:
    body = made(frame(openings=(opening(12.0, lip(5.0)),)))
    solids = [solids_of([piece]) for piece in body.pieces]
    assert max(deepest(a, b) for k, a in enumerate(solids) for b in solids[:k]) < 1e-6
    assert set(body.piece_flats) == {"web", None}
