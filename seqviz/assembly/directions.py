"""Bench words for directions (forward, outboard, up ...) as vectors in the base's frame."""

from __future__ import annotations

import numpy as np

from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.records.model import FixedPose, MirrorLine, Model

__all__ = ["UP", "direction", "forward_of", "pose_from_words"]

UP = frozen([0.0, 0.0, 1.0])
"""The base's upper side: +z of its frame."""


def forward_of(model: Model) -> Array:
    """Return the ``(3,)`` forward direction."""
    axis = {"x": [1.0, 0.0, 0.0], "y": [0.0, 1.0, 0.0]}[model.forward[-1]]
    return frozen(np.array(axis) * (-1.0 if model.forward.startswith("-") else 1.0))


def direction(word: str, model: Model, spot: Array) -> Array | None:
    """Return the ``(3,)`` unit vector of ``word`` at ``spot`` (mm, base frame).

    Inboard and outboard need a mirror line and a spot off it; None where there is neither.
    """
    forward = forward_of(model)
    left = np.cross(UP, forward)
    fixed = {"forward": forward, "aft": -forward, "left": left, "right": -left, "up": UP, "down": -UP}
    if word in fixed:
        return fixed[word]
    outward = _outboard(model.mirror_line, spot)
    if outward is None:
        return None
    return outward if word == "outboard" else -outward


def _outboard(line: MirrorLine | None, spot: Array) -> Array | None:
    if line is None:
        return None
    index = "xy".index(line.axis)
    away = spot[index] - line.value
    return None if abs(away) < 1e-9 else np.eye(3)[index] * np.sign(away)


def pose_from_words(fixed: FixedPose, model: Model) -> Pose | None:
    """Return the pose said by ``at``, ``x along``, ``y along``; None where the two are not square."""
    spot = np.array(fixed.point)
    x, y = direction(fixed.x_along, model, spot), direction(fixed.y_along, model, spot)
    if x is None or y is None or abs(x @ y) > 1e-9:
        return None
    return Pose(rotation=frozen(np.column_stack([x, y, np.cross(x, y)])), translation=frozen(spot))
