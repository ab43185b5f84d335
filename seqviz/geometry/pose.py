"""Rigid motions, and the few vector helpers that everything else is written with."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["IDENTITY", "Array", "Pose", "any_across", "cross", "frames_along", "frozen", "turn_about", "unit"]

Array = NDArray[np.float64]


def frozen(values: object) -> Array:
    """Return ``values`` as a read-only float64 array."""
    array = np.array(values, dtype=np.float64)
    array.setflags(write=False)
    return array


def unit(vector: Array) -> Array:
    """Return ``vector`` scaled to length 1; it must not be zero."""
    return vector / np.linalg.norm(vector)


def any_across(axis: Array) -> Array:
    """Return some unit vector across the unit vector ``axis``; the same one every time."""
    x, y, z = axis.tolist()
    least = int(np.argmin(np.abs(axis)))
    # The cross product with the unit vector of the least coordinate, written out: this is asked very often.
    return unit(np.array(((0.0, z, -y), (-z, 0.0, x), (y, -x, 0.0))[least]))


def frames_along(axes: Array) -> Array:
    """Return for each of ``(n, 3)`` unit vectors the ``(3, 3)`` rows: `any_across`, across both, itself."""
    least = np.abs(axes).argmin(axis=1)
    first = np.cross(axes, np.eye(3)[least])
    first /= np.linalg.norm(first, axis=1, keepdims=True)
    return np.stack([first, np.cross(axes, first), axes], axis=1)


def cross(a: Array, b: Array) -> Array:
    """Return the cross product of two ``(3,)`` vectors; numpy's own takes ten times as long for one pair."""
    (a0, a1, a2), (b0, b1, b2) = a.tolist(), b.tolist()
    return np.array([a1 * b2 - a2 * b1, a2 * b0 - a0 * b2, a0 * b1 - a1 * b0])


def turn_about(axis: Array, degrees: float) -> Array:
    """Return the ``(3, 3)`` rotation by ``degrees`` about the unit vector ``axis``, right-handed."""
    angle = np.radians(degrees)
    x, y, z = axis
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.asarray(np.eye(3) + np.sin(angle) * cross + (1.0 - np.cos(angle)) * (cross @ cross))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pose:
    """A rigid motion: where a frame stands in another frame.

    Attributes
    ----------
    rotation
        ``(3, 3)``, columns are the frame's axes seen from outside; determinant +1.
    translation
        ``(3,)``, mm, the frame's origin seen from outside.
    """

    rotation: Array
    translation: Array

    def points(self, points: Array) -> Array:
        """Carry ``(..., 3)`` points, mm, out of the frame."""
        return points @ self.rotation.T + self.translation

    def vectors(self, vectors: Array) -> Array:
        """Carry ``(..., 3)`` directions out of the frame."""
        return vectors @ self.rotation.T

    def after(self, first: Pose) -> Pose:
        """Return the motion that does ``first``, then this one."""
        return Pose(
            rotation=frozen(self.rotation @ first.rotation),
            translation=frozen(self.rotation @ first.translation + self.translation),
        )

    def inverse(self) -> Pose:
        """Return the motion back."""
        return Pose(rotation=frozen(self.rotation.T), translation=frozen(-self.rotation.T @ self.translation))


IDENTITY = Pose(rotation=frozen(np.eye(3)), translation=frozen(np.zeros(3)))
