"""The flats of a straight part as lanes side by side, and what is left of each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from seqviz.findings import At, Finding
from seqviz.parts.mistakes import bad_value
from seqviz.parts.part import Flat

__all__ = ["BEYOND", "Lane", "Regions", "free_lane", "lane_called", "lanes_of"]

BEYOND = 1.0
"""mm that a cut reaches beyond an edge, so that no hair of it is left."""

Regions = dict[str, shapely.Geometry]
"""Flat -> what is left of it, in its x and y, mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """A flat of the straight part.

    Attributes
    ----------
    name, place
        Of the flat, and which it is, counted from 0.
    near, far
        The y where it ends: on the side of its mould line at y = 0, and on the other side, mm.
    mould
        The y of the mould line of the bend beyond ``far``; None: there is a free edge.
    """

    name: str
    place: int
    near: float
    far: float
    mould: float | None

    @property
    def width(self) -> float:
        """Without its bends, mm."""
        return self.far - self.near


def lanes_of(flats: dict[str, Flat], widths: Sequence[float]) -> list[Lane]:
    """Return the lanes of flats that follow each other; ``widths`` are their outside dimensions, mm."""
    found = []
    for place, (name, flat) in enumerate(flats.items()):
        y = flat.outline[:, 1]
        mould = widths[place] if 0 < place < len(flats) - 1 else None
        found.append(Lane(name=name, place=place, near=float(y.min()), far=float(y.max()), mould=mould))
    return found


def lane_called(name: str, lanes: Sequence[Lane]) -> Lane:
    """Return the lane of that name, which is there: names are checked where they are read."""
    return next(lane for lane in lanes if lane.name == name)


def free_lane(part: str, lanes: Sequence[Lane], name: str, at: At, why: str) -> Lane | Finding:
    """Return the lane of that name, or a finding where it has no free edge."""
    lane = lane_called(name, lanes)
    if lane.mould is None:
        return lane
    free = [one.name for one in lanes if one.mould is None]
    return bad_value(
        at, f"{part}: {name} has no free edge.", why, f"Name {' or '.join(free)}, or leave it out."
    )
