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
        mm from the edge of ``under`` to the nearest shared hole where it lies; None without ``under``.
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
    open_pairs: dict[tuple[str, str], list[tuple[Stack, Layer, Layer]]] = {}
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


def _of_pair(places: list[tuple[Stack, Layer, Layer]], assembly: Assembly) -> list[Gap]:
    """Judge all gaps between the same two parts: one run for all of them, that of the nearest hole."""
    stack, upper, lower = places[0]
    bends, other = sorted(
        (upper.part, lower.part), key=lambda name: (assembly.placed[name].depth, name), reverse=True
    )
    under, run = None, None
    for sheet, partner in ((bends, other), (other, bends)):
        under, run = _held_up(sheet, partner, places, assembly)
        if under is not None:
            bends = sheet
            break
    found: list[Gap] = []
    for stack, upper, lower in places:
        clear = upper.bottom - lower.top
        thickness = (upper if upper.part == bends else lower).thickness
        lies_down = run is not None and thickness <= BENDS_TO + GUARD and clear <= run * SLOPE + GUARD
        found.append(
            Gap(
                stack=stack.index,
                upper=upper.part,
                lower=lower.part,
                gap=clear,
                shut=clear <= ALWAYS_SHUT + GUARD or lies_down,
                bends=bends,
                under=under,
                run=run,
            )
        )
    return found


def _held_up(
    sheet: str, partner: str, places: list[tuple[Stack, Layer, Layer]], assembly: Assembly
) -> tuple[str | None, float | None]:
    """Return the part that holds ``sheet`` up, and how near its edge the nearest hole is, mm."""
    stack, upper, lower = places[0]
    plan = Plan.across(stack.axis)
    origin = float(stack.point @ stack.axis)
    above = upper.part == sheet
    face = origin + (upper.bottom if above else lower.top)
    region = _flat_at(sheet, face, above, plan, assembly)
    if region is None:
        return None, None
    spots = [Point(plan.flatten(s.point)) for s, _, _ in places]
    best: tuple[str | None, float | None] = (None, None)
    for name in sorted(assembly.placed):
        holder = _flat_at(name, face, not above, plan, assembly) if name not in (sheet, partner) else None
        if holder is None or overlap(region, holder) == 0.0:
            continue
        run = min(float(holder.distance(spot)) for spot in spots)
        # Of equally near ones the first name counts, so that a motion of the structure changes nothing.
        if best[1] is None or run < best[1] - 1e-6:
            best = (name, run)
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
