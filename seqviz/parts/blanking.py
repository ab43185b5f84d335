"""The blank of a long bent part: flats with cut ends, tabs and notches, and what is left of its bends."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely

from seqviz.findings import Finding
from seqviz.parts.blank import Blank, Spans, polygons_of, spans_at
from seqviz.parts.ends import with_cut_ends, with_tabs
from seqviz.parts.lanes import Lane, Regions, lanes_of
from seqviz.parts.mistakes import bad_value
from seqviz.parts.notches import notched
from seqviz.parts.part import Flat
from seqviz.records.work_types import Work

__all__ = ["blank_of"]


def blank_of(part: str, flats: dict[str, Flat], widths: Sequence[float], work: Work) -> Blank | Finding:
    """Return the blank of a part whose straight ``flats`` follow each other, or the first mistake.

    ``widths`` are the outside dimensions of the flats, mm.
    """
    lanes = lanes_of(flats, widths)
    length = float(next(iter(flats.values())).outline[:, 0].max())
    regions = with_cut_ends(part, lanes, length, work.cuts)
    if not isinstance(regions, Finding):
        regions = with_tabs(part, regions, lanes, work)
    if not isinstance(regions, Finding):
        regions = notched(part, regions, lanes, work.notches)
    if isinstance(regions, Finding):
        return regions
    bends = tuple(_common(regions, one, other) for one, other in pairwise(lanes))
    if work.notches and len(polygons_of(_side_by_side(regions, bends, lanes))) > 1:
        return bad_value(
            work.notches[-1].at,
            f"{part}: its notches cut the part in two.",
            "A part is one piece: at every x some flat goes on.",
            "Correct the notches, or write two parts.",
        )
    return Blank(flats=regions, bends=bends)


def _common(regions: Regions, one: Lane, other: Lane) -> Spans:
    """Return the spans on x in which both flats border on the bend between them."""
    mine = spans_at(regions[one.name], one.near if one.place == 0 else one.far)
    theirs = spans_at(regions[other.name], other.near)
    pairs = [(max(a[0], b[0]), min(a[1], b[1])) for a in mine for b in theirs]
    return tuple(sorted(span for span in pairs if span[1] - span[0] > 1e-6))


def _side_by_side(regions: Regions, bends: Sequence[Spans], lanes: Sequence[Lane]) -> shapely.Geometry:
    """Return the flats with bends 1 mm wide between them: enough to see what hangs together."""
    found: list[shapely.Geometry] = []
    level = 0.0
    for lane, spans in zip(lanes, (*bends, ()), strict=True):
        # The first flat runs down from its bend, the others run up from theirs.
        way = np.array([1.0, -1.0 if lane.place == 0 else 1.0])
        to = np.array([0.0, level - way[1] * lane.near])
        found.append(shapely.transform(regions[lane.name], lambda xy, way=way, to=to: xy * way + to))
        level += 0.0 if lane.place == 0 else lane.width
        found += [shapely.box(low, level, high, level + 1.0) for low, high in spans]
        level += 1.0
    return shapely.union_all(found, grid_size=1e-6)
