"""Kinks and joggles of a long bent part: from what is written to the line that it follows."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from seqviz.findings import Finding
from seqviz.geometry.pose import Array, Pose, cross, frozen, turn_about
from seqviz.parts.body import NARROWEST, Body
from seqviz.parts.mistakes import bad_value, plain
from seqviz.parts.part import Flat
from seqviz.parts.spine import Crease, Shift, Spine
from seqviz.records.work_types import Joggle, Kink, Work

__all__ = ["ramps_of", "spine_of"]

_ALONG = np.array([1.0, 0.0, 0.0])


def spine_of(part: str, body: Body, work: Work) -> Spine | Finding:
    """Return the line that the straight ``body`` is led along, or the first mistake.

    A kink folds its flat about a line square to x in the middle of the sheet: there x is measured. A joggle
    moves the section square to its flat; x stays.
    """
    length = float(next(iter(body.flats.values())).outline[:, 0].max())
    for joggle in work.joggles:
        wrong = _joggle_mistake(part, joggle, length)
        if wrong:
            return wrong
    creases = [_crease(body, kink) for kink in sorted(work.kinks, key=lambda kink: kink.x)]
    wrong = _kink_mistake(part, work, creases, length) or _too_near(part, work, creases, length)
    if wrong:
        return wrong
    return Spine(
        creases=tuple(creases), shifts=tuple(_shift(body, joggle, length) for joggle in work.joggles)
    )


def ramps_of(joggle: Joggle, length: float) -> tuple[tuple[float, float], ...]:
    """Return from where to where on x the ramps of a joggle go, mm."""
    if joggle.end == "start":
        return ((joggle.length or 0.0, (joggle.length or 0.0) + joggle.run),)
    if joggle.end == "end":
        stop = length - (joggle.length or 0.0)
        return ((stop - joggle.run, stop),)
    start, stop = joggle.start or 0.0, joggle.stop or 0.0
    return ((start - joggle.run, start), (stop, stop + joggle.run))


def _flat(body: Body, name: str | None) -> Flat:
    return body.flats[name] if name else next(iter(body.flats.values()))


def _crease(body: Body, kink: Kink) -> Crease:
    flat = _flat(body, kink.flat)
    towards = flat.face_normal(kink.towards)
    middle = flat.frame.points(np.array([kink.x, 0.0, flat.thickness / 2]))
    turn = turn_about(cross(_ALONG, towards), kink.angle)
    half = math.tan(math.radians(kink.angle / 2))
    corners = np.concatenate([_corners(each) for each in body.flats.values()])
    return Crease(
        x=kink.x,
        half=half,
        middle=frozen(middle),
        towards=frozen(towards),
        turn=Pose(rotation=frozen(turn), translation=frozen(middle - turn @ middle)),
        reach=half * float(np.abs((corners - middle) @ towards).max()),
    )


def _corners(flat: Flat) -> Array:
    """Return the corners of a flat's section as far as its outer corners, mm, part frame."""
    edges = [0.0, float(flat.outline[:, 1].max())]
    return flat.frame.points(np.array([[0.0, y, z] for y in edges for z in (0.0, flat.thickness)]))


def _shift(body: Body, joggle: Joggle, length: float) -> Shift:
    by = frozen(_flat(body, joggle.flat).face_normal(joggle.towards) * joggle.depth)
    knots = tuple(x for ramp in ramps_of(joggle, length) for x in ramp)
    shares = {"start": (1.0, 0.0), "end": (0.0, 1.0)}.get(joggle.end or "", (0.0, 1.0, 1.0, 0.0))
    return Shift(by=by, knots=knots, shares=shares)


def _joggle_mistake(part: str, joggle: Joggle, length: float) -> Finding | None:
    ramps = ramps_of(joggle, length)
    if joggle.depth > joggle.run:
        return bad_value(
            joggle.at,
            f"{part}: a joggle {plain(joggle.depth)} mm deep is steeper than 45 degrees over a run of "
            f"{plain(joggle.run)} mm.",
            "The sheet would tear, or stand up as a leg (project choice). A run of six depths is usual.",
            "Make the run longer, or check the depth.",
        )
    if joggle.start is not None and joggle.stop is not None and joggle.stop - joggle.start < NARROWEST:
        return bad_value(
            joggle.at,
            f"{part}: a joggle from {plain(joggle.start)} to {plain(joggle.stop)} has no length.",
            "It runs from the lesser x to the greater, both where it is offset in full.",
            "Exchange from and to, or correct them.",
        )
    if min(x for ramp in ramps for x in ramp) < NARROWEST or ramps[-1][1] > length - NARROWEST:
        return bad_value(
            joggle.at,
            f"{part}: the joggle with its ramps, from {_spans(ramps)}, does not lie within the part.",
            f"The part reaches from x = 0 to {plain(length)}. A run comes on top of the joggle's length.",
            "Correct its place, or make the run shorter.",
        )
    return None


def _spans(ramps: Sequence[tuple[float, float]]) -> str:
    return " and ".join(f"{plain(low)} to {plain(high)}" for low, high in ramps)


def _kink_mistake(part: str, work: Work, creases: Sequence[Crease], length: float) -> Finding | None:
    for kink, crease in zip(sorted(work.kinks, key=lambda kink: kink.x), creases, strict=True):
        room = crease.reach + NARROWEST
        if not 0 < kink.x < length:
            return bad_value(
                kink.at,
                f"{part}: the kink at {plain(kink.x)} lies outside the part.",
                f"The part reaches from x = 0 to {plain(length)}.",
                "Correct at.",
            )
        if not room < kink.x < length - room:
            return bad_value(
                kink.at,
                f"{part}: the kink at {plain(kink.x)} lies too near to the end of the part.",
                f"Folded by {plain(kink.angle)} degrees it takes {plain(crease.reach)} mm on both sides.",
                "Correct at, or the angle.",
            )
    return None


def _too_near(part: str, work: Work, creases: Sequence[Crease], length: float) -> Finding | None:
    """Return a finding where two of the kinks and joggles take the same place on x."""
    kinks = sorted(work.kinks, key=lambda kink: kink.x)
    taken = [
        (crease.x - crease.reach, crease.x + crease.reach, f"the kink at {plain(crease.x)}", kink.at)
        for kink, crease in zip(kinks, creases, strict=True)
    ]
    for joggle in work.joggles:
        ramps = ramps_of(joggle, length)
        low, high = (0.0 if joggle.end == "start" else ramps[0][0]), ramps[-1][1]
        high = length if joggle.end == "end" else high
        taken.append((low, high, f"the joggle from {plain(low)} to {plain(high)}", joggle.at))
    for one, other in pairwise(sorted(taken, key=lambda entry: entry[:3])):
        if other[0] < one[1] + NARROWEST:
            return bad_value(
                other[3],
                f"{part}: {one[2]} and {other[2]} are in each other's way.",
                "A joggle goes back before the next kink or joggle begins, and two kinks are as far apart as "
                "their section needs.",
                "Move one of them.",
            )
    return None
