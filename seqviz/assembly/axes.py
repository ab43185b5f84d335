"""Holes that share an axis: all holes of the structure grouped by where their axes run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import PlacedPart
from seqviz.geometry.pose import Array, any_across, cross
from seqviz.parts.part import Hole

__all__ = ["Indices", "StandingHole", "axis_groups", "direction_groups", "standing_holes"]

Indices = NDArray[np.intp]

SAME_PLACE = 0.01
"""mm: holes of one part on one flat that are nearer are one hole with two names."""

APART = 100.0
"""mm: holes with a longer clear way between them are strangers, even on one line (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StandingHole:
    """A hole where it stands in the structure.

    Attributes
    ----------
    part
        The placed part.
    names
        ``PLACED.ROW.N``, second names of the same hole included.
    hole
        As the part describes it.
    centre, axis
        ``(3,)`` base frame, mm; the axis points out of the flat's outside.
    half
        mm, half of the flat's thickness.
    """

    part: PlacedPart
    names: tuple[str, ...]
    hole: Hole
    centre: Array
    axis: Array
    half: float


def standing_holes(placed: Sequence[PlacedPart]) -> list[StandingHole]:
    """Return all holes of the structure, each once."""
    found: list[StandingHole] = []
    for part in placed:
        by_place: dict[tuple[object, ...], list[Hole]] = {}
        for hole in part.part.holes:
            by_place.setdefault(_place(hole), []).append(hole)
        for holes in by_place.values():
            first = holes[0]
            found.append(
                StandingHole(
                    part=part,
                    names=tuple(f"{part.name}.{hole.name}" for hole in holes),
                    hole=first,
                    centre=part.pose.points(first.centre),
                    axis=part.pose.vectors(first.axis),
                    half=part.part.thickness_at(first) / 2,
                )
            )
    return found


def _place(hole: Hole) -> tuple[object, ...]:
    """Return what is equal for holes of one part that are one hole with several names."""
    if hole.column is not None:
        return ("column", hole.column.number)
    return (hole.flat, *np.round(hole.centre / SAME_PLACE).astype(int).tolist())


def direction_groups(axes: Array) -> Iterator[tuple[Array, Indices]]:
    """Yield each distinct direction with the indices of the axes within 1 degree of it.

    ``axes`` is ``(n, 3)``; the sense of an axis does not matter. An index may come with several directions.
    """
    seen = np.zeros(len(axes), dtype=bool)
    for k, axis in enumerate(axes):
        if not seen[k]:
            cosines = np.abs(axes @ axis)
            seen |= cosines > 1.0 - 1e-12
            yield axis, np.flatnonzero(cosines >= PARALLEL)


def axis_groups(holes: Sequence[StandingHole]) -> list[list[int]]:
    """Return the holes that share an axis, as lists of indices; every hole is in exactly one list.

    Two holes of different parts share an axis when they are parallel within 1 degree, less than the smaller
    diameter apart across it, and no more than 100 mm along it, unless one of them crosses a clear space.
    """
    leader = list(range(len(holes)))

    def find(i: int) -> int:
        while leader[i] != i:
            leader[i] = leader[leader[i]]
            i = leader[i]
        return i

    if not holes:
        return []
    lines = _Lines(
        centres=np.array([h.centre for h in holes]),
        axes=np.array([h.axis for h in holes]),
        halves=np.array([h.half for h in holes]),
        diameters=np.array([h.hole.diameter for h in holes]),
        crossing=np.array([bool(h.hole.crosses) for h in holes]),
    )
    for axis, members in direction_groups(lines.axes):
        for a, b in _near(lines, axis, members).tolist():
            if holes[a].part is not holes[b].part:
                leader[find(a)] = find(b)
    groups: dict[int, list[int]] = {}
    for i in range(len(holes)):
        groups.setdefault(find(i), []).append(i)
    return list(groups.values())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Lines:
    """Holes as arrays, base frame, mm: centres and axes ``(n, 3)``, half thicknesses, diameters."""

    centres: Array
    axes: Array
    halves: Array
    diameters: Array
    crossing: NDArray[np.bool_]


def _near(lines: _Lines, axis: Array, members: Indices) -> Indices:
    """Return ``(k, 2)`` pairs of ``members``, all parallel to ``axis``, that share an axis."""
    across = any_across(axis)
    centres, diameters = lines.centres[members], lines.diameters[members]
    flat = np.column_stack([centres @ across, centres @ cross(axis, across)])
    tree = shapely.STRtree(shapely.points(flat))
    # Seen along a direction that leans by a degree, holes 100 mm apart look 1.75 mm off.
    reach = float(diameters.max()) + APART * float(np.sin(np.arccos(PARALLEL)))
    first, second = tree.query(tree.geometries, predicate="dwithin", distance=reach)
    i, j = members[first[first < second]], members[second[first < second]]
    sense = np.sign(np.einsum("kc,kc->k", lines.axes[i], lines.axes[j]))
    common = lines.axes[i] + lines.axes[j] * sense[:, None]
    common /= np.linalg.norm(common, axis=1)[:, None]
    between = lines.centres[j] - lines.centres[i]
    along = np.einsum("kc,kc->k", between, common)
    apart = np.linalg.norm(between - along[:, None] * common, axis=1)
    close = apart < np.minimum(lines.diameters[i], lines.diameters[j])
    clear = np.abs(along) - lines.halves[i] - lines.halves[j]
    close &= (clear <= APART) | lines.crossing[i] | lines.crossing[j]
    return np.asarray(np.column_stack([i, j])[close], dtype=np.intp)
