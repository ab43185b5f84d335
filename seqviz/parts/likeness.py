"""What a piece looks like in the pile: its turns and mirror images, and which holes tell them apart.

A sheet is compared by its flat pattern, anything else by its box: both as features round their middle.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from seqviz.geometry.pose import Array, frozen
from seqviz.geometry.volume import corners_of
from seqviz.parts.flat_pattern import BendLine, FlatPattern, flat_pattern
from seqviz.parts.part import Part

__all__ = ["Feature", "Look", "Motion", "look_of", "motions", "same_body", "unmatched"]

SAME_PLACE, SAME_SIZE = 0.5, 0.1
"""mm: holes this near, and this alike in diameter, are the same to the eye (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Feature:
    """A hole, an opening or a bend, and its place from the middle of the piece, (2,) or (3,) mm.

    ``name`` is ``ROW.N`` of a hole, None of an opening; ``size`` its diameter, or how wide an opening is at
    most, mm. ``way`` is the axis of a hole through a solid; None: through a sheet.
    """

    name: str | None
    place: Array
    size: float
    way: Array | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Look:
    """A piece round its middle.

    Attributes
    ----------
    size
        mm, along its own x, y (and z where it is no sheet).
    outline
        Of a sheet; None of anything else.
    corners
        ``(n, 3)``, mm, of anything else.
    bends
        Bend lines, of a sheet.
    middle
        Where the middle is in the coordinates of the bend lines.
    features
        Holes in the order of the part, then openings.
    curved
        True for a sheet that lies round something: turned over it is another part.
    """

    size: Array
    outline: shapely.Polygon | None
    corners: Array
    bends: tuple[BendLine, ...]
    middle: Array
    features: tuple[Feature, ...]
    curved: bool = False

    @property
    def flat(self) -> bool:
        """Say whether it is a plain sheet: turned over it is its own mirror image."""
        return self.outline is not None and not self.bends and not self.curved


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Motion:
    """A turn or a mirror image about the middle.

    ``matrix`` is (2, 2) or (3, 3); ``over``: a sheet comes to lie on its other face; ``proper``: hands can do
    it; otherwise it is a mirror image.
    """

    matrix: Array
    over: bool
    proper: bool

    @property
    def still(self) -> bool:
        """Say whether everything stays where it is, but for the face that a sheet lies on."""
        return bool(np.allclose(self.matrix, np.eye(len(self.matrix))))


def look_of(part: Part) -> Look | None:
    """Return what a part looks like; None where nothing is known of its shape, or only a mesh."""
    if part.surface is not None:
        return None
    pattern = flat_pattern(part)
    if pattern is not None:
        return _of_sheet(pattern, curved=part.shape == "tube" or part.roll is not None)
    return _of_solid(part) if part.pieces else None


def motions(look: Look) -> Iterator[Motion]:
    """Yield the turns and mirror images of a sheet (16) or a solid (8), staying as it is among them."""
    if look.outline is None:
        for signs in itertools.product((1.0, -1.0), repeat=3):
            matrix = frozen(np.diag(signs))
            yield Motion(matrix=matrix, over=False, proper=bool(np.prod(signs) > 0))
        return
    for swap, over in itertools.product((False, True), repeat=2):
        if over and look.curved:
            continue
        for signs in itertools.product((1.0, -1.0), repeat=2):
            matrix = np.diag(signs)[:, ::-1] if swap else np.diag(signs)
            turn = float(np.linalg.det(matrix)) * (-1.0 if over else 1.0)
            yield Motion(matrix=frozen(matrix), over=over, proper=turn > 0)


def same_body(one: Look, other: Look, motion: Motion, slack: float) -> bool:
    """Say whether ``one``, moved, has the shape of ``other`` within ``slack`` mm; holes do not count."""
    if (one.outline is None) != (other.outline is None):
        return False
    if np.abs(np.abs(motion.matrix) @ one.size - other.size).max() > slack:
        return False
    if one.outline is None or other.outline is None:
        return _corners_meet(one.corners @ motion.matrix.T, other.corners, slack)
    moved = shapely.transform(one.outline, lambda points: points @ motion.matrix.T)
    strip = max(slack / 2, 0.05) * other.outline.length / 2
    return bool(moved.symmetric_difference(other.outline).area <= strip) and _bends_meet(
        one.bends, other, motion, one.middle, slack
    )


def unmatched(one: Sequence[Feature], other: Sequence[Feature], motion: Motion) -> tuple[Feature, ...]:
    """Return the features of ``one`` that, moved, meet none of ``other`` of the same size."""
    if not one:
        return ()
    if not other:
        return tuple(one)
    places = np.array([feature.place for feature in other])
    sizes = np.array([feature.size for feature in other])
    ways = np.array([feature.way for feature in other if feature.way is not None])
    left = []
    for feature in one:
        near = np.linalg.norm(places - motion.matrix @ feature.place, axis=1) < SAME_PLACE
        near &= np.abs(sizes - feature.size) < SAME_SIZE
        if feature.way is not None:
            near &= np.abs(ways @ (motion.matrix @ feature.way)) > 0.9
        if not near.any():
            left.append(feature)
    return tuple(left)


def _of_sheet(pattern: FlatPattern, *, curved: bool) -> Look:
    low, high = pattern.outline.min(axis=0), pattern.outline.max(axis=0)
    middle = (low + high) / 2
    holes = [
        Feature(name=hole.name, place=frozen(hole.centre - middle), size=hole.diameter)
        for hole in pattern.holes
    ]
    openings = []
    for opening in pattern.openings:
        place = np.array(shapely.Polygon(opening).centroid.coords[0]) - middle
        size = float((opening.max(axis=0) - opening.min(axis=0)).max())
        openings.append(Feature(name=None, place=frozen(place), size=size))
    return Look(
        size=frozen(high - low),
        outline=shapely.Polygon(pattern.outline - middle),
        corners=frozen(np.zeros((0, 3))),
        bends=pattern.bend_lines,
        middle=frozen(middle),
        features=(*holes, *openings),
        curved=curved,
    )


def _of_solid(part: Part) -> Look:
    corners = np.concatenate([end for piece in part.pieces for end in corners_of(piece)])
    low, high = corners.min(axis=0), corners.max(axis=0)
    middle = (low + high) / 2
    holes = tuple(
        Feature(name=hole.name, place=frozen(hole.centre - middle), size=hole.diameter, way=hole.axis)
        for hole in part.holes
    )
    return Look(
        size=frozen(high - low),
        outline=None,
        corners=frozen(corners - middle),
        bends=(),
        middle=frozen(middle),
        features=holes,
    )


def _corners_meet(moved: Array, corners: Array, slack: float) -> bool:
    """Say whether every corner has a partner within ``slack``, sought along x so that many stay quick."""
    reach = max(slack, 0.05)
    ordered = corners[np.argsort(corners[:, 0])]
    first = np.searchsorted(ordered[:, 0], moved[:, 0] - reach)
    last = np.searchsorted(ordered[:, 0], moved[:, 0] + reach, side="right")
    return all(
        bool((np.abs(ordered[a:b] - corner).max(axis=1) <= reach).any())
        for corner, a, b in zip(moved, first, last, strict=True)
    )


def _bends_meet(bends: Sequence[BendLine], other: Look, motion: Motion, middle: Array, slack: float) -> bool:
    if len(bends) != len(other.bends):
        return False
    reach = max(slack, SAME_PLACE)
    for bend in bends:
        place = motion.matrix @ ((bend.start + bend.end) / 2 - middle)
        along = motion.matrix @ (bend.end - bend.start)
        if not any(
            np.linalg.norm((line.start + line.end) / 2 - other.middle - place) <= reach
            and abs(along[0] * (line.end - line.start)[1] - along[1] * (line.end - line.start)[0])
            <= 1e-3 * float(np.linalg.norm(along)) * float(np.linalg.norm(line.end - line.start)) + 1e-9
            and (line.up == bend.up) != motion.over
            and abs(line.angle - bend.angle) < 1.0
            for line in other.bends
        ):
            return False
    return True
