"""What sits on what: regions in which two facing flats overlap with little or no gap."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from seqviz.assembly.flats import PARALLEL, Plan, StandingFlat, common
from seqviz.assembly.site import Site
from seqviz.assembly.structure import Contact, PlacedPart
from seqviz.geometry.boxes import near_pairs
from seqviz.geometry.separation import GUARD, TOLERANCE

__all__ = ["CLOSE", "sits_on"]

CLOSE = 0.5
"""mm: flats this near still sit on each other; the same gap that is always drawn shut."""


def sits_on(site: Site) -> tuple[Contact, ...]:
    """Return every sits-on region, pair by pair in the order of names."""
    names = sorted(site.placed)
    found: list[Contact] = []
    for i, j in near_pairs([site.placed[name].solids for name in names], margin=CLOSE + TOLERANCE):
        a, b = site.placed[names[i]], site.placed[names[j]]
        upper, lower = (b, a) if _lies_over(b, a, site) else (a, b)
        regions = list(_regions(upper.name, lower.name, site))
        if regions and (a.part.roll or b.part.roll):
            # On a curve they lie in strips next to each other, which are one region.
            regions = [(sum(area for area, _ in regions), min(gap for _, gap in regions))]
        for area, gap in regions:
            found.append(Contact(upper=upper.name, lower=lower.name, area=area, gap=gap))
    return tuple(found)


def _lies_over(one: PlacedPart, other: PlacedPart, site: Site) -> bool:
    """Say whether ``one`` counts as the upper: as said, else by depth, else by height."""
    below = site.lay.below
    if other.name in below.get(one.name, ()):
        return True
    if one.name in below.get(other.name, ()):
        return False
    if one.depth != other.depth:
        return one.depth > other.depth
    heights = [float((part.solids.vertices @ site.up).max()) for part in (one, other)]
    return heights[0] > heights[1]


def _regions(upper: str, lower: str, site: Site) -> Iterator[tuple[float, float]]:
    """Yield area, mm2, and gap, mm, of each pair of facing flats that overlap."""
    normals = [np.array([flat.normal for flat in site.flats[name]]).reshape(-1, 3) for name in (upper, lower)]
    # Facets of one curve that share a strip may be half of both their turns out of parallel.
    lean = sum(_turn(site.placed[name]) for name in (upper, lower)) / 2
    limit = np.cos(np.arccos(PARALLEL) + lean) if lean else PARALLEL
    parallel = np.abs(normals[0] @ normals[1].T) >= limit
    for k in np.flatnonzero(parallel.any(axis=1)):
        a = site.flats[upper][k]
        plan = Plan.across(a.normal)
        low_a, high_a = a.levels(plan)
        for b in itertools.compress(site.flats[lower], parallel[k]):
            low_b, high_b = b.levels(plan)
            between = (high_a, low_b) if low_b > low_a else (high_b, low_a)
            gap = between[1] - between[0]
            if not -TOLERANCE - GUARD <= gap <= CLOSE:
                continue
            region = common(a.polygon(plan), b.polygon(plan))
            if region.area > 0.0:
                area = _bare(region, between, plan, (upper, lower), site).area
                if area > 0.0:
                    yield float(area), max(float(gap), 0.0)


def _turn(placed: PlacedPart) -> float:
    """Return by how much the facets of a part turn, radians; 0 where it is not rolled."""
    roll = placed.part.roll
    return 0.0 if roll is None else float(np.abs(np.diff(roll.turns)).max(initial=0.0))


def _bare(
    region: BaseGeometry, between: tuple[float, float], plan: Plan, own: tuple[str, str], site: Site
) -> BaseGeometry:
    """Return the part of ``region`` that no third flat covers between the two levels."""
    if between[1] - between[0] <= TOLERANCE + GUARD:
        return region
    for name, flats in site.flats.items():
        for flat in flats if name not in own else ():
            if _lies_between(flat, between, plan):
                region = shapely.difference(region, flat.polygon(plan))
    return region


def _lies_between(flat: StandingFlat, between: tuple[float, float], plan: Plan) -> bool:
    low, high = flat.levels(plan)
    return flat.parallel_to(plan.normal) and between[0] - TOLERANCE <= low and high <= between[1] + TOLERANCE
