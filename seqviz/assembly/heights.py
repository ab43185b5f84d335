"""The height rule: how far out a part lies that its holes leave free along their axis."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from seqviz.assembly.flats import Plan, StandingFlat, overlap
from seqviz.assembly.structure import PlacedPart
from seqviz.geometry.pose import Array
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.geometry.solids import Solids
from seqviz.geometry.sweep import Stay, stays

__all__ = ["least_height", "rolled_stays", "slabs_meet"]

STANDS = 0.5
"""Cosine: a flat that leans by more than 60 degrees stands, and lifts nothing that lies over it."""


def least_height(
    own: Sequence[StandingFlat],
    floor: float,
    beneath: Iterable[StandingFlat],
    side: Array,
    rolled: Iterable[Stay] = (),
) -> float:
    """Return how far to move a part along ``side``, mm.

    Parameters
    ----------
    own
        The part's matched flats where the fit left them.
    floor
        mm, the least move: the one that brings its lying faces onto its targets' faces.
    beneath
        Flats of all parts that it lies over; only those count that are parallel and overlap in plan.
    side
        ``(3,)`` the target's outward unit normal.
    rolled
        While which moves it meets what is rolled; see `rolled_stays`.

    Notes
    -----
    The least move from ``floor`` up at which no own slab meets a slab beneath; slabs meet when they overlap
    by more than 0.05 mm.
    """
    plan = Plan.across(side)
    blocks = [(stay.begin, stay.end, stay.clear) for stay in rolled]
    under = [flat for flat in beneath if flat.parallel_to(side)]
    for mine in own:
        low, high = mine.levels(plan)
        for flat in under:
            bottom, top = flat.levels(plan)
            start, end = bottom - high, top - low
            # Most of what is beneath ends at the least move: then its region does not matter.
            if end > floor + GUARD and overlap(mine.polygon(plan), flat.polygon(plan)) > 0.0:
                blocks.append((start + TOLERANCE + GUARD, end - TOLERANCE - GUARD, end))
    moves = sorted({floor, *(clear for _, _, clear in blocks if clear > floor)})
    return next(move for move in moves if not any(start < move < end for start, end, _ in blocks))


def rolled_stays(own: PlacedPart, lying: set[str], beneath: Iterable[PlacedPart], floor: float) -> list[Stay]:
    """Return while which moves along its side a part meets what it lies over, where one of both is rolled.

    A curved face has no level: here pieces count, not slabs. Of the part they are those of its ``lying``
    flats, of what is beneath those that do not stand.
    """
    found: list[Stay] = []
    for other in beneath:
        if own.part.roll is None and other.part.roll is None:
            continue
        mine, theirs = _of_flats(own, lying), _of_flats(other, _not_standing(other, own.side))
        if len(mine) and len(theirs):
            found += stays(mine, theirs, own.side, floor)
    return found


def _of_flats(placed: PlacedPart, names: set[str]) -> Solids:
    return placed.solids.take([k for k, name in enumerate(placed.part.piece_flats) if name in names])


def _not_standing(placed: PlacedPart, side: Array) -> set[str]:
    if placed.part.roll is not None:
        return set(placed.part.flats)
    normals = {
        name: placed.pose.vectors(flat.frame.rotation[:, 2]) for name, flat in placed.part.flats.items()
    }
    return {name for name, normal in normals.items() if abs(normal @ side) > STANDS}


def slabs_meet(a: StandingFlat, b: StandingFlat) -> bool:
    """Say whether two parallel flats overlap in plan and in height by more than the tolerance."""
    if not a.parallel_to(b.normal):
        return False
    plan = Plan.across(a.normal)
    (low_a, high_a), (low_b, high_b) = a.levels(plan), b.levels(plan)
    if min(high_a, high_b) - max(low_a, low_b) <= TOLERANCE + GUARD:
        return False
    return overlap(a.polygon(plan), b.polygon(plan)) > 0.0


def lying_floor(levels_own: Array, levels_target: Array) -> float:
    """Return the least move, mm, that brings every lying face at or above its target's face."""
    return float(np.max(levels_target - levels_own))
