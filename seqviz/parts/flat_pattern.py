"""Flat patterns: the sheet that a part is cut and drilled from, before anything is bent."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely

from seqviz.geometry.pose import Array, frozen
from seqviz.parts.blank import Blank
from seqviz.parts.fold import Fold, fold_of
from seqviz.parts.formed import FORMED
from seqviz.parts.frame_blank import Leaf, leaves_of, openings_before_lips
from seqviz.parts.part import Flat, Part
from seqviz.parts.roll import Roll
from seqviz.parts.worked_mesh import blank_regions

__all__ = ["BendLine", "FlatPattern", "PatternHole", "flat_pattern"]


_STRAIGHT = "Kinks and joggles are not developed: this is the straight part. Try one before cutting all."


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BendLine:
    """The middle of a bend on the flat sheet.

    Attributes
    ----------
    start, end
        ``(2,)``, mm, pattern.
    between
        The flats on both sides; of a roll ``face`` both times.
    angle
        Of the bend, degrees: 90 stands square.
    up
        True where what lies beyond is bent towards the reader.
    radius
        mm, inside.
    allowance
        mm of the sheet, across the line, that the bend takes up: half of it on either side.
    """

    start: Array
    end: Array
    between: tuple[str, str]
    angle: float
    up: bool
    radius: float
    allowance: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PatternHole:
    """A hole: its name ``ROW.N``, ``centre`` (2,) mm in the pattern, ``diameter`` in mm."""

    name: str
    centre: Array
    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FlatPattern:
    """The flat sheet of a part, mm.

    Attributes
    ----------
    outline
        ``(n, 2)``, anticlockwise. x is the part's own x and runs to the right, y up, as the reader sees it.
    openings
        Each ``(m, 2)``; rivet holes are not among them.
    bend_lines, holes
        In the order of the part.
    thickness
        mm.
    seen_from
        ``outside`` or ``inside``: the face of ``seen_flat`` that looks at the reader.
    seen_flat
        The flat that tells which face that is.
    notes
        What the pattern leaves out, in sentences.
    """

    outline: Array
    openings: tuple[Array, ...]
    bend_lines: tuple[BendLine, ...]
    holes: tuple[PatternHole, ...]
    thickness: float
    seen_from: str = "outside"
    seen_flat: str = "face"
    notes: tuple[str, ...] = ()

    @property
    def size(self) -> tuple[float, float]:
        """Length along x and width along y, mm."""
        long, wide = self.outline.max(axis=0) - self.outline.min(axis=0)
        return float(long), float(wide)

    @property
    def area(self) -> float:
        """mm2 of sheet that is left: openings and holes are off."""
        sheet = shapely.Polygon(self.outline, self.openings).area
        return float(sheet) - sum(math.pi / 4 * hole.diameter**2 for hole in self.holes)


def flat_pattern(part: Part) -> FlatPattern | None:
    """Return the flat pattern of a part; None where it is not one sheet (bar, block, tee, mesh, sketch)."""
    make = _BY_SHAPE.get(part.shape)
    return make(part) if make and part.flats else None


def _plane(part: Part) -> FlatPattern:
    """Return a skin or plate as it is written; of a rolled one its holes lie where they are written."""
    (flat,) = part.flats.values()
    if part.roll is None:
        centres = [flat.frame.inverse().points(hole.centre)[:2] for hole in part.holes]
    else:
        centres = list(part.roll.unrolled(np.array([hole.centre for hole in part.holes]).reshape(-1, 3)))
    return FlatPattern(
        outline=flat.outline,
        openings=flat.openings,
        bend_lines=_roll_lines(part.roll, flat) if part.roll else (),
        holes=_holes(part, centres),
        thickness=flat.thickness,
        seen_from="outside" if flat.outside > 0 else "inside",
        seen_flat=flat.name,
    )


def _roll_lines(roll: Roll, flat: Flat) -> tuple[BendLine, ...]:
    """Return the middle of each roll; the sheet leaves it tangent half of the allowance to either side."""
    sheet = shapely.Polygon(flat.outline)
    found = []
    for start, end, turn in roll.arcs:
        place = roll.origin + roll.left * (start + end) / 2
        long = float(np.abs(flat.outline - place).sum(axis=1).max())
        line = shapely.LineString([place - long * roll.along, place + long * roll.along])
        ends = shapely.get_coordinates(shapely.intersection(line, sheet))
        ways = (ends - place) @ roll.along
        found.append(
            BendLine(
                start=frozen(place + ways.min() * roll.along),
                end=frozen(place + ways.max() * roll.along),
                between=(flat.name, flat.name),
                angle=round(math.degrees(abs(turn)), 4),
                up=turn > 0,
                radius=round((end - start) / abs(turn) - roll.thickness / 2, 6),
                allowance=end - start,
            )
        )
    return tuple(found)


def _bent(part: Part) -> FlatPattern:
    """Return a part bent along x, seen from the outer side of its first bend; its lower edge is y = 0.

    Kinks and joggles are not developed: the pattern is that of the straight part.
    """
    worked, part = part.worked, part.worked.straight if part.worked else part
    fold = fold_of(part)
    regions = blank_regions(worked, fold) if worked else fold.regions(part)
    sheet = shapely.union_all(regions, grid_size=1e-6).simplify(1e-6)
    on_sheet = _turned(part.mirrored, (sheet.bounds[1], sheet.bounds[3]))
    first = next(iter(part.flats.values()))
    openings = [
        on_sheet(fold.unrolled(flat.name)(opening))
        for flat in part.flats.values()
        for opening in flat.openings
    ]
    openings += [on_sheet(np.asarray(ring.coords)[:-1]) for ring in sheet.interiors]
    places = [fold.unrolled(hole.flat)(_on_flat(part.flats[hole.flat], hole.centre)) for hole in part.holes]
    outline = np.asarray(shapely.normalize(sheet).exterior.coords)[:-1]
    return FlatPattern(
        outline=frozen(_anticlockwise(on_sheet(outline))),
        openings=tuple(frozen(_anticlockwise(opening)) for opening in openings),
        bend_lines=_bend_lines(part, fold, on_sheet, worked.blank if worked else None),
        holes=_holes(part, [on_sheet(place) for place in places]),
        thickness=first.thickness,
        seen_flat=first.name,
        notes=(_STRAIGHT,) if worked and worked.spine.stations else (),
    )


def _turned(mirrored: bool, reach: tuple[float, float]) -> Callable[[Array], Array]:
    """Return the map from the fold's x and s to the pattern: on the other hand s runs down."""
    sense = -1.0 if mirrored else 1.0
    lowest = min(sense * end for end in reach)
    return lambda points: np.stack([points[..., 0], sense * points[..., 1] - lowest], axis=-1)


