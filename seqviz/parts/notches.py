"""Notches in the flats of a long bent part, from an edge or through a bend."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from seqviz.findings import Finding
from seqviz.parts.blank import polygons_of
from seqviz.parts.body import NARROWEST
from seqviz.parts.lanes import BEYOND, Lane, Regions, free_lane
from seqviz.parts.mistakes import bad_value, plain
from seqviz.records.work_types import Notch

__all__ = ["notched"]

_SLIVER = 0.01  # mm2

_Box = tuple[Lane, shapely.Polygon]


def notched(
    part: str, regions: Regions, lanes: Sequence[Lane], notches: Sequence[Notch]
) -> Regions | Finding:
    """Return what the notches leave of the regions, or the first mistake."""
    left = dict(regions)
    gone: list[tuple[str, shapely.Polygon, Notch]] = []
    for notch in notches:
        boxes = _out_of_place(part, regions, notch) or _boxes(part, lanes, notch)
        if isinstance(boxes, Finding):
            return boxes
        for lane, box in boxes:
            for name, before, earlier in gone:
                if name == lane.name and shapely.intersection(box, before).area > 1e-6:
                    return _twice(part, name, notch, earlier)
            gone.append((lane.name, box, notch))
            left[lane.name] = shapely.difference(left[lane.name], box)
            wrong = _bad_rest(part, lane, left[lane.name], notch)
            if wrong:
                return wrong
    return left


def _span(notch: Notch) -> str:
    return f"from {plain(notch.start)} to {plain(notch.stop)}"


def _out_of_place(part: str, regions: Regions, notch: Notch) -> Finding | None:
    if notch.stop - notch.start < NARROWEST:
        return bad_value(
            notch.at,
            f"{part}: a notch {_span(notch)} has no width.",
            "A notch runs from the lesser x to the greater, and is 0.2 mm wide at least (project choice).",
            "Exchange from and to, or correct them.",
        )
    for flat in notch.flats:
        low, _, high, _ = regions[flat].bounds
        if notch.start < low - 1e-6 or notch.stop > high + 1e-6:
            return bad_value(
                notch.at,
                f"{part}: the notch {_span(notch)} reaches beyond {flat}.",
                f"{flat} reaches from x = {plain(low)} to {plain(high)}.",
                "Correct from and to, or at and width.",
            )
    return None


def _boxes(part: str, lanes: Sequence[Lane], notch: Notch) -> list[_Box] | Finding:
    """Return what a notch takes from its flats."""
    if len(notch.flats) == 2:
        return _through_a_bend(part, lanes, notch)
    if len(notch.depth) > 1:
        return bad_value(
            notch.at,
            f"{part}: a notch of one flat has two depths.",
            "Two depths belong to two flats, cut through the bend between them.",
            "Write one depth, or flats: [first, second].",
        )
    why = "A notch of one flat is cut from its free edge; between two bends there is none."
    lane = free_lane(part, lanes, notch.flats[0], notch.at, why)
    if isinstance(lane, Finding):
        return lane
    low = lane.far - notch.depth[0] if notch.depth else lane.near - BEYOND
    if notch.depth and low < lane.near + NARROWEST:
        fix = "Leave depth out to take all of it with its bend, or write less."
        return _too_deep(part, lane, notch.depth[0], notch, fix)
    return [(lane, shapely.box(notch.start, low, notch.stop, lane.far + BEYOND))]


def _through_a_bend(part: str, lanes: Sequence[Lane], notch: Notch) -> list[_Box] | Finding:
    depths = notch.depth * 2 if len(notch.depth) == 1 else notch.depth
    by_name = dict(zip(notch.flats, depths, strict=True))
    pair = [lane for lane in lanes if lane.name in by_name]
    if len(pair) != 2 or pair[1].place != pair[0].place + 1:
        return bad_value(
            notch.at,
            f"{part}: there is no bend between {notch.flats[0]} and {notch.flats[1]}.",
            f"Its flats follow each other: {', '.join(lane.name for lane in lanes)}.",
            "Name two neighbours.",
        )
    found: list[_Box] = []
    for lane in pair:
        depth = by_name[lane.name]
        # The bend of the first is beyond its far side, but for the very first flat: its y runs to the edge.
        if lane is pair[0] and lane.mould is not None:
            low, high = lane.mould - depth, lane.far + BEYOND
            left, taken = low - lane.near, lane.far - low
        else:
            low, high = lane.near - BEYOND, depth
            left, taken = lane.far - high, high - lane.near
        if lane.mould is None and left < 1e-6:
            # As deep as the flat is wide: all of it goes, as far as its free edge.
            high = lane.far + BEYOND
        elif left < NARROWEST:
            return _too_deep(part, lane, depth, notch, "Write less, or the whole width.")
        if taken < NARROWEST:
            return _in_the_bend(part, lane, depth, notch)
        found.append((lane, shapely.box(notch.start, low, notch.stop, high)))
    return found


def _in_the_bend(part: str, lane: Lane, depth: float, notch: Notch) -> Finding:
    bend = lane.near if lane.mould is None or depth < lane.near else lane.mould - lane.far
    return bad_value(
        notch.at,
        f"{part}: a notch {plain(depth)} mm deep on {lane.name} ends in the bend.",
        f"The depth counts from the outer corner, and the bend takes {plain(bend)} mm of it.",
        f"Write more than {plain(bend + NARROWEST)}.",
    )


def _too_deep(part: str, lane: Lane, depth: float, notch: Notch, fix: str) -> Finding:
    return bad_value(
        notch.at,
        f"{part}: a notch {plain(depth)} mm deep leaves nothing of {lane.name}.",
        f"{lane.name} is {plain(lane.width)} mm wide without its bends; what is left must be 0.2 mm wide at "
        "least (project choice).",
        fix,
    )


def _bad_rest(part: str, lane: Lane, left: shapely.Geometry, notch: Notch) -> Finding | None:
    """Return a finding where nothing is left, or a strip too narrow to be told from nothing."""
    pieces = polygons_of(left)
    if pieces and shapely.difference(left, _without_slivers(left)).area < _SLIVER:
        return None
    return bad_value(
        notch.at,
        f"{part}: beside the notch {_span(notch)} less than 0.2 mm of {lane.name} is left."
        if pieces
        else f"{part}: the notch {_span(notch)} leaves nothing of {lane.name}.",
        "Pieces narrower than 0.2 mm cannot be told from touching ones (project choice).",
        "Let the notch end at the edge, or leave more.",
    )


def _without_slivers(region: shapely.Geometry) -> shapely.Geometry:
    """Return a region without what is narrower than 0.2 mm; its corners stay sharp."""
    half = NARROWEST / 2.001
    core = region.buffer(-half, join_style="mitre", mitre_limit=50.0)
    return core.buffer(half, join_style="mitre", mitre_limit=50.0)


def _twice(part: str, flat: str, notch: Notch, earlier: Notch) -> Finding:
    return bad_value(
        notch.at,
        f"{part}: the notches {_span(earlier)} and {_span(notch)} overlap on {flat}.",
        "What is cut away once cannot be cut away again: one of the two is a slip.",
        "Correct their places, or write one notch.",
    )
