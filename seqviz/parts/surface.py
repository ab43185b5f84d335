"""Triangles of a closed surface."""

from __future__ import annotations

from dataclasses import dataclass

from numpy import int64
from numpy.typing import NDArray

from seqviz.geometry.pose import Array

__all__ = ["Mesh"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """Triangles of a closed surface.

    Attributes
    ----------
    vertices
        ``(n, 3)`` float64, mm, part frame.
    faces
        ``(m, 3)`` int64, vertices of each triangle, anticlockwise seen from outside.
    """

    vertices: Array
    faces: NDArray[int64]
