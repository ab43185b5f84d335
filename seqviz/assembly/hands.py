"""Whether the same part on both sides of the mirror line does lie as mirror images."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from seqviz.assembly.entries import entries
from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.geometry.pose import Array
from seqviz.parts.part import Flat, Part
from seqviz.records.model import MirrorLine, Model

__all__ = ["UnlikeTwins", "are_mirror_images", "is_flat_blank", "unlike_twins"]

ALIKE = 0.5
"""mm: what lies nearer to its mirror image than this is at the same place (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnlikeTwins:
    """``left`` (or forward) has a ``flat`` or else a ``hole`` without counterpart on ``right``."""

    left: str
    right: str
    flat: str | None
    hole: str | None


def unlike_twins(assembly: Assembly, model: Model) -> Iterator[UnlikeTwins]:
    """Yield the twins of entries that say ``same part`` and are no mirror images of each other."""
    line = model.mirror_line
    for name, entry in entries(model).items():
        if line is None or entry.record.both_sides != "same part" or entry.twin not in ("left", "forward"):
            continue
        assert entry.twin_of is not None
        pair = [assembly.placed.get(twin) for twin in entry.twin_of]
        here, there = pair
        if here is None or there is None or assembly.muted & {here.name, there.name}:
            continue
        slack = ALIKE + assembly.measured_to([name])
        found = _difference(here, there, line, slack)
        if found is not None:
            yield found


def is_flat_blank(part: Part) -> bool:
    """Say whether the part is one flat sheet: turned over it is its own other hand."""
    return list(part.flats) == ["face"] and part.roll is None


def are_mirror_images(here: PlacedPart, there: PlacedPart, line: MirrorLine) -> bool:
    """Say whether two pieces of one part lie as mirror images of each other, heights left out."""
    return _difference(here, there, line, ALIKE + here.part.measured_to) is None


def _difference(here: PlacedPart, there: PlacedPart, line: MirrorLine, slack: float) -> UnlikeTwins | None:
    if not here.part.flats:
        return None
    flats = here.part.facets or tuple(here.part.flats.values())
    own = [_mirrored(_corners(here, flat), line) for flat in flats]
    other = np.vstack([_corners(there, flat) for flat in there.part.facets or there.part.flats.values()])
    # On one side more may lie underneath: heights are not compared.
    lift = there.side * float((other.mean(axis=0) - np.vstack(own).mean(axis=0)) @ there.side)
    for flat, corners in zip(flats, own, strict=True):
        if _farthest(corners + lift, other) > slack:
            return UnlikeTwins(left=here.name, right=there.name, flat=flat.name, hole=None)
    if here.part.holes and there.part.holes:
        spots = there.pose.points(np.array([hole.centre for hole in there.part.holes]))
        for hole in here.part.holes:
            if _farthest(_mirrored(here.pose.points(hole.centre[None]), line) + lift, spots) > slack:
                return UnlikeTwins(left=here.name, right=there.name, flat=None, hole=hole.name)
    return None


def _corners(placed: PlacedPart, flat: Flat) -> Array:
    """Return ``(2 n, 3)`` the corners of both faces of a flat, base frame."""
    outline = flat.outline
    levels = (np.full(len(outline), 0.0), np.full(len(outline), flat.thickness))
    points = np.vstack([np.column_stack([outline, level]) for level in levels])
    return placed.pose.points(flat.frame.points(points))


def _mirrored(points: Array, line: MirrorLine) -> Array:
    image = np.array(points)
    column = "xy".index(line.axis)
    image[:, column] = 2 * line.value - image[:, column]
    return image


def _farthest(points: Array, among: Array) -> float:
    """Return how far the loneliest of ``points`` is from the nearest of ``among``, mm."""
    apart = np.linalg.norm(points[:, None] - among[None], axis=2)
    return float(apart.min(axis=1).max())
