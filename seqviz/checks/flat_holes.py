"""Holes with a fastener, on the flats of their parts: what the rules for edges and pitch ask about."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.fastening import PLAY, sunk_in
from seqviz.assembly.structure import Assembly, Stack
from seqviz.build import Build
from seqviz.checks.fastened import used_fasteners
from seqviz.checks.places import sound_stacks
from seqviz.checks.sheets import Sheet, sheet_of
from seqviz.geometry.pose import Array
from seqviz.parts.part import Hole, Part
from seqviz.scene.fasteners import fastener_of
from seqviz.trade.fasteners import Fastener

__all__ = ["GUARD", "Filling", "FlatHoles", "fillings", "flat_holes"]

GUARD = 1e-6
"""mm: exactly on the limit passes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """What goes into a stack: its kind and shank, and whether its head lies flush."""

    fastener: Fastener
    flush: bool

    @property
    def shank(self) -> float:
        """Diameter, mm: the fastener's; the hole's where nobody named one."""
        return self.fastener.diameter


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FlatHoles:
    """Filled holes of one flat of a placed part.

    Attributes
    ----------
    placed, sheet
        The placed part, and its sheet there.
    holes, stacks, spots
        For each hole itself, the index ``(n,)`` of its stack, where it is ``(n, 2)`` on the sheet, mm. In the
        order of the part, and each stack once.
    """

    placed: str
    sheet: Sheet
    holes: tuple[Hole, ...]
    stacks: NDArray[np.int64]
    spots: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _OnFlat:
    """All holes of one flat of a part, with their names and spots."""

    sheet: Sheet
    holes: tuple[Hole, ...]
    names: tuple[str, ...]
    spots: Array


@lru_cache(maxsize=1)  # two checks ask for it, one after the other
def flat_holes(build: Build) -> tuple[FlatHoles, ...]:
    """Return the holes in which a fastener holds layers together, flat by flat.

    Holes that are off say so themselves and are left out, and so are those that join nothing yet.
    """
    assembly, made = build.assembly, fillings(build)
    stack_of = {name: k for k, one in made.items() for name in _holes_of(assembly, k, one)}
    known: dict[int, list[_OnFlat]] = {}
    found: list[FlatHoles] = []
    for name, placed in assembly.placed.items():
        if not placed.located or placed.part.tool:
            continue
        if id(placed.part) not in known:
            known[id(placed.part)] = list(_by_flat(placed.part))
        found += [held for one in known[id(placed.part)] if (held := _held(name, one, stack_of))]
    return tuple(found)


@lru_cache(maxsize=1)
def fillings(build: Build) -> Mapping[int, Filling]:
    """Return for each stack that is to be joined what goes in: as a step says, else as its size does."""
    used = used_fasteners(build)
    known: dict[tuple[str | None, float, bool], Filling] = {}
    found = {}
    for stack in sound_stacks(build.assembly):
        if stack.joins:
            name = used.get(stack.index) or stack.fastener
            key = (name, stack.diameter, stack.countersunk)
            if key not in known:
                sunk = sunk_in(build.model, name, stack.diameter, countersunk=stack.countersunk)
                known[key] = Filling(fastener=fastener_of(build.model, stack, name), flush=sunk is not None)
            found[stack.index] = known[key]
    return MappingProxyType(found)


def _holes_of(assembly: Assembly, index: int, made: Filling) -> tuple[str, ...]:
    """Return the names of a stack's holes; none where it has no place or its holes are off."""
    stack = assembly.stacks[index]
    return () if not stack.located or _off(assembly, stack, made.shank) else stack.holes


def _off(assembly: Assembly, stack: Stack, shank: float) -> bool:
    """Say whether the holes are shifted so far that `holes-off` speaks of them."""
    needed = min(shank, stack.diameter - PLAY)
    return stack.pin + GUARD < needed and stack.pin + assembly.measured_to(stack.parts) + GUARD < needed


def _by_flat(part: Part) -> Iterator[_OnFlat]:
    """Yield the part's holes flat by flat; joints within another model are asked about there."""
    flats: dict[str, list[Hole]] = {}
    for hole in part.holes:
        inside = hole.column
        for flat in (hole.flat,) if inside is None else inside.flats if len(inside.layers) == 1 else ():
            flats.setdefault(flat, []).append(hole)
    for flat, holes in flats.items():
        sheet = sheet_of(part, flat)
        yield _OnFlat(
            sheet=sheet,
            holes=tuple(holes),
            names=tuple(hole.name for hole in holes),
            spots=sheet.spots(holes),
        )


def _held(placed: str, one: _OnFlat, stack_of: dict[str, int]) -> FlatHoles | None:
    indices = np.array([stack_of.get(f"{placed}.{name}", -1) for name in one.names], dtype=np.int64)
    _, first = np.unique(indices, return_index=True)
    kept = np.sort(first)
    kept = kept[indices[kept] >= 0]
    if not len(kept):
        return None
    return FlatHoles(
        placed=placed,
        sheet=one.sheet,
        holes=tuple(one.holes[k] for k in kept),
        stacks=indices[kept],
        spots=one.spots[kept],
    )
