"""How far new parts are drawn back along their ways in, so that one sees where they go."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from seqviz.assembly.structure import Assembly
from seqviz.geometry.pose import Array, frozen
from seqviz.scene.picture import Arrow
from seqviz.sequence.replay_types import StepState

__all__ = ["arrow_of", "box_of", "shifts_of"]

# Project choice: of the work's length; a small part stays near its place; at least a finger's thickness.
_SHARE, _OWN, _LEAST = 0.15, 0.8, 12.0
_MOST_ANCHORS = 40


def shifts_of(
    assembly: Assembly, state: StepState, before: tuple[str, ...], pieces: Mapping[str, str]
) -> dict[str, Array]:
    """Return for each new part the ``(3,)`` mm by which it is drawn back: zeros where nothing is known.

    The first part on an empty bench is not drawn back. A part on another new one is drawn back farther. Parts
    of one sub-assembly, by ``pieces``, are drawn back together.
    """
    as_one: dict[str, Array] = {}
    shifts: dict[str, Array] = {}
    there = list(before)
    for name in (part for part in state.placed if part in assembly.placed):
        way, piece = state.ways.get(name), pieces.get(name, name)
        if piece in as_one:
            shifts[name] = as_one[piece]
            continue
        shifts[name] = frozen(np.zeros(3))
        if way is not None and there:
            under = [float(shift @ way) for other, shift in shifts.items() if _meet(assembly, name, other)]
            gap = _gap(assembly, (*before, *state.placed), name)
            shifts[name] = frozen(way * (gap + max([0.0, *under])))
        there.append(name)
        as_one[piece] = shifts[name]
    return shifts


def shifts_off(assembly: Assembly, state: StepState, before: tuple[str, ...]) -> dict[str, Array]:
    """Return for each part taken off the ``(3,)`` mm by which it is drawn on its way out."""
    shifts: dict[str, Array] = {}
    for name in state.taken_off:
        way = state.ways.get(name)
        names = (*before, *state.taken_off)
        shifts[name] = frozen(np.zeros(3) if way is None else way * _gap(assembly, names, name))
    together = max(shifts.values(), key=lambda shift: float(shift @ shift), default=None)
    ways = [state.ways.get(name) for name in shifts]
    one_way = len({tuple(way) for way in ways if way is not None}) == 1
    # Of several the farthest counts, so that a sub-assembly stays in one piece.
    return dict.fromkeys(shifts, together) if together is not None and one_way else shifts


def arrow_of(assembly: Assembly, name: str, shift: Array, *, leaves: bool = False) -> Arrow:
    """Return the arrow of a new part that is drawn back by ``shift``, guides from its outermost holes.

    Of a part that ``leaves`` it begins where that is drawn, and the guides where it was.
    """
    placed = assembly.placed[name]
    # The holes of a template are in no stack, and yet they go over others.
    holed = [h for h in placed.part.holes if placed.part.tool or f"{name}.{h.name}" in assembly.stack_of]
    shared = [hole.centre for hole in holed]
    low, high = box_of(assembly, [name])
    holes = placed.pose.points(np.array(shared)) if shared else ((low + high) / 2)[np.newaxis]
    middle = holes.mean(axis=0)
    spread = holes - middle
    along = spread @ np.linalg.svd(spread)[2][0]
    ends = sorted({int(np.argmin(along)), int(np.argmax(along))}) if shared else []
    # Between the holes as well: there an arrow is clear of their marks.
    row = holes[np.argsort(along, kind="stable")]
    anchors = np.concatenate([holes, (row[1:] + row[:-1]) / 2])
    outwards = np.argsort(np.linalg.norm(anchors - middle, axis=1).round(6), kind="stable")
    way = shift if leaves else -shift
    return Arrow(
        part=name,
        anchors=frozen(anchors[outwards][:_MOST_ANCHORS] + shift),
        way=frozen(way),
        guides=frozen(holes[ends].reshape(-1, 3) + (np.zeros(3) if leaves else shift)),
    )


def box_of(assembly: Assembly, names: Iterable[str]) -> tuple[Array, Array]:
    """Return the lowest and highest corner, ``(3,)`` mm each, of the box around placed parts."""
    boxes = np.array([assembly.placed[name].box for name in names if name in assembly.placed])
    return boxes[:, 0].min(axis=0), boxes[:, 1].max(axis=0)


def _gap(assembly: Assembly, names: Sequence[str], name: str) -> float:
    """Return how far ``name`` is drawn back from the work of all ``names``, mm."""
    work, own = (float(np.ptp(box_of(assembly, some), axis=0).max()) for some in (names, [name]))
    return max(_LEAST, min(_SHARE * work, _OWN * own))


def _meet(assembly: Assembly, one: str, other: str) -> bool:
    share = set(assembly.stacks_of_part[one]) & set(assembly.stacks_of_part[other])
    return bool(share) or any({c.upper, c.lower} == {one, other} for c in assembly.contacts)
