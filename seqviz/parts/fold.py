"""The flat pattern of an angle, and how it is folded up."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely

from seqviz.geometry.pose import Array, turn_about, unit
from seqviz.parts.part import Flat, Part

__all__ = ["Fold", "fold_of", "folded"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fold:
    """A flat pattern: x along the part, s across it; s rises from leg 1's edge over the bend to leg 2's edge.

    Attributes
    ----------
    lines
        ``(k,)``, mm, the s of the bend lines: leg 1's tangent, those between the facets, leg 2's tangent.
    outer, inner
        ``(k, 3)``, mm, part frame, x = 0: where the bend lines lie on both faces once it is folded.
    ends
        Unit vectors (3,) from leg 1's tangent to its edge, and from leg 2's.
    setbacks
        y of the tangents in the flats' own frames, mm; negative on the other hand.
    """

    lines: Array
    outer: Array
    inner: Array
    ends: tuple[Array, Array]
    setbacks: tuple[float, float]

    def unrolled(self, flat: str) -> Callable[[Array], Array]:
        """Return the map from coordinates (..., 2) of ``leg 1`` or ``leg 2`` to the pattern's x and s."""
        which = 0 if flat == "leg 1" else 1
        tangent, sense = self.setbacks[which], math.copysign(1.0, self.setbacks[which])
        start, way = (self.lines[0], -1.0) if which == 0 else (self.lines[-1], 1.0)

        def unroll(points: Array) -> Array:
            across = start + way * sense * (points[..., 1] - tangent)
            return np.stack([points[..., 0], across], axis=-1)

        return unroll

    def strips(self, part: Part) -> list[shapely.Polygon]:
        """Return leg 1, the facets of the bend and leg 2 in the pattern."""
        legs = [shapely.Polygon(self.unrolled(f.name)(f.outline)) for f in part.flats.values()]
        left, _, right, _ = legs[0].bounds
        facets = [
            shapely.box(left, low, right, high)
            for low, high in zip(self.lines[:-1], self.lines[1:], strict=True)
        ]
        return [legs[0], *facets, legs[1]]


def fold_of(part: Part) -> Fold:
    """Return the fold of an angle: its bend has as many facets as the part has pieces without a flat."""
    first, second = part.flats["leg 1"], part.flats["leg 2"]
    normals = [flat.face_normal("outside") for flat in (first, second)]
    turn = math.acos(float(np.clip(normals[0] @ normals[1], -1.0, 1.0)))
    tangents = [_tangent(flat) for flat in (first, second)]
    start, end = (_point(f, y, "outside") for f, y in zip((first, second), tangents, strict=True))
    radius = float(np.linalg.norm(end - start)) / (2 * math.sin(turn / 2))
    axis = unit(np.cross(normals[0], normals[1]))
    count = sum(name is None for name in part.piece_flats)
    turns = np.linspace(0.0, turn, count + 1)
    rays = np.array([turn_about(axis, math.degrees(t)) @ normals[0] for t in turns])
    middle = start - radius * normals[0]
    return Fold(
        lines=turns * (radius - first.thickness / 2),
        outer=middle + radius * rays,
        inner=middle + (radius - first.thickness) * rays,
        ends=(_to_edge(first), _to_edge(second)),
        setbacks=(tangents[0], tangents[1]),
    )


def folded(fold: Fold, points: Array, depth: float) -> Array:
    """Return where ``points`` (n, 2) of the pattern come to lie, (n, 3) mm, part frame.

    ``depth`` 0 is the outer face, 1 the inner one. Between two bend lines the facets are plane.
    """
    lines = (1 - depth) * fold.outer + depth * fold.inner
    s = points[:, 1]
    where = np.column_stack([np.interp(s, fold.lines, lines[:, k]) for k in range(3)])
    where += np.maximum(fold.lines[0] - s, 0.0)[:, None] * fold.ends[0]
    where += np.maximum(s - fold.lines[-1], 0.0)[:, None] * fold.ends[1]
    where[:, 0] += points[:, 0]
    return where


def _tangent(flat: Flat) -> float:
    """Return the y of the bend tangent: of the outline's two ends the one nearer to the outer corner."""
    y = flat.outline[:, 1]
    return float(y[np.argmin(np.abs(y))])


def _point(flat: Flat, y: float, face: str) -> Array:
    return flat.frame.points(np.array([0.0, y, flat.face_level(face)]))


def _to_edge(flat: Flat) -> Array:
    return flat.frame.rotation[:, 1] * math.copysign(1.0, _tangent(flat))
