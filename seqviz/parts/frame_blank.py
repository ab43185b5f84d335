"""The flat sheet of a frame: where its flanges lie before they are bent, and where bending takes them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from seqviz.geometry.polygons import circle
from seqviz.geometry.pose import Array, frozen, turn_about
from seqviz.geometry.prism import Prismoid
from seqviz.parts.part import Flat, Part

__all__ = ["Leaf", "leaves_of", "lips_of", "openings_before_lips"]


_SAME = 1e-6  # mm


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Leaf:
    """A flange with its bend, flat and bent.

    Attributes
    ----------
    flat
        The flange.
    corner, along, outward
        ``(2,)`` each, in the web's x and y: the bend's tangent where the flange's x is 0, the way of that x,
        the way from the web to the free edge.
    lines
        ``(k,)``, mm from the tangent on the web: the bend lines, facet by facet; the last is the flange's.
    low, high
        ``(k, 3)``, mm, part frame: where they lie at the flange's x = 0, on the web's face z = 0 and on the
        other one.
    angle, radius
        Of the bend: degrees, and mm inside.
    """

    flat: Flat
    corner: Array
    along: Array
    outward: Array
    lines: Array
    low: Array
    high: Array
    angle: float
    radius: float

    @property
    def up(self) -> bool:
        """Whether it rises to +z of the web."""
        return bool(_to_edge(self.flat)[2] > 0)

    @property
    def reach(self) -> tuple[float, float]:
        """The flange's x from end to end, mm."""
        x = self.flat.outline[:, 0]
        return float(x.min()), float(x.max())

    @property
    def width(self) -> float:
        """Of the flange from its tangent to its free edge, mm."""
        y = np.abs(self.flat.outline[:, 1])
        return float(y.max() - y.min())

    def on_sheet(self, x: Array, out: Array) -> Array:
        """Return the web's x and y (n, 2) of places ``x`` along the flange and ``out`` from the tangent."""
        return np.asarray(self.corner + x[:, None] * self.along + out[:, None] * self.outward)

    def unrolled(self, points: Array) -> Array:
        """Return where coordinates (n, 2) of the flange lie on the flat sheet."""
        y = np.abs(points[:, 1]) - np.abs(self.flat.outline[:, 1]).min()
        return self.on_sheet(points[:, 0], y + self.lines[-1])

    def strips(self) -> list[shapely.Polygon]:
        """Return the facets of the bend and at last the flange on the flat sheet."""
        left, right = self.reach
        ends = [*self.lines, self.lines[-1] + self.width]
        return [
            shapely.Polygon(self.on_sheet(np.array([left, right, right, left]), np.array([a, a, b, b])))
            for a, b in pairwise(ends)
        ]

    def sheet(self, beneath: float) -> shapely.Polygon:
        """Return bend and flange on the flat sheet, and ``beneath`` mm of the web before the bend."""
        left, right = self.reach
        a, b = -beneath, self.lines[-1] + self.width
        return shapely.Polygon(self.on_sheet(np.array([left, right, right, left]), np.array([a, a, b, b])))

    def bent(self, points: Array) -> tuple[Array, Array]:
        """Return where ``points`` (n, 2) of the flat sheet come to lie: on both faces, (n, 3) mm."""
        x, out = (points - self.corner) @ self.along, (points - self.corner) @ self.outward
        beyond = np.maximum(out - self.lines[-1], 0.0)[:, None] * _to_edge(self.flat)
        along = x[:, None] * np.array([*self.along, 0.0])
        low, high = (
            np.column_stack([np.interp(out, self.lines, face[:, k]) for k in range(3)]) + along + beyond
            for face in (self.low, self.high)
        )
        return low, high


def leaves_of(part: Part) -> list[Leaf]:
    """Return the flanges of a frame in the order of its flats."""
    return [_leaf(part, flat) for name, flat in part.flats.items() if name != "web"]


