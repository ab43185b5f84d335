"""A parallel view: from points of the structure, mm, to places in a picture, and back to depths."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.scene.views import right_and_top

__all__ = ["Margins", "View", "fitted_view"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Margins:
    """Room kept free at the edges of a picture, in its pixels."""

    left: float = 0.0
    top: float = 0.0
    right: float = 0.0
    bottom: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class View:
    """A parallel projection.

    Attributes
    ----------
    towards
        ``(3,)`` unit vector from the work to the eye.
    up
        ``(3,)`` unit vector that goes up in the picture.
    centre
        ``(3,)`` mm, what stands in the middle of the picture.
    scale
        Pixels a mm.
    size
        (width, height) of the picture, pixels.
    """

    towards: Array
    up: Array
    centre: Array
    scale: float
    size: tuple[int, int]

    @property
    def axes(self) -> Array:
        """``(3, 3)``: the picture's right, its top and the way to the eye, as rows."""
        right, top = right_and_top(self.towards, self.up)
        return np.array([right, top, self.towards])

    def project(self, points: Array) -> Array:
        """Return ``(..., 3)``: pixels from the left and from the top, mm towards the eye from the centre."""
        x, y, near = np.moveaxis((points - self.centre) @ self.axes.T, -1, 0)
        width, height = self.size
        return np.stack([width / 2 + x * self.scale, height / 2 - y * self.scale, near], axis=-1)

    def resized(self, factor: float) -> View:
        """Return the same view in a picture ``factor`` times as large."""
        width, height = self.size
        return replace(self, size=(round(width * factor), round(height * factor)), scale=self.scale * factor)


def fitted_view(points: Array, towards: Array, up: Array, size: tuple[int, int], margins: Margins) -> View:
    """Return the largest view in which all ``(n, 3)`` ``points`` stand inside the margins, in the middle."""
    right, top = right_and_top(towards, up)
    flat = points @ np.array([right, top, towards]).T
    low, high = flat.min(axis=0), flat.max(axis=0)
    width, height = size
    room = np.array([width - margins.left - margins.right, height - margins.top - margins.bottom])
    scale = float(np.min(room / np.maximum(high[:2] - low[:2], 1e-3)))
    middle = (low + high) / 2
    # The room's middle is not the picture's where the margins differ.
    middle[0] -= (margins.left - margins.right) / 2 / scale
    middle[1] -= (margins.bottom - margins.top) / 2 / scale
    centre = middle @ np.array([right, top, towards])
    return View(towards=towards, up=up, centre=centre, scale=scale, size=size)
