"""Pairs of neighbouring rivets on the flats of parts that are nearer or farther than the rules of pitch."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from seqviz.build import Build
from seqviz.checks.cited import asked
from seqviz.checks.flat_holes import GUARD, Filling, FlatHoles, fillings, flat_holes
from seqviz.checks.makers import Makers
from seqviz.checks.sheets import area_of
from seqviz.findings import At
from seqviz.geometry.pose import Array
from seqviz.trade.fasteners import BOLT

__all__ = ["Neighbours", "Pair", "neighbours_of"]

_ROOM = 1e6
"""mm: how far one flat is laid from the next, so that one search goes through all."""

_ROW = 3
"""Holes from which on they are a row that has a pitch."""

Numbers = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two holes of a flat of ``placed``, ``apart`` mm; the thicker ``shank``, mm; is a head ``flush``."""

    placed: str
    names: tuple[str, str]
    at: tuple[At, At]
    stacks: tuple[int, int]
    apart: float
    shank: float
    flush: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbours:
    """Pairs that are ``close`` together, and ``wide`` apart; each pair of stacks once."""

    close: tuple[Pair, ...]
    wide: tuple[Pair, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Laid:
    """All holes of all flats side by side: of each its flat, place in it, spot, row, shank, ..."""

    flats: Sequence[FlatHoles]
    flat: Numbers
    place: Numbers
    stack: Numbers
    row: Numbers
    spots: Array
    shank: Array
    flush: NDArray[np.bool_]
    bolt: NDArray[np.bool_]

    def pair(self, one: int, other: int) -> Pair:
        """Return the holes of two numbers as a pair."""
        held = self.flats[int(self.flat[one])]
        return Pair(
            placed=held.placed,
            names=(held.names[int(self.place[one])], held.names[int(self.place[other])]),
            at=(held.at[int(self.place[one])], held.at[int(self.place[other])]),
            stacks=(int(self.stack[one]), int(self.stack[other])),
            apart=float(np.linalg.norm(self.spots[one] - self.spots[other])),
            shank=float(max(self.shank[one], self.shank[other])),
            flush=bool(self.flush[one] or self.flush[other]),
        )


def neighbours_of(build: Build) -> Neighbours:
    """Return all pairs of filled holes that are too near to each other or too far apart."""
    found = flat_holes(build)
    if not found:
        return Neighbours(close=(), wide=())
    laid = _laid(found, fillings(build))
    tree = shapely.STRtree(shapely.points(laid.spots))
    rank = _ranks(build, found)
    close = _each_once(laid, rank, _close(laid, tree))
    wide = _each_once(laid, rank, _wide(laid, tree))
    return Neighbours(close=tuple(close), wide=tuple(wide))


def _laid(found: Sequence[FlatHoles], filled: Mapping[int, Filling]) -> _Laid:
    counts = [len(held.names) for held in found]
    flat = np.repeat(np.arange(len(found)), counts)
    stack = np.concatenate([held.stacks for held in found])
    spots = np.concatenate([held.spots for held in found])
    made = [filled[k] for k in stack.tolist()]
    rows: dict[tuple[int, str], int] = {}
    names = (name.rpartition(".")[0] for held in found for name in held.names)
    row = [rows.setdefault(key, len(rows)) for key in zip(flat.tolist(), names, strict=True)]
    return _Laid(
        flats=found,
        flat=flat,
        place=np.concatenate([np.arange(count) for count in counts]),
        stack=stack,
        row=np.array(row),
        spots=spots + np.outer(flat, [_ROOM, 0.0]),
        shank=np.array([one.shank for one in made]),
        flush=np.array([one.flush for one in made]),
        bolt=np.array([one.fastener.kind == BOLT for one in made]),
    )


def _close(laid: _Laid, tree: shapely.STRtree) -> Numbers:
    """Return ``(k, 2)`` holes that are nearer than the thicker of their fasteners asks for."""
    times = np.where(laid.flush, asked("pitch", "least", flush=True).times, asked("pitch", "least").times)
    wants = times * laid.shank
    points = shapely.points(laid.spots)
    pairs = tree.query(points, predicate="dwithin", distance=float(wants.max())).T
    pairs = pairs[pairs[:, 0] < pairs[:, 1]]
    one, other = pairs.T
    apart = np.linalg.norm(laid.spots[one] - laid.spots[other], axis=1)
    # The thicker shank with the stricter of both rules.
    limit = np.maximum(times[one], times[other]) * np.maximum(laid.shank[one], laid.shank[other])
    return np.asarray(pairs[apart < limit - GUARD])


def _wide(laid: _Laid, tree: shapely.STRtree) -> Numbers:
    """Return ``(k, 2)`` neighbours of a row that are farther apart than the least of the sources allows."""
    one = np.flatnonzero(laid.row[:-1] == laid.row[1:])
    one = one[np.bincount(laid.row)[laid.row[one]] >= _ROW]
    other = one + 1
    apart = np.linalg.norm(laid.spots[one] - laid.spots[other], axis=1)
    most = asked("pitch", "most").times * np.maximum(laid.shank[one], laid.shank[other])
    far = (apart > most + GUARD) & ~laid.bolt[one] & ~laid.bolt[other]
    one, other, apart = one[far], other[far], apart[far]
    middles = shapely.points((laid.spots[one] + laid.spots[other]) / 2)
    reach = np.maximum(apart / 2 - GUARD, 0.0)
    # A rivet in the circle over both lies between them: they are no neighbours.
    between = tree.query(middles, predicate="dwithin", distance=reach)[0]
    alone = np.ones(len(one), dtype=bool)
    alone[between] = False
    pairs = np.column_stack([one[alone], other[alone]])
    return pairs[_over_metal(laid, pairs)]


def _over_metal(laid: _Laid, pairs: Numbers) -> NDArray[np.bool_]:
    """Say of which pairs the middle lies on the sheet: those across an opening are no neighbours."""
    middles = (laid.spots[pairs[:, 0]] + laid.spots[pairs[:, 1]]) / 2
    of_flat = laid.flat[pairs[:, 0]]
    on_it = np.zeros(len(pairs), dtype=bool)
    for flat in sorted(set(of_flat.tolist())):
        here = of_flat == flat
        area = area_of(laid.flats[flat].sheet)
        on_it[here] = shapely.covers(area, shapely.points(middles[here] - [flat * _ROOM, 0.0]))
    return on_it


def _ranks(build: Build, found: Sequence[FlatHoles]) -> list[tuple[int, int, str]]:
    """Return for each flat what decides which layer speaks: one's own, then the farthest from the base."""
    makers = Makers(build.model)
    placed = build.assembly.placed
    own = [makers.kit(_whose(held)) for held in found]
    return [(int(kit), -placed[held.placed].depth, held.placed) for held, kit in zip(found, own, strict=True)]


def _whose(held: FlatHoles) -> str:
    """Return a hole by which its maker is known; the part where its holes are drilled from another."""
    name = held.names[0]
    return name if name.startswith(f"{held.placed}.") else held.placed


def _each_once(laid: _Laid, rank: Sequence[tuple[int, int, str]], pairs: Numbers) -> Iterator[Pair]:
    """Yield each pair of stacks once, in the layer that comes first."""
    best: dict[tuple[int, int], tuple[tuple[int, int, str], int]] = {}
    stacks = np.sort(laid.stack[pairs], axis=1).tolist() if len(pairs) else []
    for k, (low, high) in enumerate(stacks):
        ranked = (rank[int(laid.flat[pairs[k, 0]])], k)
        best[low, high] = min(best.get((low, high), ranked), ranked)
    for k in sorted(k for _, k in best.values()):
        yield laid.pair(int(pairs[k, 0]), int(pairs[k, 1]))
