"""Convex prisms: the one kind of solid that all contact, sweep and tool questions are asked of."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.geometry.pose import Array, Pose

__all__ = ["Prism"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Prism:
    """A convex polygon pulled along its normal.

    Attributes
    ----------
    polygon
        ``(n, 2)``, mm, convex, anticlockwise, 3 to 8 corners, in the x-y plane of ``frame``.
    height
        mm, the prism fills 0 <= z <= height of ``frame``.
    frame
        The prism's frame seen from the part (or from the structure, once placed).
    """

    polygon: Array
    height: float
    frame: Pose
