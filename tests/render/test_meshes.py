"""Edges worth drawing, and bodies put together."""

import numpy as np

from seqviz.geometry.pose import frozen
from seqviz.render.meshes import Body, Meshes, feature_edges, joined_bodies, round_body
from seqviz.scene.picture import Fitted
from tests.scene.tray import scene

CUBE = np.array([[x, y, z] for x in (0.0, 1.0) for y in (0.0, 1.0) for z in (0.0, 1.0)])
QUADS = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
FACES = np.array([t for a, b, c, d in QUADS for t in ((a, b, c), (a, c, d))])


def test_a_cube_has_twelve_edges() -> None:
    edges = feature_edges(CUBE, FACES)
    lengths = np.linalg.norm(CUBE[edges[:, 0]] - CUBE[edges[:, 1]], axis=1)
    assert len(edges) == 12
    assert np.allclose(lengths, 1.0)  # no diagonal of a face


def test_corners_given_twice_are_one() -> None:
    assert len(feature_edges(CUBE[FACES].reshape(-1, 3), np.arange(36).reshape(-1, 3))) == 12


def test_an_open_side_has_edges() -> None:
    # Without the last square nothing changes: its four edges now have one neighbour each.
    assert len(feature_edges(CUBE, FACES[:2])) == 4


def test_joined() -> None:
    cube = Body(vertices=CUBE, faces=FACES, edges=feature_edges(CUBE, FACES))
    two = joined_bodies([cube, cube])
    assert two.faces.max() == 15
    assert (len(two.vertices), len(two.faces), len(two.edges)) == (16, 24, 24)
    assert len(joined_bodies([]).faces) == 0


def test_head_stands_on_its_face() -> None:
    head = Fitted(
        stack=0, point=frozen([1, 2, 3]), outward=frozen([0, 0, -1]), diameter=6.0, height=1.5, pin=False
    )
    body = round_body(head)
    assert np.isclose(body.vertices[:, 2].max(), 3.0)
    assert np.isclose(body.vertices[:, 2].min(), 1.5)
    assert np.isclose(np.linalg.norm(body.vertices[:12, :2] - [1, 2], axis=1), 3.0).all()


def test_a_part_is_meshed_once_and_drawn_back() -> None:
    meshes = Meshes()
    item = scene(2).items[1]
    body = meshes.body(item)
    again = meshes.body(item)
    assert body.faces is again.faces
    own = meshes.kept[item.part].vertices
    assert np.allclose(body.vertices, item.pose.points(own) + item.shift)
