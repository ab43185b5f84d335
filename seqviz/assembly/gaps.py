"""Clear space inside a hole stack: drawn shut by the fastener, or in need of a joggle or a shim."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from shapely.geometry import Point
from shapely.geometry.base import BaseGeometry

from seqviz.assembly.flats import Plan, StandingFlat, overlap, standing_flats
from seqviz.assembly.structure import Assembly, Layer, Stack
from seqviz.geometry.separation import GUARD, TOLERANCE

__all__ = ["ALWAYS_SHUT", "BENDS_TO", "SLOPE", "Gap", "gaps"]

ALWAYS_SHUT = 0.5
"""mm: a gap of at most this is drawn shut, whatever the sheet (project choice)."""

BENDS_TO = 1.6
"""mm: a sheet of at most this thickness lies down over a step (project choice)."""

_Place = tuple[Stack, Layer, Layer]
"""A stack, and the two layers with clear space between them."""

SLOPE = 1.0 / 20.0
"""Rise over run at which a sheet still lies down over a step (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Clear space between two layers of a stack.

    Attributes
    ----------
    stack
        Index of the stack.
    upper, lower
        Placed parts, the one on layer 1's side first.
    gap
        mm.
    shut
        True where the fastener draws it shut.
    bends, under
        The part that must lie down, and the part that holds it up elsewhere; None where nothing does.
    run
        mm from the edge of ``under`` to the nearest of the holes beside it; None without ``under``.
    """

    stack: int
    upper: str
    lower: str
    gap: float
    shut: bool
    bends: str
    under: str | None
    run: float | None


def gaps(assembly: Assembly) -> tuple[Gap, ...]:
    """Return every gap of more than 0.05 mm between drilled layers, muted parts left out.

    Between parts that were measured with a tape it must be wider by as much as they may be off.
    """
    open_pairs: dict[tuple[str, str], list[_Place]] = {}
    for stack in assembly.stacks:
        if assembly.muted & set(stack.parts):
            continue
        for upper, lower in zip(stack.layers, stack.layers[1:], strict=False):
            clear = upper.bottom - lower.top
            slack = assembly.measured_to((upper.part, lower.part))
            if clear > TOLERANCE + slack + GUARD and upper.hole and lower.hole and upper.part != lower.part:
                open_pairs.setdefault((upper.part, lower.part), []).append((stack, upper, lower))
    found = [gap for places in open_pairs.values() for gap in _of_pair(places, assembly)]
    return tuple(sorted(found, key=lambda gap: gap.stack))


def _of_pair(places: list[_Place], assembly: Assembly) -> list[Gap]:
    """Judge all gaps between the same two parts.

    Each hole belongs to the part that holds the sheet up nearest to it; the run there is that of the hole
    nearest to that part's edge.
    """
    _, upper, lower = places[0]
    sheets = sorted(
        (upper.part, lower.part), key=lambda name: (assembly.placed[name].depth, name), reverse=True
    )
    held = {sheet: _held_up(sheet, places, assembly) for sheet in sheets}
    bends = next((sheet for sheet in sheets if held[sheet][0][0] is not None), sheets[0])
    runs: dict[str | None, float] = {}
    for under, run in held[bends]:
        runs[under] = min(run, runs.get(under, run))
    found: list[Gap] = []
    for (stack, above, below), (under, _) in zip(places, held[bends], strict=True):
        clear = above.bottom - below.top
        thickness = (above if above.part == bends else below).thickness
        lies_down = thickness <= BENDS_TO + GUARD and clear <= runs[under] * SLOPE + GUARD
        found.append(
            Gap(
                stack=stack.index,
                upper=above.part,
                lower=below.part,
                gap=clear,
                shut=clear <= ALWAYS_SHUT + GUARD or (under is not None and lies_down),
                bends=bends,
                under=under,
                run=runs[under] if under is not None else None,
            )
        )
    return found


def _held_up(sheet: str, places: list[_Place], assembly: Assembly) -> list[tuple[str | None, float]]:
    """Return for each hole the part that holds ``sheet`` up nearest to it, and how far its edge is, mm."""
    stack, upper, lower = places[0]
    partner = lower.part if upper.part == sheet else upper.part
    plan = Plan.across(stack.axis)
    above = upper.part == sheet
    face = float(stack.point @ stack.axis) + (upper.bottom if above else lower.top)
    spots = [Point(plan.flatten(s.point)) for s, _, _ in places]
    best: list[tuple[str | None, float]] = [(None, np.inf) for _ in spots]
    region = _flat_at(sheet, face, above, plan, assembly)
    seated = (name for name, part in assembly.placed.items() if not part.part.tool)
    for name in sorted(seated) if region is not None else ():
        holder = _flat_at(name, face, not above, plan, assembly) if name not in (sheet, partner) else None
        if holder is None or overlap(region, holder) == 0.0:
            continue
        for k, spot in enumerate(spots):
            run = float(holder.distance(spot))
            # Of equally near ones the first name counts, so that a motion of the structure changes nothing.
            if run < best[k][1] - 1e-6:
                best[k] = (name, run)
    return best


def _flat_at(name: str, face: float, bottom: bool, plan: Plan, assembly: Assembly) -> BaseGeometry | None:
    """Return the region of the flat whose bottom (else top) lies at the level ``face``, if there is one."""
    part = assembly.placed[name]
    for flat in standing_flats(name, part.part, part.pose):
        if flat.parallel_to(plan.normal) and np.isclose(
            _level(flat, bottom, plan), face, atol=TOLERANCE + GUARD
        ):
            return flat.polygon(plan)
    return None


def _level(flat: StandingFlat, bottom: bool, plan: Plan) -> float:
    return flat.levels(plan)[0 if bottom else 1]
