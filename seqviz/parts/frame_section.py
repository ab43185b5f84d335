"""The cross section of a flange and its bend: what stands on one side of a frame, or round an opening."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from seqviz.geometry.polygons import facets
from seqviz.geometry.pose import Array
from seqviz.trade.bends import bend_allowance, setback

__all__ = ["Section", "section_of"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Section:
    """Points (u, v), mm: u outward from the mould line in the web's plane, v from the web's outer face up.

    Attributes
    ----------
    outer, inner
        ``(k, 2)`` each, from the bend's tangent on the web over its facets to the free edge: the faces on the
        outer and on the inner side of the bend. The last stretch is the flange.
    setback
        mm from the mould line to the tangents.
    developed
        mm of flat sheet from the tangent on the web to the free edge.
    """

    outer: Array
    inner: Array
    setback: float
    developed: float

    @property
    def quads(self) -> list[Array]:
        """The facets and at last the flange, ``(4, 2)`` each: outer and next outer, next inner and inner."""
        return [
            np.array([outer, outer_next, inner_next, inner])
            for (outer, outer_next), (inner, inner_next) in zip(
                pairwise(self.outer), pairwise(self.inner), strict=True
            )
        ]

    @property
    def inward(self) -> float:
        """How far it reaches over the web, mm from the mould line."""
        return float(max(-self.outer[:, 0].min(), -self.inner[:, 0].min()))

    @property
    def outward(self) -> float:
        """How far it reaches beyond the mould line, mm: bent, or while it lies flat."""
        return float(max(self.outer[:, 0].max(), self.inner[:, 0].max(), self.developed - self.setback))


def section_of(sheet: tuple[float, float], width: float, angle: float, sagitta: float = 0.01) -> Section:
    """Return the section of a flange.

    Parameters
    ----------
    sheet
        Thickness and inside bend radius, mm.
    width
        Outside dimension, mm, more than the setback.
    angle
        Of the bend, degrees.
    sagitta
        mm: how far the facets may be off the bend.
    """
    thickness, radius = sheet
    back = setback(thickness, radius, angle)
    turns = np.linspace(0.0, math.radians(angle), facets(radius + thickness, angle, sagitta) + 1)
    rays = np.column_stack([np.sin(turns), -np.cos(turns)])
    middle = np.array([-back, radius + thickness])
    reach = (width - back) * np.array([math.cos(turns[-1]), math.sin(turns[-1])])
    outer, inner = middle + (radius + thickness) * rays, middle + radius * rays
    return Section(
        outer=np.vstack([outer, outer[-1] + reach]),
        inner=np.vstack([inner, inner[-1] + reach]),
        setback=back,
        developed=bend_allowance(thickness, radius, angle) + width - back,
    )
