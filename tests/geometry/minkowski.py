"""Brute force for contact and sweeps: the hull of all differences of corners, made by another library.

Piece A at shift 0 meets B exactly if the hull M of {b - a} holds the origin; moved by t along d it meets B if
M holds t * d. The depth is the distance from the point to the nearest face of M.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy.spatial import ConvexHull

from seqviz.geometry.pose import Array
from seqviz.geometry.prism import Piece
from seqviz.geometry.solids import Solids, solids_of
from seqviz.geometry.volume import corners_of
from tests.geometry.prisms import random_poses, random_prism, random_prismoid, shifted

__all__ = ["Cases", "depth_by_hull", "random_cases", "span_by_hull"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cases:
    """Pairs of pieces, and for each the faces of their difference: rows (n, c) with n . x + c <= 0 inside."""

    a: Solids
    b: Solids
    faces: list[Array]


@cache
def random_cases(seed: int, count: int, tapered: bool = False) -> Cases:
    """Return pairs of prisms of 1 to 300 mm (every tenth up to 5 m), most of them near each other.

    ``tapered``: pairs of a prism and a prismoid, or of two prismoids.
    """
    rng = np.random.default_rng(seed)
    ours: list[Piece] = []
    theirs: list[Piece] = []
    faces: list[Array] = []
    poses, others = random_poses(rng, count, 2000.0), random_poses(rng, count, 2000.0)
    for k, (pose, other) in enumerate(zip(poses, others, strict=True)):
        largest = 5000.0 if k % 10 == 0 else 300.0
        # In every third case faces and edges run parallel.
        make = random_prismoid if tapered and k % 2 else random_prism
        a: Piece = make(rng, other if k % 3 == 0 else pose, largest=largest)
        b: Piece = (random_prismoid if tapered else random_prism)(rng, other, largest=largest)
        # Lay a random point of B on, or a little off, a random point of A.
        off = rng.normal(size=3) * rng.choice([0.0, 5.0, 50.0])
        b = shifted(b, _inner_point(rng, a) - _inner_point(rng, b) + off)
        ours.append(a)
        theirs.append(b)
        faces.append(_faces(_corners(a), _corners(b)))
    return Cases(a=solids_of(ours), b=solids_of(theirs), faces=faces)


def depth_by_hull(faces: Array) -> float:
    """Return the depth, mm; negative where they are apart."""
    return float(-faces[:, 3].max())


def span_by_hull(faces: Array, way: Array, tolerance: float) -> tuple[float, float]:
    """Return from when to when, mm of ``way``, A lies deeper in B than ``tolerance``; start > end: never."""
    slopes, room = faces[:, :3] @ way, -faces[:, 3] - tolerance
    falling, rising = slopes < -1e-13, slopes > 1e-13
    if (room[~(falling | rising)] <= 0.0).any():
        return np.inf, -np.inf
    return float((room[falling] / slopes[falling]).max()), float((room[rising] / slopes[rising]).min())


def _corners(piece: Piece) -> Array:
    return np.concatenate(corners_of(piece))


def _inner_point(rng: np.random.Generator, piece: Piece) -> Array:
    corners = _corners(piece)
    return np.asarray(rng.dirichlet(np.full(len(corners), 0.5)) @ corners)


def _faces(a: Array, b: Array) -> Array:
    differences = (b[:, None] - a[None]).reshape(-1, 3)
    middle = differences.mean(axis=0)
    faces = ConvexHull(differences - middle).equations
    return np.column_stack([faces[:, :3], faces[:, 3] - faces[:, :3] @ middle])
