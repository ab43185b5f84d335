"""Loose triangles become a surface: common corners, open edges, bodies."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.parts.surface import Mesh

__all__ = ["bodies_of", "open_edges", "surface_of"]

Indices = NDArray[np.int64]

_STEPS = 2**20
"""Corners nearer than the size of the whole by this are one: 0.5 micrometres in half a metre."""


def surface_of(triangles: Array) -> Mesh:
    """Return the surface of ``(n, 3, 3)`` loose triangles, outside out.

    Triangles of which two corners are one are left out.
    """
    corners = triangles.reshape(-1, 3)
    low = corners.min(axis=0)
    step = max(float((corners.max(axis=0) - low).max()) / _STEPS, 1e-9)
    x, y, z = np.rint((corners - low) / step).astype(np.int64).T
    _, first, index = np.unique((x << 42) | (y << 21) | z, return_index=True, return_inverse=True)
    faces = index.reshape(-1, 3).astype(np.int64)
    a, b, c = faces.T
    faces = faces[(a != b) & (b != c) & (c != a)]
    vertices = corners[first]
    if _volume(vertices, faces) < 0:
        faces = faces[:, ::-1]
    for array in (vertices, faces):
        array.setflags(write=False)
    return Mesh(vertices=vertices, faces=faces)


def open_edges(surface: Mesh) -> Indices:
    """Return ``(k, 2)`` corners of the edges on which an odd number of triangles border."""
    ends = np.concatenate([surface.faces[:, [0, 1]], surface.faces[:, [1, 2]], surface.faces[:, [2, 0]]])
    count = len(surface.vertices)
    keys, times = np.unique(ends.min(axis=1) * count + ends.max(axis=1), return_counts=True)
    odd = keys[times % 2 == 1]
    return np.column_stack([odd // count, odd % count])


def bodies_of(surface: Mesh) -> Indices:
    """Return for each triangle the number of the body that it belongs to; bodies share no corner."""
    body = np.arange(len(surface.vertices))
    while True:
        least = body[surface.faces].min(axis=1)
        lower = body.copy()
        for k in range(3):
            np.minimum.at(lower, surface.faces[:, k], least)
        # A corner follows the corner that it was last told of: paths halve with every round.
        np.minimum.at(lower, body, lower.copy())
        lower = lower[lower]
        if np.array_equal(lower, body):
            break
        body = lower
    return np.asarray(np.unique(body[surface.faces[:, 0]], return_inverse=True)[1], dtype=np.int64)


def _volume(vertices: Array, faces: Indices) -> float:
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c))) / 6
