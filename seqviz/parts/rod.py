"""Round rods: the studs and pins of fittings."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.findings import At, Finding
from seqviz.geometry.polygons import circle
from seqviz.geometry.pose import IDENTITY, Array, frozen
from seqviz.geometry.prism import Piece, Prism
from seqviz.parts.body import Body, too_narrow
from seqviz.parts.extrude import closed, triangulated
from seqviz.records.model import RodShape

__all__ = ["rod_body", "rod_triangles"]

_SIDES = 6
"""Of a wedge on the rim: with its two spokes it has eight corners."""


def rod_body(name: str, shape: RodShape, at: At) -> Body | Finding:
    """Return the body of a rod, or the first mistake in its description.

    It stands on z = 0 about the z axis, reaches to its length, and has no flats. Its pieces are wedges.
    """
    mistake = too_narrow(at, name, {"diameter": shape.diameter, "length": shape.length})
    if mistake:
        return mistake
    rim = circle((0.0, 0.0), shape.diameter)
    corners = np.concatenate([rim, rim[:1]])
    wedges = [
        np.concatenate([np.zeros((1, 2)), corners[start : start + _SIDES + 1]])
        for start in range(0, len(rim), _SIDES)
    ]
    pieces = tuple(Prism(polygon=frozen(wedge), height=shape.length, frame=IDENTITY) for wedge in wedges)
    return Body(flats={}, pieces=pieces, piece_flats=("rod",) * len(pieces))


def rod_triangles(pieces: tuple[Piece, ...]) -> tuple[Array, NDArray[np.int64]]:
    """Return vertices ``(n, 3)`` and triangles of a rod of these wedges."""
    wedges = [piece for piece in pieces if isinstance(piece, Prism)]
    rim = shapely.union_all([shapely.Polygon(wedge.polygon) for wedge in wedges])
    points, triangles = triangulated(rim)
    low = np.column_stack([points, np.zeros(len(points))])
    high = np.column_stack([points, np.full(len(points), wedges[0].height)])
    return wedges[0].frame.points(np.concatenate([low, high])), closed(triangles, len(points))
