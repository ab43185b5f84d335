"""How far new parts are drawn back along their ways in, so that one sees where they go."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from seqviz.assembly.structure import Assembly
from seqviz.geometry.pose import Array, frozen
from seqviz.scene.picture import Arrow
from seqviz.sequence.replay_types import StepState

__all__ = ["arrow_of", "box_of", "shifts_of"]

# Project choice: of the work's diagonal; at least as far as a finger is thick.
_SHARE, _LEAST = 0.12, 12.0
_SAME_WAY = 0.5
_MOST_ANCHORS = 40


def shifts_of(assembly: Assembly, state: StepState, before: tuple[str, ...]) -> dict[str, Array]:
    """Return for each new part the ``(3,)`` mm by which it is drawn back: zeros where nothing is known.

    The first part on an empty bench is not drawn back. A part on another new one is drawn back farther.
    """
    shifts: dict[str, Array] = {}
    fold: dict[str, int] = {}
    there = list(before)
    gap = _gap(assembly, (*before, *state.placed))
    for name in (part for part in state.placed if part in assembly.placed):
        way = state.ways.get(name)
        fold[name] = 0
        shifts[name] = frozen(np.zeros(3))
        if way is not None and there:
            under = [
                fold[other]
                for other in fold
                if other != name
                and fold[other]
                and shifts[other] @ way > _SAME_WAY * gap
                and _meet(assembly, name, other)
            ]
            fold[name] = 1 + max(under, default=0)
            shifts[name] = frozen(way * gap * fold[name])
        there.append(name)
    return shifts


def arrow_of(assembly: Assembly, name: str, shift: Array) -> Arrow:
    """Return the arrow of a new part that is drawn back by ``shift``, guides from its outermost holes."""
    placed = assembly.placed[name]
    shared = [hole.centre for hole in placed.part.holes if f"{name}.{hole.name}" in assembly.stack_of]
    low, high = box_of(assembly, [name])
    holes = placed.pose.points(np.array(shared)) if shared else ((low + high) / 2)[np.newaxis]
    spread = holes - holes.mean(axis=0)
    along = spread @ np.linalg.svd(spread)[2][0]
    outwards = np.argsort(np.linalg.norm(spread, axis=1), kind="stable")
    ends = sorted({int(np.argmin(along)), int(np.argmax(along))}) if shared else []
    return Arrow(
        part=name,
        anchors=frozen(holes[outwards][:_MOST_ANCHORS] + shift),
        way=frozen(-shift),
        guides=frozen(holes[ends].reshape(-1, 3) + shift),
    )


def box_of(assembly: Assembly, names: Iterable[str]) -> tuple[Array, Array]:
    """Return the lowest and highest corner, ``(3,)`` mm each, of the box around placed parts."""
    solids = [assembly.placed[name].solids for name in names if name in assembly.placed]
    return np.min([s.low.min(axis=0) for s in solids], axis=0), np.max(
        [s.high.max(axis=0) for s in solids], axis=0
    )


def _gap(assembly: Assembly, names: Iterable[str]) -> float:
    low, high = box_of(assembly, names)
    return max(_LEAST, _SHARE * float(np.linalg.norm(high - low)))


def _meet(assembly: Assembly, one: str, other: str) -> bool:
    share = set(assembly.stacks_of_part[one]) & set(assembly.stacks_of_part[other])
    return bool(share) or any({c.upper, c.lower} == {one, other} for c in assembly.contacts)
