"""From where the work can be looked at: directions from the work to the eye, on the half above the bench."""

from __future__ import annotations

import numpy as np

from seqviz.geometry.pose import Array, any_across, frozen, unit

__all__ = ["angle_between", "first_view", "right_and_top", "views"]

# Project choice. Below 25 degrees sheets on the bench are seen edge-on, above 65 standing legs are.
HEIGHTS = (40.0, 50.0, 60.0, 28.0)
# Degrees about the up axis, from behind the work: none within 10 degrees of the work's own axes.
TURNS = (-30.0, 30.0, -60.0, 60.0, -120.0, 120.0, -150.0, 150.0)


def views(up: Array, forward: Array) -> Array:
    """Return ``(n, 3)`` unit vectors from the work towards the eye, the preferred one first.

    Parameters
    ----------
    up, forward
        ``(3,)`` unit vectors of what faces up and of the forward direction. Where forward itself faces
        up or down, some level direction stands in for it.
    """
    level = forward - up * float(forward @ up)
    ahead = unit(level) if np.linalg.norm(level) > 0.1 else any_across(up)
    aside = np.cross(up, ahead)
    found = [
        unit(
            np.sin(np.radians(height)) * up
            + np.cos(np.radians(height))
            * (-np.cos(np.radians(turn)) * ahead + np.sin(np.radians(turn)) * aside)
        )
        for height in HEIGHTS
        for turn in TURNS
    ]
    return frozen(found)


def first_view(up: Array, forward: Array) -> Array:
    """Return the ``(3,)`` direction to start from: from behind, to one side, 40 degrees above level."""
    return frozen(views(up, forward)[0])


def right_and_top(towards_eye: Array, up: Array) -> tuple[Array, Array]:
    """Return the picture's right and top, unit vectors, seen from ``towards_eye`` with ``up`` up."""
    right = unit(np.cross(up, towards_eye))
    return right, np.cross(towards_eye, right)


def angle_between(one: Array, other: Array) -> float:
    """Return the angle between two unit vectors, degrees."""
    return float(np.degrees(np.arccos(np.clip(one @ other, -1.0, 1.0))))
