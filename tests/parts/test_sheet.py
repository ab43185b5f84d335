from __future__ import annotations

import numpy as np
import pytest
import shapely

from seqviz.findings import Finding
from seqviz.parts.body import Body
from seqviz.parts.sheet import sheet_body
from seqviz.records.model import Opening, PlateShape
from tests.parts.samples import SQUARE, at, prisms, skin

ELL = ((0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (20.0, 20.0), (20.0, 80.0), (0.0, 80.0))


def opening(name: str, center: tuple[float, float] | None, diameter: float | None) -> Opening:
    return Opening(name=name, center=center, diameter=diameter, outline=(), at=at(30))


def plate(*openings: Opening) -> PlateShape:
    return PlateShape(thickness=1.0, outline=SQUARE, openings=openings)


@pytest.mark.parametrize("clockwise", [False, True])
def test_outside_follows_the_sense_of_the_outline(clockwise: bool) -> None:
    body = sheet_body("p", skin(ELL[::-1] if clockwise else ELL), at())
    assert isinstance(body, Body)
    face = body.flats["face"]
    assert np.allclose(face.face_normal("outside"), [0, 0, -1 if clockwise else 1])
    assert face.face_level("outside") == (0.0 if clockwise else 0.8)
    assert shapely.LinearRing(face.outline).is_ccw
    # an L of 60 x 20 and 20 x 60
    assert shapely.Polygon(face.outline).area == pytest.approx(2400)
    assert sum(shapely.Polygon(p.polygon).area for p in prisms(body)) == pytest.approx(2400)
    assert body.piece_flats == ("face",) * len(body.pieces)
    assert {p.height for p in prisms(body)} == {0.8}


def test_a_closing_corner_written_again_is_dropped() -> None:
    body = sheet_body("p", skin((*SQUARE, SQUARE[0])), at())
    assert isinstance(body, Body)
    assert body.flats["face"].outline.tolist() == [list(corner) for corner in SQUARE]


def test_openings_are_taken_out_of_the_pieces() -> None:
    slot = Opening(
        name="slot", center=None, diameter=None, outline=((300, 50), (400, 50), (400, 90)), at=at()
    )
    body = sheet_body("p", plate(opening("round", (180, 250), 90.0), slot), at())
    assert isinstance(body, Body)
    assert len(body.flats["face"].openings) == 2
    # 620 x 360 - pi/4 x 90^2 - 100 x 40 / 2; the circle's chords lie inside it by up to 0.01 mm
    area = sum(shapely.Polygon(p.polygon).area for p in prisms(body))
    assert area == pytest.approx(223200 - 6361.7 - 2000, abs=0.01 * 283)


@pytest.mark.parametrize(
    ("outline", "words"),
    [
        (((0.0, 0.0), (10.0, 0.0), (0.0, 0.0)), "fewer than three corners"),
        (((0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)), "crosses or touches itself"),
        (((0.0, 0.0), (50.0, 0.0), (50.0, 0.15), (0.0, 0.15)), "too small"),
    ],
)
def test_impossible_outlines(outline: tuple[tuple[float, float], ...], words: str) -> None:
    finding = sheet_body("p", skin(outline), at(8))
    assert isinstance(finding, Finding)
    assert (finding.kind, finding.at) == ("bad-value", at(8))
    assert words in finding.message


@pytest.mark.parametrize(
    ("openings", "kind", "words"),
    [
        ((opening("a", (20, 100), 50.0),), "bad-value", "Opening a reaches the edge"),
        ((opening("a", (900, 100), 50.0),), "bad-value", "Opening a reaches the edge"),
        (
            (opening("a", (100, 100), 50.0), opening("b", (140, 100), 50.0)),
            "bad-value",
            "Opening b overlaps opening a",
        ),
        ((opening("a", (100, 100), None),), "missing-word", "Opening a has no size"),
        ((opening("a", (100, 100), 0.1),), "bad-value", "opening a: diameter 0.1 mm is too small"),
    ],
)
def test_impossible_openings(openings: tuple[Opening, ...], kind: str, words: str) -> None:
    finding = sheet_body("p", plate(*openings), at(8))
    assert isinstance(finding, Finding)
    assert (finding.kind, finding.at) == (kind, at(30))
    assert words in finding.message
