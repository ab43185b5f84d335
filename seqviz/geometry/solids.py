"""Many convex pieces in flat arrays, so that thousands of questions are answered at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.pose import Array, Pose
from seqviz.geometry.prism import Piece, Prism, Prismoid

__all__ = ["Solids", "by_corners", "joined", "solids_of"]

# Sines below this are one direction: over 5 m it moves a corner by 5e-7 mm, less than the guard of a contact.
_PARALLEL = 1e-10
# Edges shorter and faces smaller than this, mm and mm2, are those of corners that coincide.
_NOTHING = 1e-9
# Most pieces are cut from sheet: four corners on each end face.
_FEW_CORNERS = 8


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solids:
    """Convex pieces, all in one frame, mm. Shorter lists are padded by repeating entries.

    Attributes
    ----------
    vertices
        ``(m, V, 3)``; corner by corner: even entries lie on one end face, the next odd one opposite.
    normals
        ``(m, N, 3)`` unit normals of the faces, either way; parallel faces once, a prism's axis first.
    edges
        ``(m, E, 3)`` unit directions of the edges, either way; parallel edges once, a prism's axis first.
    low, high
        ``(m, 3)`` the box around each piece.
    """

    vertices: Array
    normals: Array
    edges: Array
    low: Array
    high: Array

    def __len__(self) -> int:
        return len(self.vertices)

    def moved(self, pose: Pose) -> Solids:
        """Return the pieces carried by ``pose``."""
        return _boxed(pose.points(self.vertices), pose.vectors(self.normals), pose.vectors(self.edges))

    def take(self, indices: NDArray[np.intp] | Sequence[int] | slice) -> Solids:
        """Return the pieces at ``indices``, in that order."""
        chosen = indices if isinstance(indices, slice) else np.asarray(indices, dtype=np.intp)
        return Solids(
            vertices=self.vertices[chosen],
            normals=self.normals[chosen],
            edges=self.edges[chosen],
            low=self.low[chosen],
            high=self.high[chosen],
        )


def solids_of(pieces: Sequence[Piece]) -> Solids:
    """Return ``pieces`` as arrays, in the same order and frame."""
    straight = [k for k, piece in enumerate(pieces) if isinstance(piece, Prism)]
    if len(straight) == len(pieces):
        return _of_prisms([piece for piece in pieces if isinstance(piece, Prism)])
    tapered = [k for k, piece in enumerate(pieces) if isinstance(piece, Prismoid)]
    both = joined(
        [
            _of_prisms([piece for piece in pieces if isinstance(piece, Prism)]),
            _of_prismoids([piece for piece in pieces if isinstance(piece, Prismoid)]),
        ]
    )
    return both.take(np.argsort(straight + tapered))


def joined(solids: Sequence[Solids]) -> Solids:
    """Return all pieces of ``solids``, one list after the other."""
    if not solids:
        return solids_of([])

    def stacked(name: str, group: int) -> Array:
        lists: list[Array] = [getattr(one, name) for one in solids]
        width = max(each.shape[1] for each in lists)
        return np.concatenate([_repeated(each, width, group) for each in lists])

    return Solids(
        vertices=stacked("vertices", 2),
        normals=stacked("normals", 1),
        edges=stacked("edges", 1),
        low=np.concatenate([one.low for one in solids]),
        high=np.concatenate([one.high for one in solids]),
    )


def by_corners(solids: Solids) -> list[tuple[NDArray[np.intp], Solids]]:
    """Return the pieces with few corners, then those with many, each with their numbers, and padded no more.

    In one list a few with many corners make all questions to the others as long as to them.
    """
    if solids.vertices.shape[1] <= _FEW_CORNERS:
        return [(np.arange(len(solids)), solids)]
    ends = solids.vertices.reshape(len(solids), solids.vertices.shape[1] // 2, 6)
    many = (np.abs(np.diff(ends[:, _FEW_CORNERS // 2 - 1 :], axis=1)) > _PARALLEL).any(axis=(1, 2))
    lots = [np.flatnonzero(~many), np.flatnonzero(many)]
    return [(lot, _trimmed(solids.take(lot))) for lot in lots if len(lot)]


def _trimmed(solids: Solids) -> Solids:
    """Return the pieces without the padding that all of them have."""
    return Solids(
        vertices=_unrepeated(solids.vertices, 2),
        normals=_unrepeated(solids.normals, 1),
        edges=_unrepeated(solids.edges, 1),
        low=solids.low,
        high=solids.high,
    )


def _unrepeated(lists: Array, group: int) -> Array:
    """Undo `_repeated`, but for the rounding of moves."""
    new = (np.abs(lists[:, group:] - lists[:, :-group]) > _PARALLEL).any(axis=(0, 2))
    last = int(np.flatnonzero(new).max(initial=-1)) // group
    return lists[:, : (last + 2) * group]


def _of_prisms(prisms: Sequence[Prism]) -> Solids:
    if not prisms:
        return _boxed(np.zeros((0, 6, 3)), np.zeros((0, 3, 3)), np.zeros((0, 3, 3)))
    corners = max(len(prism.polygon) for prism in prisms)
    polygons = np.array([_padded(prism.polygon, corners) for prism in prisms])
    rotations = np.array([prism.frame.rotation for prism in prisms])
    origins = np.array([prism.frame.translation for prism in prisms])
    heights = np.array([prism.height for prism in prisms])
    along = _edge_directions(polygons)
    across = np.stack([along[..., 1], -along[..., 0]], axis=-1)
    axes = rotations[:, None, :, 2]
    in_plane = np.swapaxes(rotations[:, :, :2], 1, 2)
    bottom = polygons @ in_plane + origins[:, None]
    top = bottom + axes * heights[:, None, None]
    vertices = np.stack([bottom, top], axis=2).reshape(len(prisms), 2 * corners, 3)
    normals = np.concatenate([axes, across @ in_plane], axis=1)
    return _boxed(vertices, normals, np.concatenate([axes, along @ in_plane], axis=1))


def _of_prismoids(prismoids: Sequence[Prismoid]) -> Solids:
    corners = max(len(one.bottom) for one in prismoids)
    bottom = np.array([_padded(one.bottom, corners) for one in prismoids])
    top = np.array([_padded(one.top, corners) for one in prismoids])
    after, over = np.roll(bottom, -1, axis=1), np.roll(top, -1, axis=1)
    # Twice the area of a side, also of a triangle, is the cross product of its diagonals.
    sides = np.cross(over - bottom, top - after)
    ends = [
        np.cross(ring, np.roll(ring, -1, axis=1)).sum(axis=1)[:, None] for ring in _about_first(bottom, top)
    ]
    edges = np.concatenate([after - bottom, over - top, top - bottom], axis=1)
    vertices = np.stack([bottom, top], axis=2).reshape(len(prismoids), 2 * corners, 3)
    return _boxed(vertices, _once(np.concatenate([*ends, sides], axis=1)), _once(edges))


def _about_first(bottom: Array, top: Array) -> tuple[Array, Array]:
    """Return both rings seen from their first corners, so that far from the origin no digit is lost."""
    return bottom - bottom[:, :1], top - top[:, :1]


def _once(vectors: Array) -> Array:
    """Return ``(m, D, 3)`` unit vectors of ``(m, K, 3)`` vectors: parallel ones once, then repeats."""
    lengths = np.linalg.norm(vectors, axis=2)
    units = vectors / np.where(lengths > _NOTHING, lengths, 1.0)[..., None]
    sines = np.linalg.norm(np.cross(units[:, :, None], units[:, None]), axis=3)
    return _first_of_each(units, sines < _PARALLEL, lengths > _NOTHING)


def _boxed(vertices: Array, normals: Array, edges: Array) -> Solids:
    for array in (vertices, normals, edges):
        array.setflags(write=False)
    return Solids(
        vertices=vertices, normals=normals, edges=edges, low=vertices.min(axis=1), high=vertices.max(axis=1)
    )


def _padded(polygon: Array, corners: int) -> Array:
    return np.concatenate([polygon, np.repeat(polygon[-1:], corners - len(polygon), axis=0)])


def _repeated(lists: Array, width: int, group: int) -> Array:
    """Repeat the last ``group`` entries of axis 1 until it is ``width`` long."""
    more = (width - lists.shape[1]) // group
    return np.concatenate([lists, np.tile(lists[:, -group:], (1, more, 1))], axis=1) if more else lists


def _edge_directions(polygons: Array) -> Array:
    """Return ``(m, D, 2)`` edge directions of ``(m, K, 2)`` polygons, parallel ones once, then repeats."""
    steps = np.roll(polygons, -1, axis=1) - polygons
    lengths = np.linalg.norm(steps, axis=2)
    directions = steps / np.where(lengths > 0.0, lengths, 1.0)[..., None]
    x, y = directions[..., 0], directions[..., 1]
    parallel = np.abs(x[:, :, None] * y[:, None] - y[:, :, None] * x[:, None]) < _PARALLEL
    return _first_of_each(directions, parallel, lengths > 0.0)


def _first_of_each(directions: Array, parallel: NDArray[np.bool_], real: NDArray[np.bool_]) -> Array:
    """Return the first of all parallel ``directions`` of each piece; the unreal ones are no directions."""
    # The point of a padded corner is parallel to everything: it must not hide a real edge.
    earlier = np.tril(np.ones(parallel.shape[1:], dtype=bool), -1)
    known = (parallel & earlier & real[:, None, :]).any(axis=2) | ~real
    order = np.argsort(known, axis=1, kind="stable")
    width = int((~known).sum(axis=1).max())
    kept = np.take_along_axis(directions, order[..., None], axis=1)[:, :width]
    spare = np.take_along_axis(known, order, axis=1)[:, :width]
    return np.where(spare[..., None], kept[:, :1], kept)
