"""Prisms for the geometry tests: plain boxes, and random ones of all proportions."""

from __future__ import annotations

import numpy as np

from seqviz.geometry.pose import IDENTITY, Array, Pose, unit
from seqviz.geometry.prism import Prism
from seqviz.geometry.solids import Solids, solids_of

__all__ = ["box", "boxes", "posed", "random_axis", "random_poses", "random_prism", "random_prisms", "shifted"]


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


def random_axis(rng: np.random.Generator) -> Array:
    """Return a uniformly random ``(3,)`` unit vector."""
    return unit(np.asarray(rng.normal(size=3)))


def random_poses(rng: np.random.Generator, count: int, spread: float) -> list[Pose]:
    """Return poses with uniformly random rotations, and translations of up to ``spread`` mm each way."""
    q, r = np.linalg.qr(rng.normal(size=(count, 3, 3)))
    q = q * np.sign(np.diagonal(r, axis1=1, axis2=2))[:, None]
    q[:, :, 0] *= np.linalg.det(q)[:, None]
    to = rng.uniform(-spread, spread, (count, 3))
    return [Pose(rotation=q[k], translation=to[k]) for k in range(count)]


def random_prism(
    rng: np.random.Generator, pose: Pose, smallest: float = 1.0, largest: float = 300.0
) -> Prism:
    """Return a prism of 3 to 8 corners on an ellipse about the pose's origin, log-uniform in all sizes."""
    corners = int(rng.choice([3, 4, 4, 4, 4, 5, 6, 8]))
    turn = 2.0 * np.pi * (np.arange(corners) + rng.uniform(-0.35, 0.35, corners)) / corners
    wide, deep, height = np.exp(rng.uniform(np.log(smallest), np.log(largest), 3))
    polygon: Array = np.column_stack([np.cos(turn) * wide, np.sin(turn) * deep]) / 2.0
    down = Pose(rotation=IDENTITY.rotation, translation=np.array([0.0, 0.0, -height / 2.0]))
    return Prism(polygon=polygon, height=float(height), frame=pose.after(down))


def random_prisms(rng: np.random.Generator, count: int, spread: float, smallest: float = 1.0) -> Solids:
    """Return prisms scattered over ``spread`` mm each way; every other one stands square."""
    poses = random_poses(rng, count, spread)
    poses[::2] = [Pose(rotation=IDENTITY.rotation, translation=pose.translation) for pose in poses[::2]]
    return solids_of([random_prism(rng, pose, smallest) for pose in poses])


def posed(prism: Prism, pose: Pose) -> Prism:
    """Return ``prism`` carried by ``pose``."""
    return Prism(polygon=prism.polygon, height=prism.height, frame=pose.after(prism.frame))


def shifted(prism: Prism, by: Array) -> Prism:
    """Return ``prism`` moved by ``(3,)`` mm."""
    frame = Pose(rotation=prism.frame.rotation, translation=prism.frame.translation + by)
    return Prism(polygon=prism.polygon, height=prism.height, frame=frame)
