"""Rows of holes: the three layouts, their exceptions, and where their mistakes stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.model import Across, AlongEdge, FromTo, Grid, OtherSize, Points, Spacing
from seqviz.records.row_layout import hole_count
from tests.records.written import MODEL, Place, changed, loaded, places, said

ROW = "cross 1: {from: [100, 55], to: [100, 305], pitch: 25, size: small}"
"""Stands in line 18, column 7, of MODEL."""


def test_rows_are_read(tmp_path: Path) -> None:
    read = loaded(tmp_path, MODEL)
    assert read.findings == []
    file = str(tmp_path / "model.yaml")
    rail, cross, edge = read.model.parts["skin"].rows
    assert rail.layout == FromTo(
        start=(20.0, 10.0), end=(600.0, 10.0), spacing=Spacing(count=30, at=At(file=file, line=17, column=52))
    )
    assert (rail.name, rail.flat, rail.both_sides, rail.diameter) == ("rail", None, True, None)
    assert rail.size is not None
    assert (rail.size.text, rail.size.at.column) == ("small", 62)
    assert rail.at == At(file=file, line=17, column=7)
    # 250 mm in pitches of 25: 10 spaces, 11 holes.
    assert (hole_count(rail), hole_count(cross), hole_count(edge)) == (30, 11, None)
    assert edge.layout == AlongEdge(
        edge="aft edge",
        inset=10.0,
        first=20.0,
        last_in=20.0,
        spacing=Spacing(pitch=20.0, at=At(file=file, line=19, column=70)),
        at=At(file=file, line=19, column=21),
    )
    (foot,) = read.model.parts["rail"].rows
    assert (foot.flat, foot.skip) == ("leg 1", (4,))
    assert foot.exceptions == (OtherSize(first=7, last=8, size=None, at=At(file=file, line=26, column=98)),)


def test_points_spaces_diameter_and_exceptions(tmp_path: Path) -> None:
    text = "cross 1: {at: [[1, 2], [3, 4 mm]], diameter: 1/8 in, 2: big}"
    text += "\n      c: {from: [0, 9], to: [9, 9], spaces: 3, size: big}"
    skin = loaded(tmp_path, changed(ROW, text)).model.parts["skin"]
    points, spaced = skin.rows[1:3]
    assert points.layout == Points(points=((1.0, 2.0), (3.0, 4.0)))
    assert (points.size, points.diameter) == (None, 3.175)
    assert [(other.first, other.last, other.size) for other in points.exceptions] == [(2, 2, "big")]
    assert (hole_count(points), hole_count(spaced)) == (2, 4)


def test_a_row_along_an_edge_may_end_by_pitch_and_count(tmp_path: Path) -> None:
    text = "cross 1: {along: left_edge, in: 9, first: 9, pitch: 20, count: 5, size: small}"
    read = loaded(tmp_path, changed(ROW, text))
    assert read.findings == []
    row = read.model.parts["skin"].rows[1]
    assert isinstance(row.layout, AlongEdge)
    assert (row.layout.edge, row.layout.last_in, hole_count(row)) == ("left edge", None, 5)


def test_rows_across_and_grids(tmp_path: Path) -> None:
    text = "cross 1: {across at: 40, from centre: 76 mm, count: 4, size: small}"
    text += "\n      b: {across_at: 80, from_centre: 90, pitch: 60, size: small}"
    text += "\n      c: {grid: [20, -30], columns: 3, rows: 2, at: [50, 100], size: small, 6: none}"
    text += "\n      d: {at: [5, 6], size: small}"
    read = loaded(tmp_path, changed(ROW, text))
    assert read.findings == []
    across, by_pitch, grid, point = read.model.parts["skin"].rows[1:5]
    file = str(tmp_path / "model.yaml")
    assert across.layout == Across(
        station=40.0,
        from_centre=76.0,
        spacing=Spacing(count=4, at=At(file=file, line=18, column=59)),
        at=At(file=file, line=18, column=28),
    )
    assert grid.layout == Grid(pitches=(20.0, -30.0), columns=3, rows=2, corner=(50.0, 100.0))
    assert point.layout == Points(points=((5.0, 6.0),))
    # 180 from end to end in pitches of 60: 4 holes.
    assert [hole_count(row) for row in (across, by_pitch, grid, point)] == [4, 4, 6, 1]


@pytest.mark.parametrize(
    ("row", "place"),
    [
        ("cross 1: {from: [100, 55], to: [100, 305], pitch: 26, size: small}", ("bad-value", 18, 57)),
        ("cross 1: {from: [0, 0], to: [0, 100], pitch: 200, size: small}", ("bad-value", 18, 52)),
        ("cross 1: {from: [0, 0], to: [0, 100], count: 1, size: small}", ("bad-value", 18, 52)),
        ("cross 1: {from: [0, 0], to: [0, 0], count: 3, size: small}", ("bad-value", 18, 35)),
        ("cross 1: {from: [0, 0], to: [0, 9], count: 0, size: small}", ("bad-value", 18, 50)),
        ("cross 1: {from: [0, 0], to: [0, 9], count: 2.5, size: small}", ("bad-value", 18, 50)),
        ("cross 1: {from: [0, 0], to: [0, 9], count: 1e9, size: small}", ("bad-value", 18, 50)),
        ("cross 1: {from: [0, 0], to: [0, 9], count: 3, pitch: 3, size: small}", ("bad-value", 18, 53)),
        ("cross 1: {from: [0, 0], to: [0, 9], size: small}", ("missing-word", 18, 7)),
        ("cross 1: {from: [0, 0], count: 3, size: small}", ("missing-word", 18, 7)),
        ("cross 1: {size: small}", ("missing-word", 18, 7)),
        ("cross 1: {from: [0, 0], to: [0, 9], at: [[1, 1]], size: small}", ("bad-value", 18, 43)),
        ("cross 1: {at: [[1, 1]], count: 1, size: small}", ("bad-value", 18, 31)),
        ("cross 1: {along: aft edge, first: 9, last in: 9, count: 3, size: small}", ("missing-word", 18, 7)),
        ("cross 1: {along: aft edge, in: 9, first: 9, count: 3, size: small}", ("missing-word", 18, 7)),
        (
            "cross 1: {along: back edge, in: 9, first: 9, last in: 9, count: 3, size: small}",
            ("unknown-word", 18, 24),
        ),
        ("cross 1: {at: [[1, 1]]}", ("missing-word", 18, 7)),
        ("cross 1: {at: [[1, 1]], size: small, diameter: 3}", ("bad-value", 18, 44)),
        ("cross 1: {at: [[1, 1]], diameter: 3,3}", ("bad-value", 18, 41)),
        ("cross 1: {at: [[1, 1]], size: smal}", ("unknown-name", 18, 37)),
        ("cross 1: {at: [[1, 1]], size: small, 1: bgi}", ("unknown-name", 18, 47)),
        ("cross 1: {at: [[1, 1]], size: small, 1:none}", ("bad-value", 18, 44)),
        ("cross 1: {at: [[1, 1]], size: small, 1: none, 1: big}", ("duplicate-name", 18, 53)),
        ("cross 1: {at: [[1, 1]], size: small, pilot: 3.3}", ("bad-value", 18, 51)),
        ("cross 1: {at: [[1, 1]], size: small, pilot: 2, punched: maybe}", ("bad-value", 18, 63)),
        ("cross 1: {at: [[1, 1]], diameter: 2, pilot: 2.4}", ("bad-value", 18, 51)),
        ("cross 1: {at: [[1, 1]], size: big, 1: small, pilot: 3.5}", ("bad-value", 18, 59)),
        ("cross 1: {grid: [20, 30], columns: 3, at: [9, 9], size: small}", ("missing-word", 18, 7)),
        ("cross 1: {grid: [20, 30], columns: 0, rows: 1, at: [9, 9], size: small}", ("bad-value", 18, 42)),
        (
            "cross 1: {grid: [9, 9], columns: 2, rows: 1, at: [[9, 9], [1, 1]], size: small}",
            ("bad-value", 18, 56),
        ),
        (
            "cross 1: {grid: [9, 9], columns: 2, rows: 1, count: 2, at: [9, 9], size: small}",
            ("bad-value", 18, 52),
        ),
        ("cross 1: {across at: 40, count: 3, size: small}", ("missing-word", 18, 7)),
        ("cross 1: {across at: 40, from centre: 90, size: small}", ("missing-word", 18, 7)),
        ("cross 1: {across at: 40, from centre: 90, count: 1, size: small}", ("bad-value", 18, 56)),
        ("cross 1: {across at: 40, from centre: 0, count: 3, size: small}", ("bad-value", 18, 55)),
        ("cross 1: {across at: 40, from centre: 90, pitch: 50, size: small}", ("bad-value", 18, 56)),
        (
            "cross 1: {across at: 40, from centre: 90, count: 3, to: [1, 1], size: small}",
            ("bad-value", 18, 32),
        ),
        ("cross 1: {at: [[1, 1]], size: small, flat: leg 1}", ("unknown-name", 18, 50)),
        ("cross 1: {at: [[1, 1]], size: small, both sides: on}", ("bad-value", 18, 56)),
        ("cross 1: {at: [[1, 1]], size: small, crosses: [rial]}", ("unknown-name", 18, 54)),
        ("7: {at: [[1, 1]], size: small}", ("bad-value", 18, 7)),
        ("c.1: {at: [[1, 1]], size: small}", ("bad-value", 18, 7)),
        ("c_1: {at: [[1, 1]], size: small}", ("bad-value", 18, 7)),
        ("edge: {at: [[1, 1]], size: small}", ("duplicate-name", 19, 7)),
        ("cross 1: [1, 2]", ("bad-value", 18, 16)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, row: str, place: Place) -> None:
    assert places(loaded(tmp_path, changed(ROW, row))) == [place]


def test_a_wrong_pitch_says_what_would_fit(tmp_path: Path) -> None:
    finding = said(loaded(tmp_path, changed("pitch: 25,", "pitch: 26,")))
    # 9 x 26 = 234, 10 x 26 = 260.
    assert finding.message == "250 mm is no whole number of pitches of 26 mm."
    assert finding.why.startswith("9 make 234 mm, 10 make 260 mm;")


def test_an_angle_wants_to_know_the_flat(tmp_path: Path) -> None:
    assert places(loaded(tmp_path, changed("flat: leg 1, ", ""))) == [("missing-word", 26, 7)]
    assert places(loaded(tmp_path, changed("flat: leg 1", "flat: leg 3"))) == [("unknown-name", 26, 20)]


def test_a_hole_too_few_for_rounding_is_told(tmp_path: Path) -> None:
    # 0.01 mm off is rounding, 0.02 mm is not.
    assert places(loaded(tmp_path, changed("[100, 305]", "[100, 305.009]"))) == []
    assert places(loaded(tmp_path, changed("[100, 305]", "[100, 305.02]"))) == [("bad-value", 18, 60)]


def test_a_row_says_whether_heads_lie_flush(tmp_path: Path) -> None:
    for word, flush in (("yes", True), ("no", False)):
        text = changed(ROW, ROW.replace("size: small", f"size: small, countersunk: {word}"))
        assert [row.countersunk for row in loaded(tmp_path, text).model.parts["skin"].rows] == [
            None,
            flush,
            None,
        ]
