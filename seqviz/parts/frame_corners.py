"""Where two sides of a frame meet: the web's corner between the bends, and where the flanges must end."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.pose import Array
from seqviz.parts.body import NARROWEST
from seqviz.parts.frame_sides import Bent, Side
from seqviz.parts.mistakes import bad_value, plain

__all__ = ["Plan", "planned"]

_SHARP = math.radians(45.0)
"""A side that turns off by less than this goes on beside the flange: the web is notched, not cut along it."""
_SAME = 1e-9  # mm


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plan:
    """The web's outline ``(n, 2)`` mm, anticlockwise, and for each side what its ends are relieved by, mm."""

    web: Array
    relieved: list[tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Corner:
    """Corners of the web, and how far the flanges before and after stay back; at least, and as they do."""

    web: list[Array]
    needs: tuple[float, float]
    relieved: tuple[float, float]


def planned(name: str, sides: list[Side], thickness: float, at: At) -> Plan | Finding:
    """Return the web and the ends of the flanges, or the first mistake: too little room or relief."""
    corners = [_corner(sides[k - 1], side, thickness) for k, side in enumerate(sides)]
    for k, side in enumerate(sides):
        here, there = corners[k], corners[(k + 1) % len(sides)]
        mistake = _side_mistake(name, side, (here, there), at)
        if mistake:
            return mistake
    relieved = [
        (corners[k].relieved[1], corners[(k + 1) % len(sides)].relieved[0]) for k in range(len(sides))
    ]
    return Plan(web=np.array([point for corner in corners for point in corner.web]), relieved=relieved)


def _corner(one: Side, other: Side, thickness: float) -> _Corner:
    """Return the corner where ``one`` ends and ``other`` begins."""
    turn = math.atan2(float(one.inward @ other.along), float(one.along @ other.along))
    spot = other.start
    if one.bent and other.bent:
        return _between(one, other, turn, thickness)
    if one.bent:
        inset = one.bent.section.setback
        foot, need, relief = _alone(one.bent, turn, thickness)
        web = [spot - foot * one.along + inset * one.inward]
        web += [] if turn >= _SHARP else [spot]
        return _Corner(web=web, needs=(need, 0.0), relieved=(relief, 0.0))
    if other.bent:
        inset = other.bent.section.setback
        foot, need, relief = _alone(other.bent, turn, thickness)
        web = [] if turn >= _SHARP else [spot]
        web += [spot + foot * other.along + inset * other.inward]
        return _Corner(web=web, needs=(0.0, need), relieved=(0.0, relief))
    return _Corner(web=[spot], needs=(0.0, 0.0), relieved=(0.0, 0.0))


def _between(one: Side, other: Side, turn: float, thickness: float) -> _Corner:
    """Return the corner between two flanges: each stays on its side of the bisector, bent and flat."""
    assert one.bent
    assert other.bent
    slope = math.tan(turn / 2)
    insets = one.bent.section.setback, other.bent.section.setback
    web = [
        one.end - insets[0] * slope * one.along + insets[0] * one.inward,
        other.start + insets[1] * slope * other.along + insets[1] * other.inward,
    ]
    if float(np.linalg.norm(web[1] - web[0])) < _SAME:
        web.pop()
    needs, relieved = [], []
    for bent in (one.bent, other.bent):
        inner, outer = bent.section.inward * slope, -bent.section.outward * slope
        needs.append(max(inner, outer, 0.0))
        least = max(inner, max(outer, 0.0) + thickness / 2)
        relieved.append(least if bent.record.relief is None else bent.record.relief)
    return _Corner(web=web, needs=(needs[0], needs[1]), relieved=(relieved[0], relieved[1]))


def _alone(bent: Bent, turn: float, thickness: float) -> tuple[float, float, float]:
    """Return where the web's inset side ends, what the flange must stay back, and what it does, mm."""
    section = bent.section
    if turn >= _SHARP:
        foot = -section.setback / math.tan(turn) + 0.0
        return foot, max(foot, 0.0), max(foot, 0.0)
    # The other side leans back under the flange while that lies flat.
    need = section.outward / math.tan(math.pi + turn) if turn < -math.pi / 2 else 0.0
    need = max(need, 0.0)
    relief = bent.record.relief
    return 0.0, need, need + thickness if relief is None else relief


def _side_mistake(name: str, side: Side, ends: tuple[_Corner, _Corner], at: At) -> Finding | None:
    here, there = ends
    room = float((there.web[0] - here.web[-1]) @ side.along)
    bent = side.bent
    if room < NARROWEST:
        return _no_room(name, side, at)
    if bent is None:
        return None
    given = (here.relieved[1], there.relieved[0])
    for relief, need in zip(given, (here.needs[1], there.needs[0]), strict=True):
        if relief < need - 1e-6:
            return _too_little(name, bent, relief, need)
    if side.length - sum(given) < NARROWEST:
        return _nothing_left(name, side, bent, given)
    return None


def _no_room(name: str, side: Side, at: At) -> Finding:
    return bad_value(
        side.bent.record.at if side.bent else at,
        f"{name}: side {side.number} of {plain(side.length)} mm is shorter than what bends at its ends take.",
        "The web ends where its bends begin, tan(angle / 2) x (bend radius + thickness) in from the outline.",
        "Make the side longer, or the bend radius smaller.",
    )


def _too_little(name: str, bent: Bent, relief: float, need: float) -> Finding:
    return bad_value(
        bent.record.at,
        f"{name}: relief {plain(relief)} is too small for {bent.flat}; {plain(need)} is needed.",
        "Two flanges that meet at a corner would lie over each other, bent or while the sheet is flat.",
        f"Write at least {plain(math.ceil(need * 10 - 1e-6) / 10)}, or leave relief out.",
    )


def _nothing_left(name: str, side: Side, bent: Bent, given: tuple[float, float]) -> Finding:
    return bad_value(
        bent.record.at,
        f"{name}: nothing is left of {bent.flat}: side {side.number} is {plain(side.length)} mm long, the "
        f"reliefs at its ends take {plain(given[0])} and {plain(given[1])}.",
        "At corners a flange stays back from its neighbours, by more the wider it is where it curves in.",
        "Make the flange narrower, the relief smaller, or use fewer and longer sides.",
    )
