from __future__ import annotations

from pathlib import Path

import numpy as np

from seqviz.geometry.pose import IDENTITY, frozen
from seqviz.geometry.prism import Prism, Prismoid
from seqviz.page.shelf import Shelf, body_of_pieces
from seqviz.render.meshes import Body
from tests.cli.shelf import MODEL
from tests.page.trial import shelf

SQUARE = frozen([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
BOX = Prism(polygon=SQUARE, height=5.0, frame=IDENTITY)


def volume(body: Body) -> float:
    a, b, c = (body.vertices[body.faces[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c))) / 6


def test_a_tool_s_pieces_are_closed_and_outside_out() -> None:
    ring = np.array([[0.0, 0.0, 20.0], [0.0, 6.0, 20.0], [6.0, 6.0, 20.0], [6.0, 0.0, 20.0]])
    # Clockwise seen from above, so that it would be inside out; the far end is a third as wide: a frustum.
    cone = Prismoid(bottom=frozen(ring), top=frozen(ring / 3 + [2.0, 2.0, 20.0 - 20.0 / 3 + 9.0]))
    body = body_of_pieces([BOX, cone])
    # 10 x 10 x 5, and 9 / 3 x (36 + 4 + 12).
    assert round(volume(body), 6) == 500.0 + 156.0
    assert len(body.faces) == 2 * 12
    assert len(body.edges) == 2 * 12


def test_nothing_has_no_shape() -> None:
    assert Shelf().pieces([]) is None


def test_parts_that_look_alike_share_a_shape(tmp_path: Path) -> None:
    twin = """\
  stiffener twin:
    shape: angle
    thickness: 1.0
    length: 300
    legs: [20, 20]
    holes:
      other name: {flat: leg 1, from: [20, 10], to: [280, 10], count: 14, size: small}
  wide:
    shape: angle
    thickness: 1.0
    length: 300
    legs: [20, 20]
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [280, 10], count: 14, diameter: 3.4}
placed:
"""
    parts = shelf(tmp_path, model=MODEL.replace("placed:\n", twin)).parts
    kept = Shelf()
    names = ("panel", "stiffener", "stiffener twin", "wide")
    assert [kept.part(parts[name]) for name in names] == [0, 1, 1, 2]
    assert len(kept.bodies) == 3
