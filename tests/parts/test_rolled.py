"""Rolled skins: where the pattern comes to lie, how much sheet that is, and what is said of mistakes."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely

from seqviz.geometry.pose import Array
from seqviz.geometry.separation import depths
from seqviz.geometry.solids import solids_of
from seqviz.geometry.volume import corners_of, volume_of
from seqviz.parts.facets import facet_lines
from seqviz.parts.flat_pattern import flat_pattern
from seqviz.parts.hand import other_hand
from seqviz.parts.make import make_parts
from seqviz.parts.mesh import mesh_of
from seqviz.parts.part import Part
from seqviz.records.model import Opening, Points, Rolling, Row, SkinShape
from tests.parts.samples import at, model, part, row

SHEET = ((0.0, 0.0), (900.0, 0.0), (900.0, 500.0), (0.0, 500.0))
LINE = ((0.0, 250.0), (900.0, 250.0))
PORT = Opening(name="port", center=(400.0, 300.0), diameter=60.0, outline=(), at=at(7))


def roll(  # a roll has six words
    radius: float = 160.0,
    about: tuple[tuple[float, float], tuple[float, float]] = LINE,
    start: float | None = -120.0,
    end: float | None = 120.0,
    angle: float | None = None,
    side: str = "inside",
) -> Rolling:
    return Rolling(radius=radius, about=about, start=start, end=end, angle=angle, side=side, at=at(9))


Outline = tuple[tuple[float, float], ...]


def nose(*rolled: Rolling, outline: Outline = SHEET, openings: tuple[Opening, ...] = ()) -> SkinShape:
    return SkinShape(thickness=0.6, outline=outline, openings=openings, rolled=rolled or (roll(),))


def made(shape: SkinShape, *rows: Row) -> Part:
    parts, findings = make_parts(model(part(shape, *rows)))
    assert findings == []
    return parts["p"]


def wrong(*rolled: Rolling) -> str:
    parts, findings = make_parts(model(part(nose(*rolled))))
    assert parts == {}
    (finding,) = findings
    assert (finding.kind, finding.at.line) == ("bad-value", 9)
    return finding.message


def holes_at(body: Part) -> Array:
    return np.array([hole.centre for hole in body.holes])


def test_holes_lie_in_the_middle_of_the_sheet_square_to_the_true_curve() -> None:
    body = made(nose(), row(Points(points=((20, 250), (20, 370), (20, 10))), "r"))
    # 120 mm of the middle, which runs at 160 + 0.3 = 160.3 mm, turn by 120 / 160.3 = 0.748596 rad.
    turn = 120 / 160.3
    across, down = 160.3 * math.sin(turn), 160.3 * (1 - math.cos(turn))
    # Beyond the roll 120 mm more are flat and tangent.
    flat = 120 * math.cos(turn), 120 * math.sin(turn)
    expected = [
        [20, 250, 0.3],
        [20, 250 + across, 0.3 - down],
        [20, 250 - across - flat[0], 0.3 - down - flat[1]],
    ]
    assert np.allclose(holes_at(body), expected, atol=1e-9)
    axes = np.array([[0, 0, 1], [0, math.sin(turn), math.cos(turn)], [0, -math.sin(turn), math.cos(turn)]])
    assert np.allclose([hole.axis for hole in body.holes], axes)
    assert {hole.flat for hole in body.holes} == {"face"}


@pytest.mark.parametrize(("side", "sense"), [("inside", -1.0), ("outside", 1.0)])
@pytest.mark.parametrize("clockwise", [False, True])
def test_the_side_is_the_face_that_becomes_hollow(side: str, sense: float, clockwise: bool) -> None:
    outline = SHEET[::-1] if clockwise else SHEET
    body = made(nose(roll(side=side), outline=outline), row(Points(points=((20, 490),))))
    # Anticlockwise the outside is +z: rolled towards it the edge comes up.
    assert np.sign(body.holes[0].centre[2]) == (-sense if clockwise else sense)
    out = body.holes[0].axis
    assert out[2] == pytest.approx((-1 if clockwise else 1) * math.cos(120 / 160.3))


def test_the_line_may_slope_and_run_either_way() -> None:
    sloping = made(
        nose(roll(about=((0, 200), (900, 300)))), row(Points(points=((90, 210), (450, 250), (450, 251))))
    )
    one, other, beside = holes_at(sloping)
    # On the line nothing moves; next to it the sheet is tangent.
    assert np.allclose([one, other], [[90, 210, 0.3], [450, 250, 0.3]])
    assert np.allclose(beside, [450, 251, 0.3], atol=0.004)
    there = made(nose(roll(start=-50, end=120)), row(Points(points=((20, 10), (20, 490)))))
    back = made(
        nose(roll(about=(LINE[1], LINE[0]), start=-120, end=50)), row(Points(points=((20, 10), (20, 490))))
    )
    assert np.allclose(holes_at(there), holes_at(back))


def test_an_angle_says_how_far_it_goes() -> None:
    # 60 degrees of 160.3 mm are 167.866 mm, half of it on either side.
    length = math.radians(60) * 160.3
    both = made(nose(roll(start=None, end=None, angle=60)))
    onward = made(nose(roll(start=10, end=None, angle=60)))
    upto = made(nose(roll(start=None, end=10, angle=60)))
    for body, (low, high) in (
        (both, (-length / 2, length / 2)),
        (onward, (10, 10 + length)),
        (upto, (10 - length, 10)),
    ):
        assert body.roll is not None
        assert np.allclose([body.roll.lines[0], body.roll.lines[-1]], [low, high])
        assert np.ptp(body.roll.turns) == pytest.approx(math.radians(60))
    whole = made(nose(roll(radius=300, start=None, end=None)))
    assert whole.roll is not None
    assert np.allclose([whole.roll.lines[0], whole.roll.lines[-1]], [-250, 250])


def test_several_rolls_with_flats_between() -> None:
    body = made(
        nose(
            roll(radius=80, about=((0, 100), (900, 100)), start=0, end=None, angle=90),
            roll(radius=60, about=((0, 300), (900, 300)), start=0, end=None, angle=90, side="outside"),
        ),
        row(Points(points=((20, 10), (20, 280), (20, 490)))),
    )
    axes = [hole.axis for hole in body.holes]
    # Down by 90 degrees, then back up by 90.
    assert np.allclose(axes, [[0, 0, 1], [0, 1, 0], [0, 0, 1]], atol=1e-12)
    # y: 100 + 80.3 + 60.3 + what is left of the sheet: 490 - 300 - 60.3 pi / 2 = 95.281
    # z: down by 80.3 + 60.3 and by the flat of 300 - (100 + 80.3 pi / 2) = 73.865
    left, straight = 190 - 30.15 * math.pi, 200 - 40.15 * math.pi
    assert np.allclose(body.holes[2].centre, [20, 240.6 + left, 0.3 - 140.6 - straight])


def test_the_number_of_facets_of_the_reference() -> None:
    # reference: a skin rolled 90 degrees at 509 mm needs about 125 facets.
    # 2 acos(1 - 0.01 / 509) = 0.0125368 rad, and (pi / 2) / 0.0125368 = 125.3
    assert len(facet_lines(508.4, 0.6, 0.0, math.pi / 2 * 508.7)) - 1 == 126


def test_both_faces_stay_within_a_hundredth() -> None:
    body = made(nose(roll(start=None, end=None)))
    assert body.roll is not None
    for piece in body.pieces:
        for ring in corners_of(piece):
            middle = ring[:, 1:] - [250, 0.3 - 160.3]
            out = np.linalg.norm(middle, axis=1)
            near = np.minimum(np.abs(out - 160.0), np.abs(out - 160.6))
            # The corners lie on the true surfaces, the middles of the chords within 0.01 mm.
            assert near.max() < 1e-9
            chord = np.linalg.norm((middle[0] + middle[2]) / 2)
            assert min(abs(chord - 160.0), abs(chord - 160.6)) < 0.01


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("opened", [False, True])
def test_volume_and_mesh(mirrored: bool, opened: bool) -> None:
    import trimesh

    openings = (PORT,) if opened else ()
    rows = (row(Points(points=((20, 250), (60, 300), (80, 490)))),) if opened else ()
    body = made(nose(roll(start=None, end=None), openings=openings), *rows)
    body = other_hand(body) if mirrored else body
    pieces = sum(volume_of(piece) for piece in body.pieces)
    mesh = mesh_of(body, segments=64)
    solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert solid.is_watertight
    assert solid.is_winding_consistent
    sheet = 900 * 500 * 0.6
    if not opened:
        # n trapezoids of 1/2 sin(turn / n) x (160.6^2 - 160^2) over 900 mm; turn = 500 / 160.3
        turn, n = 500 / 160.3, len(body.pieces)
        faceted = 900 * n * math.sin(turn / n) / 2 * (160.6**2 - 160**2)
        assert pieces == pytest.approx(faceted, rel=1e-9)
        assert solid.volume == pytest.approx(faceted, rel=1e-9)
        # The middle of the sheet keeps its area, so that the true volume is that of the flat one.
        assert faceted == pytest.approx(sheet, rel=1e-4)
        assert solid.area == pytest.approx(2 * 900 * 500 + 2 * 0.6 * 1400, rel=1e-4)
    else:
        port, three = math.pi / 4 * 60**2 * 0.6, 3 * math.pi / 4 * 3.3**2 * 0.6
        assert pieces == pytest.approx(sheet - port, rel=1e-4)
        assert solid.volume == pytest.approx(sheet - port - three, rel=1e-4)


def test_neighbours_share_a_face_and_do_not_overlap() -> None:
    tapered = ((0.0, 40.0), (900.0, 0.0), (900.0, 400.0), (0.0, 360.0))
    body = made(nose(roll(about=((0, 150), (900, 190))), outline=tapered, openings=(PORT,)))
    solids = solids_of(body.pieces)
    pairs = np.array([(i, j) for i in range(len(solids)) for j in range(i)])
    # Beside an opening a piece may end square to its facet: half a thickness x the tangent of half its turn.
    assert depths(solids, solids, pairs).max() < 0.3 * math.tan(math.acos(1 - 0.01 / 160.6)) + 1e-6
    area = shapely.Polygon(tapered).area - math.pi / 4 * 60**2
    assert sum(volume_of(piece) for piece in body.pieces) == pytest.approx(area * 0.6, rel=2e-4)


def test_facets_are_flats_that_lie_one_beside_the_other() -> None:
    body = made(nose())
    assert {facet.name for facet in body.facets} == {"face"}
    assert sum(shapely.Polygon(facet.outline).area for facet in body.facets) == pytest.approx(
        450000, rel=1e-4
    )
    for facet, after in pairwise(body.facets):
        edges = []
        for flat in (facet, after):
            lifted = np.column_stack([flat.outline, np.zeros(len(flat.outline))])
            edges.append(flat.frame.points(lifted))
        # Two corners of each lie on the next one's, on the middle of the sheet shifted to its lower face.
        gaps = np.linalg.norm(edges[0][:, None] - edges[1][None], axis=2)
        assert (gaps < 0.01).sum() == 2
        assert np.linalg.det(facet.frame.rotation) == pytest.approx(1.0)


def test_the_other_hand() -> None:
    rows = row(Points(points=((20, 10), (60, 300))))
    body = made(nose(roll(about=((0, 200), (900, 300)), start=-50)), rows)
    mirrored = other_hand(body)
    flip = np.array([1.0, -1.0, 1.0])
    assert np.allclose(holes_at(mirrored), holes_at(body) * flip)
    assert mirrored.roll is not None
    spots = np.array([[20.0, -10.0], [60.0, -300.0]])
    assert np.allclose(mirrored.roll.points(spots, 0.3), holes_at(mirrored))
    assert np.allclose(mirrored.roll.normals(spots), [hole.axis for hole in mirrored.holes])
    twice = other_hand(mirrored)
    assert twice.roll is not None
    assert np.allclose(holes_at(twice), holes_at(body))


@pytest.mark.parametrize("mirrored", [False, True])
def test_the_flat_pattern_is_what_was_written(mirrored: bool) -> None:
    rows = row(Points(points=((20, 10), (60, 251), (60, 300), (60, 490))))
    body = made(nose(), rows)
    pattern = flat_pattern(other_hand(body) if mirrored else body)
    assert pattern is not None
    sense = -1 if mirrored else 1
    assert np.allclose(
        [hole.centre for hole in pattern.holes],
        [[20, sense * 10], [60, sense * 251], [60, sense * 300], [60, sense * 490]],
        atol=1e-6,
    )
    assert pattern.size == (900, 500)
    (bend,) = pattern.bend_lines
    assert sorted([bend.start.tolist(), bend.end.tolist()]) == [[0, sense * 250], [900, sense * 250]]
    # 240 mm of the middle at 160.3 mm: 85.7828 degrees, away from the reader
    assert (bend.angle, bend.up, bend.radius) == (85.7828, False, 160.0)
    assert bend.allowance == pytest.approx(240)
    assert bend.between == ("face", "face")


def test_a_tube_of_350_degrees_and_one_that_just_closes() -> None:
    # 350 degrees of 95.3 mm take 582.155; 2 mm stay flat on either side.
    long = math.radians(350) * 95.3 + 4
    sheet = ((0.0, 0.0), (300.0, 0.0), (300.0, long), (0.0, long))
    about = ((0.0, long / 2), (300.0, long / 2))
    body = made(nose(roll(95, about, None, None, 350), outline=sheet), row(Points(points=((20, 1),))))
    assert np.allclose(flat_pattern(body).holes[0].centre, [20, 1])  # type: ignore[union-attr]
    once = math.tau * 95.3
    closed = ((0.0, 0.0), (300.0, 0.0), (300.0, once), (0.0, once))
    middle = ((0.0, once / 2), (300.0, once / 2))
    assert len(made(nose(roll(95, middle, None, None), outline=closed)).pieces) > 200


@pytest.mark.parametrize(
    ("rolled", "message"),
    [
        ((roll(radius=0.5),), "p: a radius of 0.5 is less than the thickness of 0.6."),
        ((roll(about=((5, 5), (5, 5))),), "p: the line to roll about begins and ends at one point."),
        ((roll(start=10, end=-10),), "p: the roll goes from 10 to -10."),
        ((roll(start=260, end=None),), "p: nothing of the sheet lies where it is rolled."),
        (
            # 500 mm at 40.3 mm are 710.866 degrees.
            (roll(radius=40, start=None, end=None),),
            "p: rolled by 710.866 degrees in all, the sheet runs into itself.",
        ),
        (
            (roll(), roll(about=((0, 400), (900, 401)))),
            "p: this line to roll about is not parallel to the first.",
        ),
        ((roll(), roll(start=110, end=130)), "p: two rolls overlap by 10."),
    ],
)
def test_mistakes(rolled: tuple[Rolling, ...], message: str) -> None:
    assert wrong(*rolled) == message


def test_the_smallest_radius_and_rolls_side_by_side() -> None:
    assert made(nose(roll(radius=0.6, start=0, end=1.0))).roll is not None
    assert made(nose(roll(), roll(radius=200, start=120, end=None))).roll is not None
