"""Convex pieces: the one kind of solid that all contact, sweep and tool questions are asked of."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.geometry.pose import Array, Pose

__all__ = ["Piece", "Prism", "Prismoid"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Prism:
    """A convex polygon pulled along its normal.

    Attributes
    ----------
    polygon
        ``(n, 2)``, mm, convex, anticlockwise, 3 corners or more, in the x-y plane of ``frame``.
    height
        mm, the prism fills 0 <= z <= height of ``frame``.
    frame
        The prism's frame seen from the part (or from the structure, once placed).
    """

    polygon: Array
    height: float
    frame: Pose


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Prismoid:
    """A convex solid between two polygons: a mitred end, the ramp of a joggle, a wedge, a pyramid.

    Attributes
    ----------
    bottom, top
        ``(n, 3)`` each, mm, seen from the part. A straight edge joins corner k of the bottom to corner k of
        the top. Both ends and all sides are plane and the whole is convex. Corners may coincide.
    """

    bottom: Array
    top: Array


Piece = Prism | Prismoid
"""What a part is made of."""
