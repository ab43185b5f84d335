"""The height rule: how far out a part lies that its holes leave free along their axis."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from seqviz.assembly.flats import Plan, StandingFlat, overlap
from seqviz.geometry.pose import Array
from seqviz.geometry.separation import GUARD, TOLERANCE

__all__ = ["least_height", "slabs_meet"]


def least_height(
    own: Sequence[StandingFlat], floor: float, beneath: Iterable[StandingFlat], side: Array
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

    Notes
    -----
    The least move from ``floor`` up at which no own slab meets a slab beneath; slabs meet when they overlap
    by more than 0.05 mm.
    """
    plan = Plan.across(side)
    blocks: list[tuple[float, float]] = []
    under = [flat for flat in beneath if flat.parallel_to(side)]
    outlines = [flat.polygon(plan) for flat in under]
    for mine in own:
        outline, (low, high) = mine.polygon(plan), mine.levels(plan)
        for flat, other in zip(under, outlines, strict=True):
            if overlap(outline, other) > 0.0:
                bottom, top = flat.levels(plan)
                blocks.append((bottom - high, top - low))
    moves = sorted({floor, *(end for _, end in blocks if end > floor)})
    return next(move for move in moves if not any(_meet(move, *block) for block in blocks))


def _meet(move: float, start: float, end: float) -> bool:
    """Say whether at ``move`` the slabs overlap that meet for moves between ``start`` and ``end``."""
    return start + TOLERANCE + GUARD < move < end - TOLERANCE - GUARD


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