def lips_of(part: Part) -> list[list[Prismoid]]:
    """Return the pieces of each lip of a frame: bend and wall of one opening."""
    found: list[list[Prismoid]] = []
    walled = False
    for piece, name in zip(part.pieces, part.piece_flats, strict=True):
        if not isinstance(piece, Prismoid):
            continue
        # The bend comes before the wall: the next bend piece after a wall begins another lip.
        if not found or (name is None and walled):
            found.append([])
        walled = name is not None
        found[-1].append(piece)
    return found


def openings_before_lips(part: Part) -> tuple[Array, ...]:
    """Return the openings (n, 2) of a frame's web, those with a lip as they are cut in the flat sheet."""
    web, lips = part.flats["web"], lips_of(part)
    found = []
    for opening in web.openings:
        starts = [lip for lip in lips if np.abs(opening - lip[0].bottom[0][:2]).max(axis=1).min() < _SAME]
        if starts:
            middle, corner = opening.mean(axis=0), opening[0]
            radius = float(np.linalg.norm(corner - middle))
            # The facets of the bend spoke by spoke, then the walls.
            facets = len(starts[0]) // len(opening) - 1
            section = [*starts[0][:facets], starts[0][facets * len(opening)]]
            found.append(frozen(circle(middle, 2 * (radius - _developed(section, web.thickness)))))
        else:
            found.append(opening)
    return tuple(found)


def _developed(section: list[Prismoid], thickness: float) -> float:
    """Return how much sheet, mm, a lip is formed of, along one spoke."""
    total = 0.0
    for outer, outer_next, inner_next, inner in (piece.bottom for piece in section):
        lengths = float(np.linalg.norm(outer_next - outer)), float(np.linalg.norm(inner_next - inner))
        # Chord = 2 r sin(turn / 2) on both faces, and their radii differ by the thickness.
        sine = min(abs(lengths[0] - lengths[1]) / thickness / 2, 1.0)
        total += sum(lengths) / 2 * (math.asin(sine) / sine if sine > _SAME else 1.0)
    return total


def _leaf(part: Part, flat: Flat) -> Leaf:
    web = part.flats["web"]
    back = float(np.abs(flat.outline[:, 1]).min())
    sense = math.copysign(1.0, flat.outline[:, 1].mean())
    levels = [flat.face_level("outside"), flat.face_level("inside")]
    outer, inner = (flat.frame.points(np.array([0.0, sense * back, level])) for level in levels)
    upward = np.array([0.0, 0.0, math.copysign(1.0, _to_edge(flat)[2])])
    through = (outer - inner)[:2]
    outward = through / np.linalg.norm(through)
    way = _to_edge(flat)
    angle = math.degrees(math.atan2(abs(float(way[2])), float(way[:2] @ outward)))
    radius = back / math.tan(math.radians(angle) / 2) - flat.thickness
    # Turned back about the bend's middle the tangent of the flange comes to lie on that of the web.
    middle = outer + (inner - outer) * (1 + radius / flat.thickness)
    axis = np.cross([*outward, 0.0], upward)
    turns = np.linspace(angle, 0.0, _facets(part, flat) + 1)
    rays = np.array([turn_about(axis, -turn) @ (outer - inner) for turn in turns]) / flat.thickness
    outers, inners = middle + (radius + flat.thickness) * rays, middle + radius * rays
    low, high = (outers, inners) if upward[2] > 0 else (inners, outers)
    return Leaf(
        flat=flat,
        corner=web.frame.inverse().points(low[0])[:2],
        along=flat.frame.rotation[:2, 0],
        outward=outward,
        lines=np.radians(turns[::-1]) * (radius + flat.thickness / 2),
        low=low,
        high=high,
        angle=angle,
        radius=max(radius, 0.0),
    )


def _to_edge(flat: Flat) -> Array:
    return flat.frame.rotation[:, 1] * math.copysign(1.0, flat.outline[:, 1].mean())


def _facets(part: Part, flat: Flat) -> int:
    """Count the pieces of the bend: those of no flat right before those of the flange."""
    names = list(part.piece_flats)
    end = start = names.index(flat.name)
    while names[start - 1] is None:
        start -= 1
    return end - start