def _bend_lines(
    part: Part, fold: Fold, on_sheet: Callable[[Array], Array], blank: Blank | None
) -> tuple[BendLine, ...]:
    names = list(part.flats)
    found = []
    for number, (first, last) in enumerate(fold.bends):
        outer, inner = (float(np.linalg.norm(line[last] - line[first])) for line in (fold.outer, fold.inner))
        thickness = part.flats[names[number]].thickness
        # Chord = 2 r sin(angle / 2) on both faces, and their radii differ by the thickness.
        twice = min(abs(outer - inner) / thickness, 2.0)
        between = (names[number], names[number + 1])
        middle = float(fold.lines[first] + fold.lines[last]) / 2
        spans = blank.bends[number] if blank else (_reach(fold, part, between),)
        for left, right in spans:
            ends = on_sheet(np.array([[left, middle], [right, middle]]))
            found.append(
                BendLine(
                    start=frozen(ends[0]),
                    end=frozen(ends[1]),
                    between=between,
                    angle=round(math.degrees(2 * math.asin(twice / 2)), 4),
                    up=inner > outer,
                    radius=round(min(outer, inner) / twice, 6) + 0.0,
                    allowance=float(fold.lines[last] - fold.lines[first]),
                )
            )
    return tuple(found)


def _reach(fold: Fold, part: Part, between: tuple[str, str]) -> tuple[float, float]:
    """Return the x between which both flats border on their bend."""
    ends = []
    for name in between:
        x = fold.unrolled(name)(part.flats[name].outline)[:, 0]
        ends.append((float(x.min()), float(x.max())))
    return max(low for low, _ in ends), min(high for _, high in ends)


