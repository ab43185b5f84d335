from __future__ import annotations

import numpy as np
import pytest

from seqviz.findings import Finding
from seqviz.geometry.pose import Array
from seqviz.parts.body import Body
from seqviz.parts.formed import formed_body
from seqviz.parts.part import Flat
from seqviz.parts.rows import row_places
from seqviz.parts.sheet import sheet_body
from seqviz.records.model import Across, AlongEdge, FromTo, Grid, MirrorLine, Points, Spacing
from seqviz.records.row_layout import Layout
from tests.parts.samples import angle, at, row, skin, spacing


def face() -> Flat:
    body = sheet_body("p", skin(), at())
    assert isinstance(body, Body)
    return body.flats["face"]


MIDDLE = MirrorLine(axis="y", value=180.0)


def places(layout: Layout, forward: str = "+x", line: MirrorLine = MIDDLE) -> Array:
    found = row_places(row(layout), face(), forward, line)
    assert not isinstance(found, Finding), found.message
    return found


def refused(layout: Layout, line: MirrorLine | None = MIDDLE) -> Finding:
    found = row_places(row(layout), face(), "+x", line)
    assert isinstance(found, Finding)
    return found


def from_to(span: float, said: Spacing) -> FromTo:
    return FromTo(start=(20.0, 50.0), end=(20.0 + span, 50.0), spacing=said)


def along(edge: str, said: Spacing, first: float = 20.0, last_in: float | None = 20.0) -> AlongEdge:
    return AlongEdge(edge=edge, inset=10.0, first=first, last_in=last_in, spacing=said, at=at(44))


@pytest.mark.parametrize("said", [spacing(count=5), spacing(spaces=4), spacing(pitch=25), spacing(5, 25.0)])
def test_from_to_by_count_spaces_or_pitch(said: Spacing) -> None:
    found = places(from_to(100, said))
    assert np.allclose(found, [[20, 50], [45, 50], [70, 50], [95, 50], [120, 50]])


def test_a_pitch_in_inches_need_not_be_exact() -> None:
    found = places(from_to(580, spacing(pitch=19.3333)))  # 30 x 19.3333 = 579.999
    assert len(found) == 31
    assert found[-1].tolist() == [600, 50]


def test_points_are_taken_as_written() -> None:
    assert places(Points(points=((3.0, 4.0), (1.0, 2.0)))).tolist() == [[3, 4], [1, 2]]


def test_along_the_left_edge_from_aft_to_forward() -> None:
    # left edge y = 360, 10 in; 30 holes from x = 20 to 600: pitch 20
    found = places(along("left edge", spacing(count=30)))
    assert np.allclose(found[[0, 1, 29]], [[20, 350], [40, 350], [600, 350]])


def test_along_the_forward_edge_from_right_to_left() -> None:
    # forward edge x = 620, from its right end y = 0: first 10, last at 360 - 30
    found = places(along("forward edge", spacing(pitch=80), first=10.0, last_in=30.0))
    assert np.allclose(found, [[610, 10], [610, 90], [610, 170], [610, 250], [610, 330]])


def test_forward_may_point_aft() -> None:
    found = places(along("left edge", spacing(spaces=2)), forward="-x")
    assert np.allclose(found, [[600, 10], [310, 10], [20, 10]])


def across(from_centre: float, said: Spacing, station: float = 40.0) -> Across:
    return Across(station=station, from_centre=from_centre, spacing=said, at=at(45))


def test_across_from_right_to_left_about_the_mirror_line() -> None:
    # 180 - 90 = 90 to 180 + 90 = 270, four holes 60 apart
    expected = [[40, 90], [40, 150], [40, 210], [40, 270]]
    for said in (spacing(count=4), spacing(spaces=3), spacing(pitch=60)):
        assert np.allclose(places(across(90, said)), expected)
    assert np.allclose(places(across(90, spacing(count=4)), forward="-x"), expected[::-1])
    assert np.allclose(places(across(0, spacing(count=1))), [[40, 180]])


def test_across_where_forward_is_y() -> None:
    line = MirrorLine(axis="x", value=310.0)
    # left of +y is -x: from right to left is from 360 to 260, at y = 40
    found = places(across(50, spacing(count=3)), forward="+y", line=line)
    assert np.allclose(found, [[360, 40], [310, 40], [260, 40]])


def test_a_grid_counts_along_x_first() -> None:
    grid = Grid(pitches=(20.0, -30.0), columns=3, rows=2, corner=(50.0, 100.0))
    expected = [[50, 100], [70, 100], [90, 100], [50, 70], [70, 70], [90, 70]]
    assert np.allclose(places(grid), expected)


def test_across_needs_a_line_that_runs_forward() -> None:
    for line in (None, MirrorLine(axis="x", value=0.0)):
        finding = refused(across(90, spacing(count=4)), line)
        assert (finding.kind, finding.at) == ("missing-word", at(45))
    assert refused(across(90, spacing(pitch=50))).kind == "bad-value"


def test_no_end_but_a_pitch_and_a_count() -> None:
    found = places(along("aft edge", spacing(count=3, pitch=25), last_in=None))
    assert np.allclose(found, [[10, 20], [10, 45], [10, 70]])
    assert len(places(along("aft edge", spacing(spaces=3, pitch=25), last_in=None))) == 4


def test_a_single_hole_where_both_ends_are_one() -> None:
    assert places(from_to(0, spacing(count=1))).tolist() == [[20, 50]]


def test_no_whole_number_of_pitches() -> None:
    finding = refused(from_to(580, spacing(pitch=25, line=61)))
    assert (finding.kind, finding.at) == ("bad-value", at(61))
    assert finding.message == "Row r: 580 is 23.2 pitches of 25; 575 would be 23."


def test_along_an_edge_too() -> None:
    finding = refused(along("left edge", spacing(pitch=25)))
    assert "580 is 23.2 pitches of 25; 575 would be 23" in finding.message


@pytest.mark.parametrize(
    ("layout", "kind", "words"),
    [
        (from_to(100, spacing()), "missing-word", "how many holes"),
        (from_to(100, spacing(count=0)), "bad-value", "there are no holes"),
        (from_to(100, spacing(pitch=-5)), "bad-value", "there are no holes"),
        (from_to(100, spacing(count=1)), "bad-value", "one hole cannot lie at both ends, 100 apart"),
        (
            from_to(100, spacing(count=4, pitch=25)),
            "bad-value",
            "3 spaces of 25 make 75, but the ends are 100",
        ),
        (along("left edge", spacing(count=3), last_in=None), "missing-word", "where the row ends"),
        (along("left edge", spacing(count=3, pitch=0), last_in=None), "bad-value", "there are no holes"),
        (along("left edge", spacing(count=3), first=400, last_in=300), "bad-value", "the edge is 620 long"),
        (along("upper edge", spacing(count=3)), "bad-value", "no upper edge on face"),
    ],
)
def test_layouts_that_cannot_be(layout: Layout, kind: str, words: str) -> None:
    finding = refused(layout)
    assert finding.kind == kind
    assert words in finding.message


def test_a_leg_has_no_named_edges() -> None:
    body = formed_body("a", angle(), at())
    assert isinstance(body, Body)
    finding = row_places(row(along("left edge", spacing(count=3))), body.flats["leg 1"], "+x")
    assert isinstance(finding, Finding)
    assert (finding.at, finding.message) == (at(44), "Row r: there is no left edge on leg 1.")
