"""Rows that belong together hole by hole, and where they part company: which number looks wrong."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.fitting import Pair
from seqviz.assembly.structure import Assembly, Stack
from seqviz.geometry.pose import Array, unit
from seqviz.parts.part import Hole

__all__ = ["RowPair", "Stray", "Suspicion", "row_pairs", "strays", "suspicion", "suspicion_of_fit"]

SAME = 0.25
"""mm: holes that differ by less are drilled alike (project choice)."""

FEWEST = 2
"""Holes that two rows must share before the others are taken to belong together too."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RowPair:
    """Two rows that share holes. Hole by hole: ``numbers`` of the far row, and both holes' names.

    ``offsets`` is ``(n, 3)`` mm: the far hole seen from the near one, across the axis, base frame.
    """

    far: str
    near: str
    numbers: tuple[int, ...]
    holes: tuple[tuple[str, str], ...]
    offsets: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Stray:
    """Hole ``far`` belongs on ``near`` by its number, but lies ``off`` mm beside it, in another stack."""

    far: str
    near: str
    off: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspicion:
    """What looks wrong about two rows: a sentence, and a question to the builder."""

    says: str
    asks: str


def row_pairs(assembly: Assembly, stacks: Iterable[Stack]) -> list[RowPair]:
    """Return the pairs of rows that share at least two of ``stacks``, the part farther out first."""
    shared: dict[tuple[str, str], list[tuple[int, int, Stack]]] = {}
    for stack in stacks:
        holes = sorted(
            (layer.hole for layer in stack.layers if layer.hole),
            key=lambda name: (assembly.placed[name.split(".")[0]].depth, name),
        )
        for j, far in enumerate(holes):
            for near in holes[:j]:
                (row, _, n), (other, _, m) = far.rpartition("."), near.rpartition(".")
                shared.setdefault((row, other), []).append((int(n), int(m), stack))
    found = (_pair(assembly, rows, places) for rows, places in shared.items() if len(places) >= FEWEST)
    return [pair for pair in found if pair is not None]


def strays(assembly: Assembly, pairs: Iterable[RowPair]) -> Iterator[Stray]:
    """Yield the holes that belong together by their numbers and do not share a stack.

    One of the two parts must be solid where the other has its hole; and no other part's hole may be there,
    for then the row goes on over that one.
    """
    for pair in pairs:
        far_part, near_part = pair.far.split(".")[0], pair.near.split(".")[0]
        for (far, near), offset in zip(pair.holes, pair.offsets, strict=True):
            one, other = (assembly.stacks[assembly.stack_of[name]] for name in (far, near))
            if one.index == other.index or _drilled(one) != {far_part} or far_part in _drilled(other):
                continue
            if near_part in one.parts or far_part in other.parts:
                yield Stray(far=far, near=near, off=float(np.linalg.norm(offset)))


def _drilled(stack: Stack) -> set[str]:
    return {layer.part for layer in stack.layers if layer.hole}


def _pair(
    assembly: Assembly, rows: tuple[str, str], places: Sequence[tuple[int, int, Stack]]
) -> RowPair | None:
    far, near = (_row(assembly, row) for row in rows)
    partner = _partners([(n, m) for n, m, _ in places])
    if partner is None:
        return None
    sense, start = partner
    numbers = [n for n in sorted(far) if start + sense * n in near]
    axis = places[0][2].axis
    apart = np.array([_spot(assembly, rows[0], far[n]) for n in numbers])
    apart = apart - np.array([_spot(assembly, rows[1], near[start + sense * n]) for n in numbers])
    return RowPair(
        far=rows[0],
        near=rows[1],
        numbers=tuple(numbers),
        holes=tuple((f"{rows[0]}.{n}", f"{rows[1]}.{start + sense * n}") for n in numbers),
        offsets=apart - np.outer(apart @ axis, axis),
    )


def _row(assembly: Assembly, row: str) -> dict[int, Hole]:
    placed, _, name = row.partition(".")
    return {hole.number: hole for hole in assembly.placed[placed].rows.get(name, ())}


