"""The flat pattern of a part bent along x, and how it is folded up."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from seqviz.geometry.pose import Array, turn_about, unit
from seqviz.parts.part import Flat, Part

__all__ = ["Fold", "Strip", "fold_of", "folded"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strip:
    """Where a flat lies in the pattern, mm: s = ``start`` + ``way`` x (y - ``tangent``), x stays."""

    start: float
    way: float
    tangent: float

    def unrolled(self, points: Array) -> Array:
        """Return the pattern's x and s of coordinates (..., 2) on the flat."""
        across = self.start + self.way * (points[..., 1] - self.tangent)
        return np.stack([points[..., 0], across], axis=-1)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fold:
    """A flat pattern: x along the part, s across it; s rises from the first flat's edge to the last one's.

    Attributes
    ----------
    lines
        ``(k,)``, mm, the s of the bend lines: of each bend both tangents and those between its facets. The
        first is 0; widths are those of the middle of the sheet (neutral axis).
    outer, inner
        ``(k, 3)``, mm, part frame, x = 0: where the bend lines lie once it is folded, on the face that is the
        outer one of the first bend and on the other face.
    ends
        Unit vectors (3,) from the first tangent to the first flat's edge, from the last to the last one's.
    strips
        Flat -> its place in the pattern.
    bends
        For each bend the indices of its first and last line.
    """

    lines: Array
    outer: Array
    inner: Array
    ends: tuple[Array, Array]
    strips: dict[str, Strip]
    bends: tuple[tuple[int, int], ...]

    def unrolled(self, flat: str) -> Callable[[Array], Array]:
        """Return the map from coordinates (..., 2) of ``flat`` to the pattern's x and s."""
        return self.strips[flat].unrolled

    def regions(self, part: Part) -> list[shapely.Polygon]:
        """Return the flats and the facets of the bends in the pattern."""
        flats = [shapely.Polygon(self.unrolled(f.name)(f.outline)) for f in part.flats.values()]
        left, _, right, _ = flats[0].bounds
        facets = [
            shapely.box(left, low, right, high)
            for first, last in self.bends
            for low, high in pairwise(self.lines[first : last + 1])
        ]
        return [*flats, *facets]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Bend:
    """Angles (k,) from its first tangent in radians, its mid radius, and its lines on both faces (k, 3)."""

    turns: Array
    radius: float
    outer: Array
    inner: Array


def fold_of(part: Part) -> Fold:
    """Return the fold of a part bent along x.

    Its flats follow each other; each bend has as many facets as there are pieces without a flat between two.
    """
    flats = list(part.flats.values())
    strips = {flats[0].name: _first_strip(flats[0])}
    lines: list[Array] = []
    bends: list[_Bend] = []
    start = 0.0
    for number, (one, other) in enumerate(pairwise(flats)):
        bend = _bend(part, number, (one, other))
        lines.append(start + bend.turns * bend.radius)
        strips[other.name] = Strip(start=float(lines[-1][-1]), way=_sense(other), tangent=_near(other))
        start = float(strips[other.name].unrolled(np.array([0.0, _far(other)]))[1])
        bends.append(bend)
    ends = np.cumsum([len(line) for line in lines])
    return Fold(
        lines=np.concatenate(lines),
        outer=np.concatenate([bend.outer for bend in bends]),
        inner=np.concatenate([bend.inner for bend in bends]),
        ends=(_to_edge(flats[0]), _to_edge(flats[-1])),
        strips=strips,
        bends=tuple((int(end - len(line)), int(end - 1)) for end, line in zip(ends, lines, strict=True)),
    )


def folded(fold: Fold, points: Array, depth: float) -> Array:
    """Return where ``points`` (n, 2) of the pattern come to lie, (n, 3) mm, part frame.

    ``depth`` 0 is the outer face of the first bend, 1 the other one. Between two bend lines all is plane.
    """
    lines = (1 - depth) * fold.outer + depth * fold.inner
    s = points[:, 1]
    where = np.column_stack([np.interp(s, fold.lines, lines[:, k]) for k in range(3)])
    where += np.maximum(fold.lines[0] - s, 0.0)[:, None] * fold.ends[0]
    where += np.maximum(s - fold.lines[-1], 0.0)[:, None] * fold.ends[1]
    where[:, 0] = points[:, 0]
    return where


def _bend(part: Part, number: int, flats: tuple[Flat, Flat]) -> _Bend:
    """Return the bend between two flats, the first of which is flat ``number`` of the part."""
    ends = (_near if number == 0 else _far, _near)
    points = [_middle(flat, end(flat)) for flat, end in zip(flats, ends, strict=True)]
    normals = [_outward(flats[0], first=number == 0), _outward(flats[1], first=False)]
    turn = math.acos(float(np.clip(normals[0] @ normals[1], -1.0, 1.0)))
    chord = points[1] - points[0]
    # On the outer face of the first bend: does this one, too, turn away from it?
    sense = -1.0 if chord @ normals[0] > 0 else 1.0
    radius = float(np.linalg.norm(chord)) / (2 * math.sin(turn / 2))
    axis = unit(np.cross(normals[0], normals[1]))
    turns = np.linspace(0.0, turn, _facets(part, flats) + 1)
    rays = np.array([turn_about(axis, math.degrees(t)) @ normals[0] for t in turns])
    lines = points[0] + sense * radius * (rays - normals[0])
    half = flats[0].thickness / 2
    return _Bend(turns=turns, radius=radius, outer=lines + half * rays, inner=lines - half * rays)


def _facets(part: Part, flats: tuple[Flat, Flat]) -> int:
    names = list(part.piece_flats)
    return names.index(flats[1].name) - names.index(flats[0].name) - 1


def _first_strip(flat: Flat) -> Strip:
    return Strip(start=0.0, way=-_sense(flat), tangent=_near(flat))


def _outward(flat: Flat, *, first: bool) -> Array:
    """Return the normal (3,) on the outer side of the first bend; only the first flat's y runs towards it."""
    return flat.frame.rotation[:, 2] * (-1.0 if first else 1.0)


def _near(flat: Flat) -> float:
    """Return the y of the tangent next to the flat's mould line; negative on the other hand."""
    y = flat.outline[:, 1]
    return float(y[np.argmin(np.abs(y))])


def _far(flat: Flat) -> float:
    """Return the y of the flat's other end."""
    y = flat.outline[:, 1]
    return float(y[np.argmax(np.abs(y))])


def _sense(flat: Flat) -> float:
    return math.copysign(1.0, _far(flat))


def _middle(flat: Flat, y: float) -> Array:
    return flat.frame.points(np.array([0.0, y, flat.thickness / 2]))


def _to_edge(flat: Flat) -> Array:
    return flat.frame.rotation[:, 1] * _sense(flat)
