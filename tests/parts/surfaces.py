"""Surfaces for the tests of meshes, and files of them."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import shapely

from seqviz.geometry.pose import Array
from seqviz.parts.extrude import closed, triangulated

__all__ = ["BENT", "MODEL", "ball", "box", "drilled_foot", "pulled", "stl", "written"]

MODEL = """\
format: 1
base: skin
sizes: {{small: {{diameter: 5, with: blind rivet 4.8}}}}
parts:
  skin:
    shape: skin
    thickness: 1
    outline: [[0, 0], [100, 0], [100, 100], [0, 100]]
    holes: {{row: {{at: [[30, 40], [60, 40]], size: small}}}}
  bracket:
    shape: mesh
    file: {file}
{words}"""
"""A skin and a mesh; the path stands in line 12, column 11."""

BENT = ((0.0, 0.0), (60.0, 0.0), (60.0, 3.0), (3.0, 3.0), (3.0, 40.0), (0.0, 40.0))
"""The section of an angle: area 60 x 3 + 3 x 37 = 291."""


def pulled(region: shapely.Polygon, height: float) -> Array:
    """Return the triangles of an outline pulled up along z."""
    points, faces = triangulated(region)
    corners = np.concatenate([np.column_stack([points, np.full(len(points), z)]) for z in (0.0, height)])
    return np.asarray(corners[closed(faces, len(points))])


def box(size: tuple[float, float, float], at: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> Array:
    return pulled(shapely.box(0, 0, size[0], size[1]), size[2]) + np.array(at)


def drilled_foot(holes: tuple[tuple[float, float], ...] = ((20, 20), (50, 20))) -> Array:
    """Return an upright bracket whose foot, 3 thick, has holes of 5 in the mesh: two bodies that touch."""
    foot = shapely.box(0, 0, 60, 50)
    for hole in holes:
        foot = foot.difference(shapely.Point(hole).buffer(2.5))
    return np.concatenate([pulled(foot, 3.0), box((3, 50, 37), at=(0, 0, 3))])


def ball(radius: float, count: int) -> Array:
    """Return a ball of ``2 count (count - 1)`` triangles."""
    down, round_it = np.linspace(0, np.pi, count + 1), np.linspace(0, 2 * np.pi, count + 1)
    sine = np.sin(down)
    sine[-1] = 0.0
    east, north = np.cos(round_it), np.sin(round_it)
    east[-1], north[-1] = east[0], north[0]
    grid = np.stack(
        [np.outer(sine, east), np.outer(sine, north), np.outer(np.cos(down), np.ones(count + 1))], axis=2
    )
    a, b, c, d = grid[:-1, :-1], grid[1:, :-1], grid[1:, 1:], grid[:-1, 1:]
    one = np.stack([a, b, c], axis=2)[:-1].reshape(-1, 3, 3)
    other = np.stack([a, c, d], axis=2)[1:].reshape(-1, 3, 3)
    return radius * np.concatenate([one, other])


def stl(triangles: Array) -> bytes:
    """Return a binary STL file."""
    record = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])
    data = np.zeros(len(triangles), record)
    data["corners"] = triangles
    return b"made for a test".ljust(80) + len(triangles).to_bytes(4, "little") + data.tobytes()


def written(folder: Path, triangles: Array, name: str = "bracket.stl") -> Path:
    """Write a binary STL file."""
    path = folder / name
    path.write_bytes(stl(triangles))
    return path
