"""Channels, zeds and hats: where their flats lie, and their volume, area and flat size by closed formulas."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from seqviz.findings import Finding
from seqviz.geometry.pose import Array
from seqviz.geometry.volume import volume_of
from seqviz.parts.body import Body
from seqviz.parts.chain import folds_into_itself
from seqviz.parts.fold import fold_of, folded
from seqviz.parts.formed import Formed, chain_of, formed_body
from seqviz.parts.hand import other_hand
from seqviz.parts.make import make_parts
from seqviz.parts.mesh import mesh_of
from seqviz.parts.part import Part
from seqviz.records.model import Points, Row
from seqviz.trade.bends import developed_width, setback
from tests.parts.samples import angle, at, channel, hat, model, part, row, zed

SHAPES: list[Formed] = [
    angle(angle=120.0),
    channel(),
    channel(angles=(90.0, 83.0)),
    channel(radius=0.0),
    zed(),
    zed(angles=(110.0, 60.0)),
    zed(radius=0.0),
    hat(),
    hat(angle=70.0),
    hat(radius=0.0),
]


def body_of(shape: Formed) -> Body:
    body = formed_body("a", shape, at())
    assert isinstance(body, Body)
    return body


def made(shape: Formed, *rows: Row) -> Part:
    parts, findings = make_parts(model(part(shape, *rows)))
    assert findings == []
    return parts["p"]


def spot(body: Body | Part, flat: str, y: float, face: str = "outside") -> Array:
    """Return the place of (10, y) on a face, part frame."""
    found = body.flats[flat]
    return found.frame.points(np.array([10.0, y, found.face_level(face)]))


def test_a_square_channel() -> None:
    body = body_of(channel())
    # setback 1 x (1.5 + 1) = 2.5 at each bend
    reaches = {name: tuple(flat.outline[[0, 2], 1]) for name, flat in body.flats.items()}
    assert list(reaches) == ["flange 1", "web", "flange 2"]
    assert reaches["flange 1"] == pytest.approx((2.5, 15))
    assert reaches["web"] == pytest.approx((2.5, 37.5))
    assert reaches["flange 2"] == pytest.approx((2.5, 20))
    normals = [flat.face_normal("outside") for flat in body.flats.values()]
    assert np.allclose(normals, [[0, 0, -1], [0, -1, 0], [0, 0, 1]])
    assert np.allclose(spot(body, "flange 1", 12), [10, 12, 0])
    assert np.allclose(spot(body, "web", 30), [10, 0, 30])
    assert np.allclose(spot(body, "web", 30, "inside"), [10, 1, 30])
    # flange 2: y from its corner at the top of the web, over flange 1
    assert np.allclose(spot(body, "flange 2", 12), [10, 12, 40])
    assert np.allclose(spot(body, "flange 2", 12, "inside"), [10, 12, 39])


def test_a_square_zed() -> None:
    body = body_of(zed())
    normals = [flat.face_normal("outside") for flat in body.flats.values()]
    assert np.allclose(normals, [[0, 0, -1], [0, -1, 0], [0, 0, 1]])
    assert np.allclose(spot(body, "flange 1", 12), [10, 12, 0])
    assert np.allclose(spot(body, "web", 30), [10, 0, 30])
    # flange 2: its corner is the top of the web's other face, y = 1; from there it reaches to -y
    assert np.allclose(spot(body, "flange 2", 12), [10, 1 - 12, 40])
    assert np.allclose(spot(body, "flange 2", 12, "inside"), [10, 1 - 12, 39])


def test_a_square_hat() -> None:
    body = body_of(hat())
    normals = {name: flat.face_normal("outside") for name, flat in body.flats.items()}
    assert list(normals) == ["foot 1", "web 1", "crown", "web 2", "foot 2"]
    expected = [[0, 0, -1], [0, 1, 0], [0, 0, 1], [0, -1, 0], [0, 0, -1]]
    assert np.allclose(list(normals.values()), expected)
    assert np.allclose(spot(body, "foot 1", 8), [10, 8, 0])
    assert np.allclose(spot(body, "web 1", 20), [10, 1, 20])
    assert np.allclose(spot(body, "crown", 8), [10, 1 - 8, 25])
    # web 2: its outside is 30 from that of web 1; y comes down from the crown
    assert np.allclose(spot(body, "web 2", 8), [10, 1 - 30, 25 - 8])
    # foot 2: its corner is the foot of web 2's inside, y = 1 - 30 + 1
    assert np.allclose(spot(body, "foot 2", 8), [10, 1 - 30 + 1 - 8, 0])


def test_a_bend_of_83_opens_the_channel() -> None:
    flange = body_of(channel(angles=(90.0, 83.0))).flats["flange 2"]
    # The web ends at z = 40; the flange rises by sin 7 from there.
    tip = flange.frame.points(np.array([0.0, 20.0, flange.face_level("outside")]))
    assert np.allclose(tip, [0, 20 * math.cos(math.radians(7)), 40 + 20 * math.sin(math.radians(7))])


@pytest.mark.parametrize("shape", SHAPES, ids=lambda s: f"{type(s).__name__}-{s.bend_radius:g}")
def test_volume_area_and_flat_size(shape: Formed) -> None:
    import trimesh

    chain, body = chain_of(shape), made(shape)
    t, r, long = chain.thickness, chain.radius, chain.length
    backs = [setback(t, r, a) for a in chain.angles]
    flats = sum(chain.widths) - 2 * sum(backs)
    arcs = [math.radians(a) for a in chain.angles]
    mesh = mesh_of(body)
    solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert solid.is_watertight
    assert solid.is_winding_consistent
    # Section: flats by thickness, and a ring sector A/2 (Ro2 - Ri2) at each bend. Facets stray by 0.01 mm.
    section = flats * t + sum(a / 2 * ((r + t) ** 2 - r**2) for a in arcs)
    stray = 0.01 * sum(a * (r + t) for a in arcs)
    assert solid.volume / long == pytest.approx(section, abs=stray)
    pieces = sum(volume_of(piece) for piece in body.pieces)
    assert solid.volume == pytest.approx(pieces, rel=1e-9)
    # Surface: both faces and the two long edges, and the two ends.
    faces = 2 * flats + sum(a * (2 * r + t) for a in arcs) + 2 * t
    assert (solid.area - 2 * solid.volume / long) / long == pytest.approx(faces, rel=1e-3)
    pattern = shapely.union_all(fold_of(body).regions(body))
    assert pattern.area == pytest.approx(long * developed_width(chain.widths, chain.angles, t, r), rel=1e-9)


@pytest.mark.parametrize("shape", SHAPES, ids=lambda s: f"{type(s).__name__}-{s.bend_radius:g}")
@pytest.mark.parametrize("mirrored", [False, True])
def test_a_spot_on_every_flat_survives_unfolding_and_folding(shape: Formed, mirrored: bool) -> None:
    body = other_hand(made(shape)) if mirrored else made(shape)
    pattern, before = fold_of(body), -math.inf
    for flat in body.flats.values():
        spots = np.array([[10.0, y] for y in flat.outline[:, 1]])
        across = pattern.unrolled(flat.name)(spots)
        assert across[:, 1].min() > before - 1e-9  # flats follow each other
        before = float(across[:, 1].max())
        both = {depth: folded(pattern, across, depth) for depth in (0.0, 1.0)}
        for face in ("outside", "inside"):
            level = np.full((len(spots), 1), flat.face_level(face))
            there = flat.frame.points(np.hstack([spots, level]))
            assert any(np.allclose(there, here) for here in both.values())


@pytest.mark.parametrize(("shape", "flat"), [(channel(), "flange 2"), (zed(), "web"), (hat(), "foot 2")])
def test_holes_are_cut_where_they_are_written(shape: Formed, flat: str) -> None:
    import trimesh

    drilled = made(shape, row(Points(points=((20, 8), (45, 8))), flat=flat))
    hole = drilled.holes[0]
    assert np.allclose(hole.axis, drilled.flats[flat].face_normal("outside"))
    for body in (drilled, other_hand(drilled)):
        mesh = mesh_of(body)
        solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
        # two holes of 3.3 as polygons of 16 corners, through 1.0
        removed = 2 * 16 / 8 * 3.3**2 * math.sin(2 * math.pi / 16)
        whole = mesh_of(made(shape))
        full = trimesh.Trimesh(whole.vertices, whole.faces, process=False).volume
        assert solid.is_watertight
        assert solid.volume == pytest.approx(full - removed, rel=1e-9)
        away = mesh.vertices - body.holes[0].centre
        on_rim = np.isclose(np.linalg.norm(away, axis=1), math.hypot(1.65, 0.5))
        assert int(on_rim.sum()) == 32


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        # two setbacks of 2.5 leave 5.2 - 5 = 0.2 of the web, 5.1 less
        (zed(web=5.1), "web of 5.1 mm ends in its bends, which take 5 mm of it"),
        (channel(flanges=(15.0, 2.6)), "flange 2 of 2.6 mm ends in the bend, which takes 2.5 mm of it"),
        (channel(angles=(90.0, 180.0)), "180 degrees is not possible"),
        # each flange rises by 35 x sin 50 = 26.8 of the 40 between them
        (channel(angles=(140.0, 140.0), flanges=(35.0, 35.0)), "run into itself"),
    ],
)
def test_impossible_sections(shape: Formed, words: str) -> None:
    finding = formed_body("a", shape, at(9))
    assert isinstance(finding, Finding)
    assert (finding.kind, finding.at) == ("bad-value", at(9))
    assert words in finding.message


def test_the_shortest_web_that_can_be_bent() -> None:
    assert not folds_into_itself(body_of(zed(web=5.2)))
    # 25 x sin 50 = 19.2 of the 20 that each flange has
    assert not folds_into_itself(body_of(channel(angles=(140.0, 140.0), flanges=(25.0, 25.0))))
