"""Prisms for the geometry tests: plain boxes, and random ones of all proportions."""

from __future__ import annotations

import numpy as np

from seqviz.geometry.pose import IDENTITY, Array, Pose
from seqviz.geometry.prism import Prism
from seqviz.geometry.solids import Solids, joined, solids_of

__all__ = ["box", "boxes", "random_pose", "random_prism", "random_prisms"]


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> Prism:
    """Return the axis-parallel box between two corners."""
    x, y, _ = size = np.subtract(high, low)
    return Prism(
        polygon=np.array([[0.0, 0.0], [x, 0.0], [x, y], [0.0, y]]),
        height=float(size[2]),
        frame=Pose(rotation=IDENTITY.rotation, translation=np.array(low, dtype=np.float64)),
    )


def boxes(*corners: tuple[tuple[float, float, float], tuple[float, float, float]]) -> Solids:
    """Return axis-parallel boxes, each by its two corners."""
    return solids_of([box(low, high) for low, high in corners])


def random_pose(rng: np.random.Generator, spread: float) -> Pose:
    """Return a pose with a uniformly random rotation, and a translation of up to ``spread`` mm each way."""
    q, r = np.linalg.qr(rng.normal(size=(3, 3)))
    q = q * np.sign(np.diag(r))
    q[:, 0] *= np.linalg.det(q)
    return Pose(rotation=q, translation=rng.uniform(-spread, spread, 3))


def random_prism(rng: np.random.Generator, pose: Pose, smallest: float = 1.0, largest: float = 300.0) -> Prism:
    """Return a prism of 3 to 8 corners on an ellipse about the pose's origin, log-uniform in all sizes."""
    corners = int(rng.integers(3, 9))
    turn = 2.0 * np.pi * (np.arange(corners) + rng.uniform(-0.35, 0.35, corners)) / corners
    wide, deep, height = np.exp(rng.uniform(np.log(smallest), np.log(largest), 3))
    polygon: Array = np.column_stack([np.cos(turn) * wide, np.sin(turn) * deep]) / 2.0
    down = Pose(rotation=IDENTITY.rotation, translation=np.array([0.0, 0.0, -height / 2.0]))
    return Prism(polygon=polygon, height=float(height), frame=pose.after(down))


def random_prisms(rng: np.random.Generator, count: int, spread: float) -> Solids:
    """Return prisms scattered over ``spread`` mm each way; every other one stands square."""
    made = []
    for k in range(count):
        pose = random_pose(rng, spread)
        if k % 2:
            pose = Pose(rotation=IDENTITY.rotation, translation=pose.translation)
        made.append(solids_of([random_prism(rng, pose)]))
    return joined(made)
