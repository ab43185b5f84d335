"""The one sheet that a hole goes through, where it is still as it is cut: edges, openings, bends."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import shapely

from seqviz.assembly.flats import PARALLEL
from seqviz.geometry.pose import IDENTITY, Array, Pose
from seqviz.geometry.prism import Prism
from seqviz.parts.blank import polygons_of
from seqviz.parts.part import Flat, Part

__all__ = ["OUTLINE", "Edge", "Sheet", "area_of", "edges_of", "ends_at_bend", "flat_through", "sheet_of"]

OUTLINE = -1
"""The ``opening`` of an edge that is none of an opening."""

_BEYOND = 0.02
"""mm: how far beyond an edge it is asked whether a bend goes on there."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sheet:
    """One flat of a plain part, of a piece of a fitting, or of a part of another model.

    Attributes
    ----------
    part
        What the flat is of; of a worked part the straight one that it is made from.
    flat
        Its flat. Of a rolled skin the flat pattern.
    frame
        Where the flat lies in the whole, whose frame that of ``pose`` is. Its x and y are those of ``flat``.
    pose
        Where the part's frame stands in that of the whole.
    region
        Of a worked part what is left of the flat, mm, in its x and y; else None.
    """

    part: Part
    flat: Flat
    frame: Pose
    pose: Pose = IDENTITY
    region: shapely.Geometry | None = None

    def spots(self, points: Array) -> Array:
        """Return ``(n, 2)`` mm, x and y of the flat, for ``(n, 3)`` points in the frame of the whole."""
        if self.part.roll is not None:
            return self.part.roll.unrolled(self.pose.inverse().points(points))
        return self.frame.inverse().points(points)[:, :2]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Edge:
    """Where a sheet ends: a line in its x and y, mm, and the number of its opening, or `OUTLINE`."""

    line: shapely.Geometry
    opening: int = OUTLINE


def sheet_of(part: Part, flat: str) -> Sheet:
    """Return the sheet of a flat of ``part``, however deep in its pieces it is."""
    whole = part.flats[flat].frame
    member = next((one for one in part.members if flat in one.flats), None)
    if member is not None:
        inner = sheet_of(member.part, member.flats[flat])
        return replace(inner, frame=whole, pose=member.pose.after(inner.pose))
    own = part.flats[flat]
    if part.worked is None:
        return Sheet(part=part, flat=own, frame=whole)
    straight, region = part.worked.straight, part.worked.blank.flats[own.written]
    return Sheet(part=straight, flat=straight.flats[own.written], frame=whole, region=region)


def flat_through(part: Part, point: Array, axis: Array) -> str | None:
    """Return the flat of ``part`` whose sheet the ``axis`` crosses at ``point``: ``(3,)`` each, its frame."""
    for name, flat in part.flats.items():
        sheet = sheet_of(part, name)
        if sheet.part.roll is not None:
            if len(part.flats) == 1:
                return name
            continue
        x, y, z = flat.frame.inverse().points(point).tolist()
        square = abs(float(flat.frame.rotation[:, 2] @ axis)) >= PARALLEL
        if (
            square
            and 0.0 <= z <= flat.thickness
            and shapely.Polygon(flat.outline).covers(shapely.Point(x, y))
        ):
            return name
    return None


def edges_of(sheet: Sheet) -> list[Edge]:
    """Return every line at which the sheet is no longer flat or ends, the outline first.

    Ends of stretches between kinks and joggles are none: the sheet goes on there.
    """
    if sheet.region is not None:
        whole = polygons_of(sheet.region)
        holes = [ring for one in whole for ring in one.interiors]
        outer: shapely.Geometry = shapely.MultiLineString([one.exterior for one in whole])
    else:
        holes = [shapely.LinearRing(opening) for opening in sheet.flat.openings]
        outer = _ends_of_tube(sheet.flat) if sheet.part.shape == "tube" else _ring(sheet.flat)
    return [Edge(line=outer), *(Edge(line=ring, opening=k) for k, ring in enumerate(holes))]


def area_of(sheet: Sheet) -> shapely.Geometry:
    """Return the flat with its openings cut out, mm, in its x and y."""
    if sheet.region is not None:
        return sheet.region
    return shapely.Polygon(sheet.flat.outline, sheet.flat.openings)


def ends_at_bend(sheet: Sheet, spot: Array, edge: Edge) -> bool:
    """Say whether the sheet goes on as a bend where ``edge`` is nearest to ``spot`` (2,), mm."""
    ends = shapely.get_coordinates(shapely.shortest_line(shapely.Point(spot), edge.line))
    way = ends[1] - ends[0]
    away = float(np.linalg.norm(way))
    if away == 0.0:
        return False
    beyond = ends[1] + way * (_BEYOND / away)
    point = sheet.flat.frame.points(np.array([*beyond, sheet.flat.thickness / 2]))
    pieces = zip(sheet.part.pieces, sheet.part.piece_flats, strict=True)
    return any(flat is None and isinstance(piece, Prism) and _within(piece, point) for piece, flat in pieces)


def _within(piece: Prism, point: Array) -> bool:
    x, y, z = piece.frame.inverse().points(point).tolist()
    return 0.0 <= z <= piece.height and bool(shapely.Polygon(piece.polygon).covers(shapely.Point(x, y)))


def _ring(flat: Flat) -> shapely.Geometry:
    return shapely.LinearRing(flat.outline)


def _ends_of_tube(flat: Flat) -> shapely.Geometry:
    """Return the lines at both ends: along it a tube has no edge, its flat is a strip that touches."""
    (left, low), (right, high) = flat.outline.min(axis=0), flat.outline.max(axis=0)
    return shapely.MultiLineString([[(left, low), (left, high)], [(right, low), (right, high)]])
