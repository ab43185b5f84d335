"""Brute force for contact and sweeps: the hull of all differences of corners, made by another library.

Piece A at shift 0 meets B exactly if the hull M of {b - a} holds the origin; moved by t along d it meets B if
M holds t * d. The depth is the distance from the point to the nearest face of M.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.spatial import ConvexHull

from seqviz.geometry.pose import IDENTITY, Array, Pose
from seqviz.geometry.solids import Solids, joined, solids_of
from tests.geometry.prisms import random_pose, random_prism

__all__ = ["Case", "depth_by_hull", "random_cases", "side_by_side", "span_by_hull"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Case:
    """Two prisms and the faces of their difference: rows (n, c) with n . x + c <= 0 inside."""

    a: Solids
    b: Solids
    faces: Array


def random_cases(seed: int, count: int) -> list[Case]:
    """Return pairs of prisms of 1 to 300 mm (every tenth up to 5 m), most of them near each other."""
    rng = np.random.default_rng(seed)
    cases = []
    for k in range(count):
        largest = 5000.0 if k % 10 == 0 else 300.0
        pose = random_pose(rng, 2000.0)
        a = solids_of([random_prism(rng, pose, largest=largest)])
        other = pose if k % 4 == 0 else random_pose(rng, 0.0)
        b = solids_of([random_prism(rng, other, largest=largest)])
        # Lay a random point of B a little off a random point of A.
        to = _inner_point(rng, a) - _inner_point(rng, b) + rng.normal(size=3) * rng.choice([0.0, 5.0, 50.0])
        b = b.moved(Pose(rotation=IDENTITY.rotation, translation=to))
        cases.append(Case(a=a, b=b, faces=_faces(a.vertices[0], b.vertices[0])))
    return cases


def side_by_side(cases: list[Case]) -> tuple[Solids, Solids]:
    """Return all first pieces and all second pieces."""
    return joined([case.a for case in cases]), joined([case.b for case in cases])


def depth_by_hull(case: Case) -> float:
    """Return the depth, mm; negative where they are apart."""
    return float(-case.faces[:, 3].max())


def span_by_hull(case: Case, way: Array, tolerance: float) -> tuple[float, float]:
    """Return from when to when, mm along ``way``, A lies deeper in B than ``tolerance``; start > end: never."""
    slopes, room = case.faces[:, :3] @ way, -case.faces[:, 3] - tolerance
    falling, rising, level = slopes < -1e-13, slopes > 1e-13, np.abs(slopes) <= 1e-13
    if (room[level] <= 0.0).any():
        return np.inf, -np.inf
    return float((room / slopes)[falling].max()), float((room / slopes)[rising].min())


def _inner_point(rng: np.random.Generator, solids: Solids) -> Array:
    shares = rng.dirichlet(np.ones(solids.vertices.shape[1]) * 0.5)
    return np.asarray(shares @ solids.vertices[0])


def _faces(a: Array, b: Array) -> Array:
    differences = (b[:, None] - a[None]).reshape(-1, 3)
    middle = differences.mean(axis=0)
    hull = ConvexHull(differences - middle)
    faces = np.unique(np.round(hull.equations, 13), axis=0)
    return np.column_stack([faces[:, :3], faces[:, 3] - faces[:, :3] @ middle])
