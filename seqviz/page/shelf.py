"""The shapes of a page: each part's mesh once, and the tools that findings show."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.geometry.prism import Piece
from seqviz.geometry.volume import corners_of
from seqviz.parts.part import Part
from seqviz.render.meshes import Body, Indices, Meshes, feature_edges, joined_bodies

__all__ = ["Shelf", "body_of_pieces"]


class Shelf:
    """Keeps bodies, equal ones once.

    Attributes
    ----------
    bodies
        Each in its own frame; the numbers given out point into it.
    numbers
        Part -> its number.
    """

    def __init__(self) -> None:
        self.bodies: list[Body] = []
        self.numbers: dict[Part, int] = {}
        self._meshes = Meshes()
        self._alike: dict[bytes, int] = {}

    def part(self, part: Part) -> int:
        """Return the number of a part's shape."""
        if part not in self.numbers:
            # Parts of a kind that are entered one by one, as pieces of stock are, look the same.
            key = _looks(part)
            if key not in self._alike:
                self._alike[key] = self._put(self._meshes.own(part))
            self.numbers[part] = self._alike[key]
        return self.numbers[part]

    def pieces(self, pieces: Iterable[Piece]) -> int | None:
        """Return the number of the shape of convex pieces; None of no pieces."""
        body = body_of_pieces(pieces)
        return self._put(body) if len(body.faces) else None

    def _put(self, body: Body) -> int:
        self.bodies.append(body)
        return len(self.bodies) - 1


def _looks(part: Part) -> bytes:
    """Return what tells how a part looks: its pieces, and its holes."""
    rings = [ring for piece in part.pieces for ring in corners_of(piece)]
    holes = [np.array([*hole.centre, *hole.axis, hole.diameter]) for hole in part.holes]
    mesh = [] if part.surface is None else [part.surface.vertices, part.surface.faces.astype(np.float64)]
    numbers = [np.round(some, 4).ravel() + 0.0 for some in (*rings, *holes, *mesh)]
    counts = [len(part.pieces), len(part.holes), *(len(ring) for ring in rings)]
    return b"".join([np.array(counts).tobytes(), *(some.tobytes() for some in numbers), part.shape.encode()])


def body_of_pieces(pieces: Iterable[Piece]) -> Body:
    """Return convex pieces as one body, each closed for itself."""
    return joined_bodies(_body(*corners_of(piece)) for piece in pieces)


def _body(bottom: Array, top: Array) -> Body:
    """Return the solid between two rings of as many corners, triangles outside out."""
    count = len(bottom)
    k = np.arange(count)
    after = (k + 1) % count
    fan = np.stack([np.zeros(count - 2, dtype=np.int64), k[1:-1], k[2:]], axis=1)
    walls = [np.stack([k, after, after + count], axis=1), np.stack([k, after + count, k + count], axis=1)]
    faces: Indices = np.concatenate([fan[:, ::-1], fan + count, *walls])
    vertices = np.concatenate([bottom, top])
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    inside_out = float(np.einsum("ij,ij->", a - vertices[0], np.cross(b - vertices[0], c - vertices[0]))) < 0
    faces = faces[:, ::-1] if inside_out else faces
    return Body(vertices=vertices, faces=faces, edges=feature_edges(vertices, faces))