def _spot(assembly: Assembly, row: str, hole: Hole) -> Array:
    return assembly.placed[row.split(".", maxsplit=1)[0]].pose.points(hole.centre)


def _partners(shared: Sequence[tuple[int, int]]) -> tuple[int, int] | None:
    """Return (sense, start): hole n belongs on hole start + sense * n; None where it does not go evenly."""
    for sense in (1, -1):
        starts = {m - sense * n for n, m in shared}
        if len(shared) >= FEWEST and len(starts) == 1:
            return sense, starts.pop()
    return None


def suspicion(rows: tuple[str, str], numbers: Sequence[int], offsets: Array) -> Suspicion | None:
    """Return which number of two rows looks wrong; None where they are alike, or differ without a pattern.

    Parameters
    ----------
    rows
        What the two rows are called.
    numbers
        Hole numbers of the first row, ascending.
    offsets
        ``(n, 3)`` mm, how far each hole lies beside its partner.
    """
    size = np.linalg.norm(offsets, axis=1)
    if len(numbers) < 3 or size.max() <= SAME:
        return None
    both, worst = f"{rows[0]} and {rows[1]}", float(size.max())
    span = numbers[-1] - numbers[0]
    steady = (offsets[-1] - offsets[0]) / span
    line = offsets[0] + np.outer(np.array(numbers) - numbers[0], steady)
    if np.linalg.norm(line - offsets, axis=1).max() <= min(SAME, worst / 10):
        drift = float(np.linalg.norm(steady))
        says = f"{both} drift apart by {_mm(drift)} mm from hole to hole."
        return Suspicion(says=says, asks="Are pitch and count right?") if drift * span > SAME else None
    where = _where(numbers, size > SAME)
    return Suspicion(says=f"{both} differ by {_mm(worst)} mm {where[0]}.", asks=where[1]) if where else None


def _where(numbers: Sequence[int], off: NDArray[np.bool_]) -> tuple[str, str] | None:
    """Return where the holes are off, and the question that goes with it."""
    first, last = int(np.flatnonzero(off)[0]), int(np.flatnonzero(off)[-1])
    if first == last:
        return f"at hole {numbers[first]} only", "Is its place written rightly?"
    if not off[first : last + 1].all():
        return None
    if first >= FEWEST and last == len(off) - 1:
        return f"from hole {numbers[first]} on", "Is one of them kinked there?"
    if first == 0 and len(off) - 1 - last >= FEWEST:
        return f"up to hole {numbers[last]}", "Is one of them kinked there?"
    return None


def suspicion_of_fit(placed: str, pairs: Sequence[Pair], holes: Sequence[Hole]) -> Suspicion | None:
    """Return which number looks wrong where ``holes`` of ``placed`` fit on their targets in no way.

    Each row is looked at from its own first two holes, so that a wrong fit decides nothing.
    """
    near_part = pairs[0].target_part
    rows = {(p.own.row, p.target_part.name, p.target.row) for p in pairs}
    partner = _partners([(p.own.number, p.target.number) for p in pairs])
    if len(rows) != 1 or partner is None:
        return None
    sense, start = partner
    near = {h.number: h for h in near_part.rows[pairs[0].target.row]}
    own = [h for h in holes if h.row == pairs[0].own.row and start + sense * h.number in near]
    if len(own) < 3:
        return None
    mine = _from_first_two(np.array([h.centre for h in own]), -pairs[0].down)
    spots = near_part.pose.points(np.array([near[start + sense * h.number].centre for h in own]))
    theirs = _from_first_two(spots, pairs[0].outward)
    names = (f"{placed}.{pairs[0].own.row}", f"{near_part.name}.{pairs[0].target.row}")
    return suspicion(names, [h.number for h in own], mine - theirs)


def _from_first_two(points: Array, up: Array) -> Array:
    """Return ``(n, 3)`` points seen from the first, x towards the second, z along ``up``."""
    away = points - points[0]
    x = unit(away[1]) if np.linalg.norm(away[1]) > 0 else unit(away[-1])
    return np.asarray(away @ np.column_stack([x, np.cross(up, x), up]))


def _mm(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
