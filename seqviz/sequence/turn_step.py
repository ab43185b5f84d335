"""``turn over``: what is loose then, and what the work stands on afterwards."""

from __future__ import annotations

import numpy as np

from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import PlacedPart
from seqviz.geometry.pose import Array
from seqviz.sequence.replay_types import LooseAtTurn, StandsOnWeak
from seqviz.sequence.work import Done, Work

__all__ = ["turn_over"]

WEAK = 1.0 - 1e-6
"""mm: a thinner sheet that stands on its edge bends under the work (project choice)."""

LOWEST = 1.0
"""mm: what is no higher than this above the lowest point stands on the bench."""


def turn_over(work: Work) -> Done:
    """Note what is loose in the work, and whether it stands on thin edges alone."""
    for part in sorted(work.there - work.shop.assembly.muted):
        _note_loose(work, part)
    if work.lie.bench == "flat":
        _note_weak(work)
    return Done()


def _note_loose(work: Work, part: str) -> None:
    """Note a part with fewer than two pins or fasteners; one that has no holes for two is held otherwise."""
    shop = work.shop
    if shop.assembly.placed[part].part.tool:
        return
    stacks = [shop.assembly.stacks[k] for k in shop.assembly.stacks_of_part[part]]
    joints = [stack.index for stack in stacks if work.layers_there(stack) >= 2]
    held = {one.fixing.stack for one in shop.in_stacks(joints) if part in one.parts and len(one.parts) > 1}
    if len(held) < min(2, len(joints)) and part != shop.assembly.base:
        trouble = LooseAtTurn(step=work.number, at=work.step.at, part=part, held=tuple(sorted(held)))
        shop.troubles.note(trouble)


def _note_weak(work: Work) -> None:
    up = work.lie.up
    there = [work.shop.assembly.placed[name] for name in sorted(work.there - work.shop.assembly.muted)]
    levels = {part.name: float((part.solids.vertices @ up).min()) for part in there if part.located}
    if not levels:
        return
    floor = min(levels.values()) + LOWEST
    standing = [part for part in there if levels.get(part.name, np.inf) <= floor]
    if all(_stands_on_edge(part, up) for part in standing):
        names = tuple(part.name for part in standing)
        work.shop.troubles.note(StandsOnWeak(step=work.number, at=work.step.at, parts=names))


def _stands_on_edge(part: PlacedPart, up: Array) -> bool:
    """Say whether the part is a thin sheet on its edge; a leg or a flange would stiffen it."""
    flats = tuple(part.part.flats.values())
    if len(flats) != 1 or flats[0].thickness >= WEAK:
        return False
    return abs(float(part.pose.vectors(flats[0].frame.rotation[:, 2]) @ up)) < PARALLEL
