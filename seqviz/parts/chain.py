"""Sheet bent along x: any chain of flats and bends, walked across its section, as flats and convex pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from seqviz.geometry.polygons import facets
from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.geometry.prism import Prism
from seqviz.parts.body import Body
from seqviz.parts.part import Flat
from seqviz.trade.bends import setback

__all__ = ["Chain", "chain_body", "folds_into_itself"]

# A cross section (y, z) extruded along x: the prism's x, y, z axes are the part's y, z, x axes.
_ALONG_X = Pose(rotation=frozen([[0, 0, 1], [1, 0, 0], [0, 1, 0]]), translation=frozen(np.zeros(3)))
_TO_THE_RIGHT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """A bent section, walked from the edge of its first flat to the edge of its last.

    The first flat lies in 0 <= z <= thickness: the walk comes along it in -y, and its bend rises towards +z,
    a turn to the right. The left of the walk is then z = 0.

    Attributes
    ----------
    names, widths
        Of the flats; widths are outside dimensions, from mould line to mould line or edge, mm.
    angles, turns
        Of the bends: degrees, and +1 for a turn to the right, -1 for one to the left; the first is +1.
    outsides
        For each flat which of its faces is the outside: +1 the one on the left of the walk, -1 the right.
    """

    names: tuple[str, ...]
    widths: tuple[float, ...]
    angles: tuple[float, ...]
    turns: tuple[int, ...]
    outsides: tuple[int, ...]
    thickness: float
    radius: float
    length: float

    def setbacks(self, number: int) -> tuple[float, float]:
        """Return what the bends before and after flat ``number`` (from 0) take of its width, mm."""
        ends = [setback(self.thickness, self.radius, angle) for angle in self.angles]
        return ([0.0, *ends][number], [*ends, 0.0][number])


def chain_body(chain: Chain) -> Body:
    """Return flats and pieces of a chain whose widths reach beyond its setbacks.

    Each flat has x along the part and y from a mould line: of the first flat the one of its bend, y running
    to its edge; of any other the one of the bend before it, y running on along the walk. The mould line of a
    bend is where the faces on its outer side would meet; that of the first lies on the x axis.
    """
    first = _first_flat(chain)
    flats, pieces, names = [first], [_slab(first)], [first.name]
    spot, way = np.array([chain.setbacks(0)[1], 0.0]), 180.0
    for number, (angle, turn) in enumerate(zip(chain.angles, chain.turns, strict=True), start=1):
        bend = _bend(chain, spot, way, (angle, turn))
        way -= turn * angle
        before, after = chain.setbacks(number)
        flat = _flat(chain, number, bend.end, way)
        spot = bend.end + _along(way) * (chain.widths[number] - before - after)
        flats.append(flat)
        pieces += [*bend.pieces, _slab(flat)]
        names += [*("" for _ in bend.pieces), flat.name]
    return Body(
        flats={flat.name: flat for flat in flats},
        pieces=tuple(pieces),
        piece_flats=tuple(name or None for name in names),
    )


def folds_into_itself(body: Body) -> bool:
    """Say whether pieces of a chain's section lie over each other."""
    sections = [_section(piece) for piece in body.pieces if isinstance(piece, Prism)]
    doubled = sum(section.area for section in sections) - shapely.union_all(sections).area
    return bool(doubled > 1e-6)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Bend:
    """Facets, and the point ``(2,)`` of the section at the bend's end on the left of the walk."""

    pieces: list[Prism]
    end: Array


def _along(way: float) -> Array:
    """Return the unit vector (y, z) of a walk that goes ``way`` degrees from +y towards +z."""
    turn = np.radians(way)
    return np.array([np.cos(turn), np.sin(turn)])


def _left_of(way: float) -> Array:
    return _along(way + 90.0)


def _first_flat(chain: Chain) -> Flat:
    start, edge = chain.setbacks(0)[1], chain.widths[0]
    frame = Pose(rotation=frozen(np.eye(3)), translation=frozen(np.zeros(3)))
    # Against the walk: the face on its left is z = 0.
    return _named(chain, 0, frame, (start, edge), -chain.outsides[0])


def _flat(chain: Chain, number: int, spot: Array, way: float) -> Flat:
    """Return the flat that begins at ``spot`` on the left of the walk."""
    start, after = chain.setbacks(number)
    along, left = _along(way), _left_of(way)
    y, z = spot - start * along - chain.thickness * left
    frame = Pose(
        rotation=frozen([[1, 0, 0], [0, along[0], left[0]], [0, along[1], left[1]]]),
        translation=frozen([0.0, y, z]),
    )
    return _named(chain, number, frame, (start, chain.widths[number] - after), chain.outsides[number])


def _named(chain: Chain, number: int, frame: Pose, reach: tuple[float, float], outside: int) -> Flat:
    low, high = reach
    outline = frozen([[0, low], [chain.length, low], [chain.length, high], [0, high]])
    return Flat(
        name=chain.names[number], frame=frame, thickness=chain.thickness, outside=outside, outline=outline
    )


def _slab(flat: Flat) -> Prism:
    return Prism(polygon=flat.outline, height=flat.thickness, frame=flat.frame)


def _bend(chain: Chain, spot: Array, way: float, bend: tuple[float, int]) -> _Bend:
    """Return the facets of a bend that begins at ``spot``; their corners lie on the true surfaces."""
    angle, turn = bend
    inner, outer = chain.radius, chain.radius + chain.thickness
    count = facets(outer, angle)
    # From the middle of the bend the rays point to its outer side: left where it turns right.
    rays = [turn * _left_of(way - turn * share) for share in np.linspace(0.0, angle, count + 1)]
    middle = spot - rays[0] * (outer if turn == _TO_THE_RIGHT else inner)
    pieces = [
        Prism(
            polygon=frozen(_facet(middle, pair[::turn], (inner, outer))), height=chain.length, frame=_ALONG_X
        )
        for pair in pairwise(rays)
    ]
    return _Bend(pieces=pieces, end=middle + rays[-1] * (outer if turn == _TO_THE_RIGHT else inner))


def _facet(middle: Array, rays: Sequence[Array], radii: tuple[float, float]) -> Array:
    """Return the anticlockwise cross section of one facet; a sharp inside bend gives a triangle."""
    first, second = rays
    inner, outer = radii
    corners = [middle + outer * second, middle + outer * first]
    inside = [middle + inner * first, middle + inner * second] if inner > 0 else [middle]
    return np.array(corners + inside)


def _section(piece: Prism) -> shapely.Polygon:
    if piece.frame is _ALONG_X:
        return shapely.Polygon(piece.polygon)
    low, high = piece.polygon[:, 1].min(), piece.polygon[:, 1].max()
    ring = np.array([[0, low, 0], [0, high, 0], [0, high, piece.height], [0, low, piece.height]])
    return shapely.Polygon(piece.frame.points(ring)[:, 1:])
