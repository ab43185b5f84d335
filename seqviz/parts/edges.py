"""Edges of an outline by the way they face: ``left edge``, ``right edge``, ``forward edge``, ``aft edge``."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.pose import Array, unit
from seqviz.parts.mistakes import bad_value

__all__ = ["EDGES", "FREE_EDGE", "Edge", "directions", "edge_facing", "free_edge"]

EDGES = ("left edge", "right edge", "forward edge", "aft edge")
FREE_EDGE = "free edge"
"""Of a leg, flange or foot: the edge across from its bend."""

_FORWARD = {"+x": (1.0, 0.0), "-x": (-1.0, 0.0), "+y": (0.0, 1.0), "-y": (0.0, -1.0)}
_HALF = math.cos(math.radians(45.0))
_SAME = 1e-6  # mm
_STRAIGHT = 1e-6  # sine of the angle below which two neighbouring sides are one


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Edge:
    """A straight side of an outline: ``start`` (2,) and ``length`` mm, unit vectors ``along``, ``inward``."""

    start: Array
    along: Array
    inward: Array
    length: float


def directions(forward: str) -> dict[str, Array]:
    """Return the unit vectors (2,) of forward, aft, left and right; left is as seen from +z."""
    ahead = np.array(_FORWARD[forward])
    left = np.array([-ahead[1], ahead[0]])
    return {"forward": ahead, "aft": -ahead, "left": left, "right": -left}


def edge_facing(
    outline: Array, edge: str, forward: str, at: At, taken: Sequence[Array] = ()
) -> Edge | Finding:
    """Return the side of an anticlockwise ``outline`` (n, 2) that faces as ``edge`` says, or a finding.

    A side faces a way when its outward normal is within 45 degrees of it; one that is exactly 45 degrees off
    counts only where there is no better one. It starts at its aft end (left and right edges) or at its right
    end (forward and aft edges). Sides that begin at one of the corners ``taken`` do not count.
    """
    ways = directions(forward)
    facing = ways[edge.removesuffix(" edge")]
    sides = [side for side in _sides(outline) if not any(np.array_equal(side[0], corner) for corner in taken)]
    found: list[tuple[Array, Array]] = []
    for limit in (_HALF + 1e-6, _HALF - 1e-6):
        found = found or [side for side in sides if _outward(side) @ facing > limit]
    if len(found) != 1:
        return _not_one(edge, len(found), at)
    start, end = found[0]
    counted = ways["forward"] if edge in EDGES[:2] else ways["left"]
    if (end - start) @ counted < 0:
        start, end = end, start
    length = float(np.linalg.norm(end - start))
    return Edge(start=start, along=(end - start) / length, inward=-_outward(found[0]), length=length)


def free_edge(outline: Array) -> Edge | None:
    """Return the edge of a leg, flange or foot across from its bend; None where there is no such one.

    On those y begins at the outer corner, so that the whole outline lies on one side of 0. It starts where x
    is least.
    """
    y = outline[:, 1]
    if not ((y > 0).all() or (y < 0).all()):
        return None
    farthest = float(y[np.argmax(np.abs(y))])
    on_it = outline[np.abs(y - farthest) < _SAME][:, 0]
    low, high = float(on_it.min()), float(on_it.max())
    if high - low < _SAME:
        return None
    return Edge(
        start=np.array([low, farthest]),
        along=np.array([1.0, 0.0]),
        inward=np.array([0.0, -math.copysign(1.0, farthest)]),
        length=high - low,
    )


def _outward(side: tuple[Array, Array]) -> Array:
    across = side[1] - side[0]
    return unit(np.array([across[1], -across[0]]))


def _sides(outline: Array) -> list[tuple[Array, Array]]:
    """Return the straight sides in order, neighbours in one line joined."""
    steps = np.roll(outline, -1, axis=0) - outline
    ways = steps / np.linalg.norm(steps, axis=1, keepdims=True)
    before = np.roll(ways, 1, axis=0)
    bends = np.abs(before[:, 0] * ways[:, 1] - before[:, 1] * ways[:, 0]) > _STRAIGHT
    corners = outline[bends]
    return list(zip(corners, np.roll(corners, -1, axis=0), strict=True))


def _not_one(edge: str, count: int, at: At) -> Finding:
    said = "No side" if count == 0 else f"{count} sides"
    verb = "faces" if count == 0 else "face"
    return bad_value(
        at,
        f"{said} of the outline {verb} as a {edge} does.",
        "An edge is the one straight side whose outward direction is within 45 degrees of its name.",
        "Give the row by from and to.",
    )
