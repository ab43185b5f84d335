"""What is seen from a view: which part each pixel shows and how far it is, on a small flat picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.pose import Array, any_across
from seqviz.render.meshes import Body, joined_bodies
from seqviz.render.view import View
from seqviz.render.window import Depths, Window
from seqviz.scene.picture import End, Mark, Scene

__all__ = ["Rims", "Seen", "Survey", "points_seen", "rims_of"]

Ids = NDArray[np.int64]
_FACING = 0.12  # cosine; a hole seen flatter than that is a line
_LIFT = 0.1  # mm
_CLEARLY = 0.7  # of a rim


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Seen:
    """A measured picture.

    Attributes
    ----------
    view
        From where.
    ids
        ``(height, width)`` index of the scene's item, -1 where nothing is.
    depth
        ``(height, width)`` mm towards the eye from the view's centre, -inf where nothing is.
    alone
        For each item of the role ``new`` its pixels if nothing stood before it.
    holes
        Which share of this step's holes is seen, 0 to 1; those that only stay open do not count.
    """

    view: View
    ids: Ids
    depth: Depths
    alone: dict[int, int]
    holes: float

    def pixels(self, item: int) -> int:
        """Return how many pixels show an item."""
        return int(np.count_nonzero(self.ids == item))

    def share(self, item: int) -> float:
        """Return which share of a new item is seen, 0 to 1."""
        return self.pixels(item) / max(self.alone.get(item, 0), 1)


class Survey:
    """Measures one scene from many views in one small window."""

    def __init__(self, window: Window, scene: Scene, bodies: Sequence[Body]) -> None:
        self.window, self.scene = window, scene
        self.new = [k for k, item in enumerate(scene.items) if item.role == "new"]
        self.rims = rims_of([mark for mark in scene.marks if mark.kind != "still open"])
        window.clear()
        for role in ("there", "new"):
            chosen = [k for k, item in enumerate(scene.items) if item.role == role]
            body = joined_bodies(bodies[k] for k in chosen)
            counts = [len(bodies[k].faces) for k in chosen]
            window.faces(role, body, _coded(np.repeat(np.array(chosen, dtype=np.int64), counts)))
        self.corners = joined_bodies(bodies).vertices

    def seen(self, view: View) -> Seen:
        """Return the picture from ``view``, whose size is the window's."""
        reach = float(np.linalg.norm(self.corners - view.centre, axis=1).max(initial=0.0)) + 1.0
        self.window.look(view, reach)
        alone: dict[int, int] = {}
        if self.new and len(self.new) < len(self.scene.items):
            self.window.show("there", False)
            ids = _decoded(self.window.picture())
            alone = {k: int(np.count_nonzero(ids == k)) for k in self.new}
            self.window.show("there", True)
        ids = _decoded(self.window.picture())
        alone = alone or {k: int(np.count_nonzero(ids == k)) for k in self.new}
        depth = self.window.depth()
        # Stricter than a drawing: what is half hidden here may be hidden in its finer pixels.
        ends = self.rims.seen(view, depth, _CLEARLY)
        holes = float(np.mean([end is not None for end in ends])) if ends else 1.0
        return Seen(view=view, ids=ids, depth=depth, alone=alone, holes=holes)


def points_seen(view: View, depth: Depths, points: Array) -> NDArray[np.bool_]:
    """Say for each of ``(n, 3)`` points, mm, whether nothing in the depth picture stands before it."""
    x, y, near = view.project(points).T
    height, width = depth.shape
    column, row = np.floor(x).astype(int), np.floor(y).astype(int)
    inside = (column >= 0) & (column < width) & (row >= 0) & (row < height)
    there = depth[np.clip(row, 0, height - 1), np.clip(column, 0, width - 1)]
    # Within one pixel a face seen at 40 degrees changes its depth by a pixel's width.
    return np.asarray(inside & (there <= near + 0.4 + 1.2 / view.scale))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rims:
    """Points on the rims of marked holes, for all marks at once.

    Attributes
    ----------
    marks
        The n marks.
    points
        ``(n, 2, 9, 3)`` mm: for each of a mark's two ends its middle and eight points of its rim.
    outward
        ``(n, 2, 3)`` unit vectors out of the faces.
    """

    marks: tuple[Mark, ...]
    points: Array
    outward: Array

    def seen(self, view: View, depth: Depths, least: float = 0.5) -> list[End | None]:
        """Return for each mark the end that is seen, the one worked from first; None where neither is.

        An end is seen when it faces the eye and the share ``least`` of its rim is free.
        """
        if not self.marks:
            return []
        free = points_seen(view, depth, self.points.reshape(-1, 3)).reshape(self.points.shape[:3])
        shown = (free.mean(axis=2) >= least) & (self.outward @ view.towards >= _FACING)
        return [
            mark.ends[int(np.argmax(row))] if row.any() else None
            for mark, row in zip(self.marks, shown, strict=True)
        ]


def rims_of(marks: Sequence[Mark]) -> Rims:
    """Return the rims of ``marks``."""
    outward = np.array([[end.outward for end in mark.ends] for mark in marks]).reshape(-1, 2, 3)
    points = np.array([[_rim(end, mark.diameter) for end in mark.ends] for mark in marks])
    return Rims(marks=tuple(marks), points=points.reshape(-1, 2, 9, 3), outward=outward)


def _rim(end: End, diameter: float) -> Array:
    across = any_across(end.outward)
    along = np.cross(end.outward, across)
    turns = np.linspace(0.0, 2 * np.pi, 8, endpoint=False)[:, np.newaxis]
    ring = (np.cos(turns) * across + np.sin(turns) * along) * diameter * 0.4
    return np.asarray(end.point + end.outward * _LIFT + np.concatenate([np.zeros((1, 3)), ring]))


def _coded(items: Ids) -> NDArray[np.uint8]:
    """Return an RGB row for each item index; black is kept for nothing."""
    value = items + 1
    return np.stack([value >> 16 & 255, value >> 8 & 255, value & 255], axis=-1).astype(np.uint8)


def _decoded(picture: NDArray[np.uint8]) -> Ids:
    parts = picture.astype(np.int64)
    return np.asarray((parts[..., 0] << 16) + (parts[..., 1] << 8) + parts[..., 2] - 1)
