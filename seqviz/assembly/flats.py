"""Flats where they stand in the structure, and how two of them overlap in plan."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from seqviz.geometry.pose import Array, Pose, any_across, cross
from seqviz.parts.part import Flat, Part

__all__ = ["PARALLEL", "Plan", "StandingFlat", "common", "overlap", "standing_flats"]

PARALLEL = float(np.cos(np.radians(1.0)))
"""Cosine of the angle within which two flats or axes count as parallel: 1 degree."""

SLIVER = 0.05
"""mm: an overlap narrower than the tolerance of contact is none."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plan:
    """A plane to look at flats in: two axes across ``normal``; base frame."""

    normal: Array
    axes: Array

    @staticmethod
    def across(normal: Array) -> Plan:
        """Return the plane across the unit vector ``normal``."""
        first = any_across(normal)
        return Plan(normal=normal, axes=np.array([first, cross(normal, first)]))

    def flatten(self, points: Array) -> Array:
        """Return ``(n, 2)``, mm, of ``(n, 3)`` points."""
        return points @ self.axes.T

    def level(self, points: Array) -> Array:
        """Return the heights along the normal, mm."""
        return np.asarray(points @ self.normal)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StandingFlat:
    """A flat of a placed part.

    Attributes
    ----------
    part, flat
        The placed part's name and the flat.
    normal
        ``(3,)`` outward normal of the flat's outside, base frame.
    frame
        The flat's frame seen from the base's.
    """

    part: str
    flat: Flat
    normal: Array
    frame: Pose

    def polygon(self, plan: Plan) -> Polygon:
        """Return its region, openings cut out, in ``plan``, mm."""
        rings = [self._ring(plan, ring) for ring in (self.flat.outline, *self.flat.openings)]
        return Polygon(rings[0], rings[1:])

    def _ring(self, plan: Plan, ring: Array) -> Array:
        lifted = np.column_stack([ring, np.zeros(len(ring))])
        return plan.flatten(self.frame.points(lifted))

    def levels(self, plan: Plan) -> tuple[float, float]:
        """Return the heights of the lower and upper face along the plan's normal, mm."""
        x, y = self.flat.outline.mean(axis=0)
        ends = np.array([[x, y, 0.0], [x, y, self.flat.thickness]])
        low, high = sorted(plan.level(self.frame.points(ends)))
        return float(low), float(high)

    def parallel_to(self, normal: Array) -> bool:
        """Say whether it is parallel to the plane across ``normal`` within 1 degree."""
        return bool(abs(self.normal @ normal) >= PARALLEL)


def standing_flats(name: str, part: Part, pose: Pose) -> tuple[StandingFlat, ...]:
    """Return the flats of ``part`` at ``pose``; of a bar or block one of each pair of opposite sides.

    Of a rolled skin, also in another model as one piece, they are the facets of its face.
    """
    found: list[StandingFlat] = []
    for flat in part.facets or part.flats.values():
        frame = pose.after(flat.frame)
        normal = frame.rotation[:, 2] * flat.outside
        standing = StandingFlat(part=name, flat=flat, normal=normal, frame=frame)
        if part.roll or not any(_same_slab(standing, other) for other in found):
            found.append(standing)
    return tuple(found)


def _same_slab(a: StandingFlat, b: StandingFlat) -> bool:
    """Say whether two flats are the two ends of one solid: opposite sides of a bar or block."""
    if a.normal @ b.normal > -PARALLEL or abs(a.flat.thickness - b.flat.thickness) > 1e-6:
        return False
    plan = Plan.across(a.normal)
    # Two plates of a fitting may lie side by side on one level.
    return (
        np.allclose(a.levels(plan), b.levels(plan), atol=1e-6)
        and overlap(a.polygon(plan), b.polygon(plan)) > 0.0
    )


def overlap(a: Polygon, b: Polygon) -> float:
    """Return the area, mm2, in which two regions overlap: see `common`."""
    return float(common(a, b).area)


def common(a: Polygon, b: Polygon) -> BaseGeometry:
    """Return the region that two have in common; slivers narrower than 0.05 mm count as none."""
    if not a.intersects(b):
        return Polygon()
    region = shapely.intersection(a, b)
    return Polygon() if region.buffer(-SLIVER / 2).is_empty else region
