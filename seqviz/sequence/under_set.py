"""Parts that would have to go between two others which fasteners hold together there already."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from seqviz.assembly.structure import Assembly, Stack
from seqviz.findings import At
from seqviz.geometry.access import Cylinder, cylinder_meets
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.sequence.replay_types import UnderSet
from seqviz.sequence.whereabouts import Piece
from seqviz.sequence.work import Work

__all__ = ["NEAR", "note_under_set"]

NEAR = 25.0
"""mm: a set fastener this near to a part's outline clamps what lies round it (project choice)."""


def note_under_set(work: Work, piece: Piece, at: At) -> bool:
    """Note parts of ``piece`` that come too late to go between; say whether there is one."""
    found = False
    for part in piece.parts:
        if work.shop.assembly.muted.isdisjoint({part}) and work.shop.assembly.placed[part].located:
            for one, other in combinations(_touching(work, part), 2):
                found |= _note_between(work, part, (one, other), at)
    return found


def _touching(work: Work, part: str) -> list[str]:
    """Return the parts of this work that ``part`` touches in its final place."""
    return sorted((work.shop.touching.get(part, set()) & work.there) - work.shop.assembly.muted - {part})


def _note_between(work: Work, part: str, pair: tuple[str, str], at: At) -> bool:
    shop = work.shop
    stacks = tuple(k for k in _set_through(work, pair) if _clamps(shop.assembly, part, pair, k))
    if not stacks or any(k not in shop.filled for k in _common(shop.assembly, part, pair)):
        return False
    trouble = UnderSet(
        step=work.number,
        at=at,
        part=part,
        between=pair,
        stacks=stacks,
        set_at=tuple(shop.filled[k].step for k in stacks),
    )
    shop.troubles.note(trouble)
    return True


def _set_through(work: Work, pair: tuple[str, str]) -> Iterator[int]:
    """Yield the holes whose set fasteners hold the two together."""
    for index in work.shop.assembly.stacks_of_part[pair[0]]:
        held = work.shop.filled.get(index)
        if held is not None and set(pair) <= held.parts and index not in work.shop.finger_tight:
            yield index


def _common(assembly: Assembly, part: str, pair: tuple[str, str]) -> list[int]:
    """Return the holes that the part has in common with both."""
    return [k for k in assembly.stacks_of_part[part] if set(pair) <= set(assembly.stacks[k].parts)]


def _clamps(assembly: Assembly, part: str, pair: tuple[str, str], index: int) -> bool:
    """Say whether the part lies between the two, near the hole, and is no layer there."""
    stack = assembly.stacks[index]
    between = _between(stack, pair)
    if part in stack.parts or not stack.located or between is None:
        return False
    low, high = between
    start = stack.point + stack.axis * low
    room = Cylinder(start=start, axis=stack.axis, length=high - low, radius=NEAR)
    return bool(cylinder_meets(room, assembly.placed[part].solids).any())


def _between(stack: Stack, pair: tuple[str, str]) -> tuple[float, float] | None:
    """Return the levels between which something lies that goes between the two; None where nothing does."""
    upper, lower = sorted(
        (layer for layer in stack.layers if layer.part in pair), key=lambda layer: -layer.top
    )[:2]
    room = (lower.top, upper.bottom)
    return room if room[1] - room[0] > 2.0 * (TOLERANCE + GUARD) else None
