"""Cut ends and end tabs of a long bent part."""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely

from seqviz.findings import Finding
from seqviz.parts.body import NARROWEST
from seqviz.parts.lanes import BEYOND, Lane, Regions, free_lane, lane_called
from seqviz.parts.mistakes import bad_value, plain
from seqviz.records.work_types import Corner, EndCut, EndTab, Work

__all__ = ["with_cut_ends", "with_tabs"]


def with_cut_ends(
    part: str, lanes: Sequence[Lane], length: float, cuts: Sequence[EndCut]
) -> Regions | Finding:
    """Return the region of each flat, longest from x = 0 to ``length``, or the first mistake.

    An end runs on across the bends: where a flat ends aslant the next one begins there.
    """
    starts, stops = (_profile(lanes, end, cuts) for end in ("start", "end"))
    least = min(x for line in starts for x in line)
    most = max(x for line in stops for x in line)
    regions: Regions = {}
    for lane, start, stop in zip(lanes, starts, stops, strict=True):
        low, high = [x - least for x in start], [x - most + length for x in stop]
        if min(high[0] - low[0], high[1] - low[1]) < NARROWEST:
            return _nothing_left(part, lane, length, cuts[0])
        corners = [(low[0], lane.near), (high[0], lane.near), (high[1], lane.far), (low[1], lane.far)]
        regions[lane.name] = shapely.Polygon(corners)
    for cut in cuts:
        if isinstance(cut.cut, Corner):
            left = _without_corner(part, regions, lanes, cut, cut.cut)
            if isinstance(left, Finding):
                return left
            regions[str(cut.flat)] = left
    return regions


def with_tabs(part: str, regions: Regions, lanes: Sequence[Lane], work: Work) -> Regions | Finding:
    """Return the regions with their tabs, or the first mistake."""
    grown = dict(regions)
    for tab in work.tabs:
        lane = lane_called(tab.flat, lanes)
        if any(cut.end == tab.end and _concerns(cut, lane) and cut.cut != 0.0 for cut in work.cuts):
            return bad_value(
                tab.at,
                f"{part}: {tab.flat} has a tab at the {tab.end}, and a cut there as well.",
                "A tab goes on from an end that is cut square.",
                "Leave out one of the two.",
            )
        added = _tab(part, regions, lane, tab)
        if isinstance(added, Finding):
            return added
        grown[tab.flat] = shapely.union(grown[tab.flat], added)
    return grown


def _profile(lanes: Sequence[Lane], end: str, cuts: Sequence[EndCut]) -> list[tuple[float, float]]:
    """Return the x of an end at the near and far side of each flat, mm, the first bend at 0."""
    inward = 1.0 if end == "start" else -1.0
    found: list[tuple[float, float]] = []
    x = 0.0
    for lane in lanes:
        far = x + inward * math.tan(math.radians(_angle(lane, end, cuts))) * lane.width
        found.append((x, far))
        # The first flat runs away from its bend: the second begins where the first did.
        x = 0.0 if lane.place == 0 else far
    return found


def _angle(lane: Lane, end: str, cuts: Sequence[EndCut]) -> float:
    """Return how far off square a flat is cut, degrees."""
    angles = [
        cut.cut for cut in cuts if cut.end == end and _concerns(cut, lane) and not isinstance(cut.cut, Corner)
    ]
    return angles[0] if angles else 0.0


def _concerns(cut: EndCut, lane: Lane) -> bool:
    return cut.flat == lane.name or (cut.flat is None and lane.mould is None)


def _nothing_left(part: str, lane: Lane, length: float, cut: EndCut) -> Finding:
    return bad_value(
        cut.at,
        f"{part}: the cut ends meet, so that nothing of {lane.name} is left on one side.",
        f"The part is {plain(length)} mm long where it is longest. A cut takes tan(angle) x the width of the "
        "flat from its end.",
        "Check the angles and the length.",
    )


def _without_corner(
    part: str, regions: Regions, lanes: Sequence[Lane], cut: EndCut, corner: Corner
) -> shapely.Geometry | Finding:
    why = "A corner is cut off where the end meets a free edge."
    lane = free_lane(part, lanes, str(cut.flat), cut.at, why)
    if isinstance(lane, Finding):
        return lane
    region = regions[lane.name]
    left, _, right, _ = region.bounds
    if corner.along > right - left - NARROWEST or corner.across > lane.width - NARROWEST:
        return bad_value(
            cut.at,
            f"{part}: a corner of {plain(corner.along)} by {plain(corner.across)} mm leaves nothing "
            f"of the end of {lane.name}.",
            f"The flat is {plain(right - left)} mm long and {plain(lane.width)} mm wide without its bend.",
            "Write a smaller corner: [along x, from the edge].",
        )
    x, inward = (left, 1.0) if cut.end == "start" else (right, -1.0)
    outside = x - inward * BEYOND
    ring = [
        (x, lane.far - corner.across),
        (x + inward * corner.along, lane.far),
        (x + inward * corner.along, lane.far + BEYOND),
        (outside, lane.far + BEYOND),
        (outside, lane.far - corner.across),
    ]
    return shapely.difference(region, shapely.Polygon(ring))


def _tab(part: str, regions: Regions, lane: Lane, tab: EndTab) -> shapely.Polygon | Finding:
    width = lane.far - (lane.near if tab.across is None else tab.across) if tab.width is None else tab.width
    low = lane.near + (lane.width - width) / 2 if tab.across is None else tab.across
    if width < NARROWEST or low < lane.near - 1e-6 or low + width > lane.far + 1e-6:
        return bad_value(
            tab.at,
            f"{part}: a tab from y = {plain(low)} to {plain(low + width)} does not lie on {lane.name}.",
            f"Without its bends {lane.name} reaches from y = {plain(lane.near)} to {plain(lane.far)}.",
            "Correct width or in.",
        )
    left, _, right, _ = regions[lane.name].bounds
    if tab.end == "start":
        return shapely.box(left - tab.length, low, left, low + width)
    return shapely.box(right, low, right + tab.length, low + width)
