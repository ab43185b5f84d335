"""Holes, notches and cuts that lie where a long part is kinked or joggled, or where nothing of it is left."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely

from seqviz.findings import Finding
from seqviz.parts.blank import Blank, polygons_of
from seqviz.parts.body import NARROWEST
from seqviz.parts.mistakes import bad_value, numbers_text, plain
from seqviz.parts.part import Hole, Part
from seqviz.parts.spine import Spine
from seqviz.records.work_types import Joggle, Kink, Work

__all__ = ["in_the_way", "misplaced"]

_SAME = 1e-6  # mm


def in_the_way(part: str, blank: Blank, spine: Spine, work: Work) -> Finding | None:
    """Return a finding where a flat or a bend begins, ends or is notched within a kink or a ramp."""
    for low, high, what, said in _windows(spine, work):
        if any(_is_cut(region, low, high) for region in blank.flats.values()) or any(
            low - _SAME < x < high + _SAME for bend in blank.bends for span in bend for x in span
        ):
            return bad_value(
                said.at,
                f"{part}: a notch, a cut end or a tab reaches into {what}, which takes x = {plain(low)} to "
                f"{plain(high)}.",
                "Where the part is folded or offset its section goes through unchanged.",
                "Move one of the two.",
            )
    return None


def misplaced(straight: Part, blank: Blank, spine: Spine) -> list[Finding]:
    """Return a finding for each row with holes where nothing is left, in a ramp or on a kink."""
    rows: dict[str, list[Hole]] = {}
    for hole in straight.holes:
        rows.setdefault(hole.row, []).append(hole)
    found = [_row_mistake(straight, holes, blank, spine) for holes in rows.values()]
    return [finding for finding in found if finding]


def _windows(spine: Spine, work: Work) -> Iterator[tuple[float, float, str, Kink | Joggle]]:
    """Yield from where to where kinks and ramps go on x, mm, in words, and where they stand in the file."""
    by_x = {kink.x: kink for kink in work.kinks}
    for crease in spine.creases:
        reach = crease.reach + NARROWEST
        yield crease.x - reach, crease.x + reach, f"the kink at {plain(crease.x)}", by_x[crease.x]
    for shift, joggle in zip(spine.shifts, work.joggles, strict=True):
        for low, high in zip(shift.knots[::2], shift.knots[1::2], strict=True):
            yield low, high, "the ramp of a joggle", joggle


def _is_cut(region: shapely.Geometry, low: float, high: float) -> bool:
    _, bottom, _, top = region.bounds
    inside = polygons_of(shapely.intersection(region, shapely.box(low, bottom, high, top)))
    return any(
        abs(piece.area - (high - low) * (piece.bounds[3] - piece.bounds[1])) > _SAME * (high - low)
        for piece in inside
    )


def _row_mistake(straight: Part, holes: list[Hole], blank: Blank, spine: Spine) -> Finding | None:
    flat = straight.flats[holes[0].flat]
    places = flat.frame.inverse().points(np.array([hole.centre for hole in holes]))[:, :2]
    left = shapely.contains_xy(blank.flats[flat.name], places[:, 0], places[:, 1])
    gone = [hole for hole, there in zip(holes, left, strict=True) if not there]
    if gone:
        return bad_value(
            gone[0].at,
            f"{_said(gone)} where nothing of {flat.name} is left: a notch, a cut end, beside a tab.",
            "A hole's middle lies on its flat.",
            "Move the holes or the cut, or skip them in the row.",
        )
    for low, high, what in _lines(spine):
        met = [
            hole
            for hole, (x, _) in zip(holes, places, strict=True)
            if low - hole.diameter / 2 < x < high + hole.diameter / 2
        ]
        if met:
            return bad_value(
                met[0].at,
                f"{_said(met)} in {what}, which takes x = {plain(low)} to {plain(high)}.",
                "Nothing lies flat where the sheet is folded or offset: a head would not seat there.",
                "Move the holes, or skip them in the row.",
            )
    return None


def _said(holes: list[Hole]) -> str:
    numbers = numbers_text(hole.number for hole in holes)
    if len(holes) == 1:
        return f"Hole {numbers} of row {holes[0].row} lies"
    return f"Holes {numbers} of row {holes[0].row} lie"


def _lines(spine: Spine) -> Iterator[tuple[float, float, str]]:
    for crease in spine.creases:
        yield crease.x - crease.reach, crease.x + crease.reach, f"the kink at {plain(crease.x)}"
    for shift in spine.shifts:
        for low, high in zip(shift.knots[::2], shift.knots[1::2], strict=True):
            yield low, high, "the ramp of a joggle"
