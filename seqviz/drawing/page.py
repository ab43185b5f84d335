"""From the pattern, y up, to the page, y down."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seqviz.geometry.pose import Array

__all__ = ["Page"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """Where a pattern lies on a page, mm.

    Attributes
    ----------
    left, bottom
        The place on the page of the pattern's lower left corner.
    low
        The pattern's x and y there.
    width
        Of the whole page.
    """

    left: float
    bottom: float
    low: tuple[float, float]
    width: float

    def points(self, points: Array) -> Array:
        """Return the places on the page of pattern points (..., 2)."""
        x = self.left + points[..., 0] - self.low[0]
        y = self.bottom - (points[..., 1] - self.low[1])
        return np.stack([x, y], axis=-1)

    def point(self, point: Array) -> Array:
        """Return the place on the page of one point (2,)."""
        return self.points(np.asarray(point))
