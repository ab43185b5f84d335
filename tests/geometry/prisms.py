"""Pieces for the geometry tests: plain boxes, and random prisms and prismoids of all proportions."""

from __future__ import annotations

import numpy as np

from seqviz.geometry.pose import IDENTITY, Array, Pose, unit
from seqviz.geometry.prism import Piece, Prism, Prismoid
from seqviz.geometry.solids import Solids, solids_of

__all__ = [
    "box",
    "boxes",
    "posed",
    "random_axis",
    "random_poses",
    "random_prism",
    "random_prismoid",
    "random_prismoids",
    "random_prisms",
    "shifted",
]


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


def random_prismoid(
    rng: np.random.Generator, pose: Pose, smallest: float = 1.0, largest: float = 300.0
) -> Prismoid:
    """Return a random prism cut off aslant at both ends, now and then to an edge, or drawn to a point."""
    prism = random_prism(rng, pose, smallest, largest)
    wide = float(np.abs(prism.polygon).max())
    kind = rng.choice(["mitred", "mitred", "wedge", "frustum", "pyramid"])
    low = np.column_stack([prism.polygon, np.zeros(len(prism.polygon))])
    high = low + np.array([0.0, 0.0, prism.height])
    if kind in ("frustum", "pyramid"):
        share = rng.uniform(0.1, 0.9) if kind == "frustum" else 0.0
        high[:, :2] = high[:, :2] * share + rng.uniform(-wide, wide, 2)
    elif kind == "mitred":
        slopes = rng.uniform(-0.24, 0.24, (2, 2)) * prism.height / wide
        low[:, 2] += prism.polygon @ slopes[0]
        high[:, 2] += prism.polygon @ slopes[1]
    else:
        # The top leans so that it meets the bottom in this side.
        side = prism.polygon[1] - prism.polygon[0]
        reach = prism.polygon @ np.array([side[1], -side[0]])
        high[:, 2] = (reach.max() - reach) * prism.height / (reach.max() - reach.min())
    return Prismoid(bottom=prism.frame.points(low), top=prism.frame.points(high))


def random_prismoids(rng: np.random.Generator, count: int, spread: float, smallest: float = 1.0) -> Solids:
    """Return prismoids scattered over ``spread`` mm each way."""
    return solids_of([random_prismoid(rng, pose, smallest) for pose in random_poses(rng, count, spread)])


def posed(prism: Prism, pose: Pose) -> Prism:
    """Return ``prism`` carried by ``pose``."""
    return Prism(polygon=prism.polygon, height=prism.height, frame=pose.after(prism.frame))


def shifted(piece: Piece, by: Array) -> Piece:
    """Return ``piece`` moved by ``(3,)`` mm."""
    if isinstance(piece, Prismoid):
        return Prismoid(bottom=piece.bottom + by, top=piece.top + by)
    frame = Pose(rotation=piece.frame.rotation, translation=piece.frame.translation + by)
    return Prism(polygon=piece.polygon, height=piece.height, frame=frame)
