"""Holes that share an axis: all holes of the structure grouped by where their axes run."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import PlacedPart
from seqviz.geometry.pose import Array, any_across, cross
from seqviz.parts.part import Hole

__all__ = ["Indices", "SharedAxes", "StandingHole", "direction_groups", "shared_axes"]

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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SharedAxes:
    """All holes of a structure, and which of them share an axis.

    Attributes
    ----------
    holes
        Each once.
    pairs
        ``(k, 2)`` indices of holes of two parts: parallel within 1 degree, less than the smaller diameter
        apart across the axis, and no more than 100 mm along it, unless one of them crosses a clear space.
    """

    holes: tuple[StandingHole, ...]
    pairs: Indices

    def groups(self, without: Set[str] = frozenset()) -> list[list[int]]:
        """Return the holes that share an axis, as lists of indices; every hole is in exactly one list.

        Holes of the placed parts ``without`` stay alone.
        """
        leader = list(range(len(self.holes)))

        def find(i: int) -> int:
            while leader[i] != i:
                leader[i] = leader[leader[i]]
                i = leader[i]
            return i

        owners = [hole.part.name for hole in self.holes]
        for a, b in self.pairs.tolist():
            if owners[a] not in without and owners[b] not in without:
                leader[find(a)] = find(b)
        groups: dict[int, list[int]] = {}
        for i in range(len(self.holes)):
            groups.setdefault(find(i), []).append(i)
        return list(groups.values())


def shared_axes(placed: Mapping[str, PlacedPart]) -> SharedAxes:
    """Return all holes of the placed parts, by the parts' names, and which of them share an axis."""
    holes = tuple(hole for name in sorted(placed) for hole in _standing_holes(placed[name]))
    if not holes:
        return SharedAxes(holes=(), pairs=np.zeros((0, 2), dtype=np.intp))
    numbers = {id(hole.part): k for k, hole in enumerate(holes)}
    lines = _Lines(
        parts=np.array([numbers[id(hole.part)] for hole in holes]),
        centres=np.array([hole.centre for hole in holes]),
        axes=np.array([hole.axis for hole in holes]),
        halves=np.array([hole.half for hole in holes]),
        diameters=np.array([hole.hole.diameter for hole in holes]),
        crossing=np.array([bool(hole.hole.crosses) for hole in holes]),
    )
    pairs = [_near(lines, axis, members) for axis, members in direction_groups(lines.axes)]
    return SharedAxes(holes=holes, pairs=np.concatenate(pairs))


def _standing_holes(part: PlacedPart) -> Iterator[StandingHole]:
    """Yield the holes of a placed part; two at one place on one flat are one hole."""
    if not part.part.holes:
        return
    centres = np.array([hole.centre for hole in part.part.holes])
    spots = np.round(centres / SAME_PLACE).astype(int).tolist()
    standing = part.pose.points(centres)
    axes = part.pose.vectors(np.array([hole.axis for hole in part.part.holes]))
    by_place: dict[tuple[object, ...], list[int]] = {}
    for k, hole in enumerate(part.part.holes):
        # Holes of one column of another model are one hole with several names.
        place = ("column", hole.column.number) if hole.column else (hole.flat, *spots[k])
        by_place.setdefault(place, []).append(k)
    for same in by_place.values():
        first = part.part.holes[same[0]]
        yield StandingHole(
            part=part,
            names=tuple(f"{part.name}.{part.part.holes[k].name}" for k in same),
            hole=first,
            centre=standing[same[0]],
            axis=axes[same[0]],
            half=part.part.thickness_at(first) / 2,
        )


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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Lines:
    """Holes as arrays, base frame, mm: centres and axes ``(n, 3)``; ``parts`` says whose each is."""

    parts: Indices
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
    close = (apart < np.minimum(lines.diameters[i], lines.diameters[j])) & (lines.parts[i] != lines.parts[j])
    clear = np.abs(along) - lines.halves[i] - lines.halves[j]
    close &= (clear <= APART) | lines.crossing[i] | lines.crossing[j]
    return np.asarray(np.column_stack([i, j])[close], dtype=np.intp)