def _rolled(part: Part) -> FlatPattern:
    """Return a tube as a sheet laid round its outside: y 0 is the line at the top, the seam is below."""
    wall = part.flats["wall"]
    outer = float(np.linalg.norm(wall.frame.translation)) + wall.thickness
    low, high = float(wall.outline[:, 0].min()), float(wall.outline[:, 0].max())
    half = math.pi * outer
    centres = [
        np.array([hole.centre[0], outer * math.atan2(hole.centre[1], hole.centre[2])]) for hole in part.holes
    ]
    return FlatPattern(
        outline=frozen([[low, -half], [high, -half], [high, half], [low, half]]),
        openings=(),
        bend_lines=(),
        holes=_holes(part, centres),
        thickness=wall.thickness,
        seen_flat="wall",
    )


_LAP = 0.01
"""mm by which a flange reaches into the web while their outlines are joined, so that no rounding parts them."""


def _framed(part: Part) -> FlatPattern:
    """Return a frame in the x and y of its web; openings with a lip as they are cut before it is formed."""
    web, leaves = part.flats["web"], leaves_of(part)
    regions = [shapely.Polygon(web.outline), *(leaf.sheet(beneath=_LAP) for leaf in leaves)]
    sheet = shapely.union_all(regions).simplify(1e-6)
    on_sheet = {leaf.flat.name: leaf.unrolled for leaf in leaves}
    places = [_on_flat(part.flats[hole.flat], hole.centre) for hole in part.holes]
    centres = [
        on_sheet[hole.flat](place[None])[0] if hole.flat in on_sheet else place
        for hole, place in zip(part.holes, places, strict=True)
    ]
    return FlatPattern(
        outline=frozen(_anticlockwise(np.asarray(shapely.normalize(sheet).exterior.coords)[:-1])),
        openings=openings_before_lips(part),
        bend_lines=tuple(_edge_of(leaf) for leaf in leaves),
        holes=_holes(part, centres),
        thickness=web.thickness,
        seen_from="outside" if web.outside > 0 else "inside",
        seen_flat="web",
    )


def _edge_of(leaf: Leaf) -> BendLine:
    allowance = float(leaf.lines[-1])
    start, end = leaf.on_sheet(np.array(leaf.reach), np.full(2, allowance / 2))
    return BendLine(
        start=frozen(start),
        end=frozen(end),
        between=("web", leaf.flat.name),
        angle=round(leaf.angle, 4),
        up=leaf.up,
        radius=round(leaf.radius, 6) + 0.0,
        allowance=allowance,
    )


def _holes(part: Part, centres: list[Array]) -> tuple[PatternHole, ...]:
    return tuple(
        PatternHole(name=hole.name, centre=frozen(centre), diameter=hole.diameter)
        for hole, centre in zip(part.holes, centres, strict=True)
    )


def _on_flat(flat: Flat, centre: Array) -> Array:
    return flat.frame.inverse().points(centre)[:2]


def _anticlockwise(ring: Array) -> Array:
    x, y = ring.T
    return ring if float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) > 0 else ring[::-1]


_BY_SHAPE: dict[str, Callable[[Part], FlatPattern]] = {
    "skin": _plane,
    "plate": _plane,
    "tube": _rolled,
    "frame": _framed,
    **dict.fromkeys(FORMED.values(), _bent),
}
"""The one sheet of each shape; a shape that is not here has none."""
