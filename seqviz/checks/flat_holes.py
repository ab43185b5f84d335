"""Holes with a fastener, on the flats of their parts: what the rules for edges and pitch ask about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from seqviz.assembly.fastening import PLAY, fastener_named, sunk_in
from seqviz.assembly.structure import Stack
from seqviz.build import Build
from seqviz.checks.fastened import used_fasteners
from seqviz.checks.places import sound_stacks
from seqviz.checks.sheets import Sheet, flat_through, sheet_of
from seqviz.findings import At
from seqviz.geometry.pose import Array
from seqviz.parts.part import Hole, Part
from seqviz.scene.fasteners import fastener_of
from seqviz.trade.fasteners import Fastener

__all__ = ["GUARD", "Filling", "FlatHoles", "fillings", "flat_holes"]

GUARD = 1e-6
"""mm: exactly on the limit passes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """What goes into a stack: its kind and shank, whether it was named, and whether its head lies flush."""

    fastener: Fastener
    named: bool
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
    names, at
        Of each hole its name ``PLACED.ROW.N``, and where its row stands. Of one that a step drills through
        this part: the name that it has in another layer, and where the part's entry stands.
    stacks, spots
        Of each hole the index ``(n,)`` of its stack, and where it is ``(n, 2)`` on the sheet, mm. In the
        order of the part, and each stack once.
    """

    placed: str
    sheet: Sheet
    names: tuple[str, ...]
    at: tuple[At, ...]
    stacks: NDArray[np.int64]
    spots: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _OnFlat:
    """All holes of one flat of a part, with their names ``ROW.N`` and spots."""

    sheet: Sheet
    names: tuple[str, ...]
    at: tuple[At, ...]
    spots: Array


@lru_cache(maxsize=1)  # two checks ask for it, one after the other
def flat_holes(build: Build) -> tuple[FlatHoles, ...]:
    """Return the holes in which a fastener holds layers together, flat by flat.

    Holes that are off say so themselves and are left out, and so are those that join nothing yet.
    """
    assembly = build.assembly
    asked = [assembly.stacks[k] for k, made in fillings(build).items()]
    asked = [stack for stack in asked if stack.located and not _off(build, stack)]
    stack_of = {name: stack.index for stack in asked for name in stack.holes}
    drilled = _drilled(build, asked)
    known: dict[int, dict[str, _OnFlat]] = {}
    found: list[FlatHoles] = []
    for name, placed in assembly.placed.items():
        if not placed.located or placed.part.tool:
            continue
        if id(placed.part) not in known:
            known[id(placed.part)] = dict(_by_flat(placed.part))
        own, more = known[id(placed.part)], drilled.get(name, {})
        for flat in dict.fromkeys((*own, *more)):
            held = [_held(name, own[flat], stack_of)] if flat in own else []
            held += [_through(build, name, flat, more[flat])] if flat in more else []
            whole = _joined(held)
            found += [whole] if len(whole.names) else []
    return tuple(found)


@lru_cache(maxsize=1)
def fillings(build: Build) -> Mapping[int, Filling]:
    """Return for each stack that is to be joined what goes in: as a step says, else as its size does.

    Stacks with a layer that nobody drills say so themselves and are left out.
    """
    used = used_fasteners(build)
    drilled = build.replay.drilled if build.replay else {}
    known: dict[tuple[str | None, float, bool], Filling] = {}
    found = {}
    for stack in sound_stacks(build.assembly):
        solid = {layer.part for layer in stack.layers if layer.hole is None}
        if stack.joins and solid <= drilled.get(stack.index, frozenset()):
            name = used.get(stack.index) or stack.fastener
            key = (name, stack.diameter, stack.countersunk)
            if key not in known:
                sunk = sunk_in(build.model, name, stack.diameter, countersunk=stack.countersunk)
                known[key] = Filling(
                    fastener=fastener_of(build.model, stack, name),
                    named=name is not None and fastener_named(build.model, name) is not None,
                    flush=sunk is not None,
                )
            found[stack.index] = known[key]
    return MappingProxyType(found)


def _off(build: Build, stack: Stack) -> bool:
    """Say whether the holes are shifted so far that `holes-off` speaks of them."""
    needed = min(fillings(build)[stack.index].shank, stack.diameter - PLAY) - GUARD
    return stack.pin < needed and stack.pin + build.assembly.measured_to(stack.parts) < needed


def _by_flat(part: Part) -> Iterator[tuple[str, _OnFlat]]:
    """Yield the part's holes flat by flat; joints within another model are asked about there."""
    flats: dict[str, list[Hole]] = {}
    for hole in part.holes:
        inside = hole.column
        for flat in (hole.flat,) if inside is None else inside.flats if len(inside.layers) == 1 else ():
            flats.setdefault(flat, []).append(hole)
    for flat, holes in flats.items():
        sheet = sheet_of(part, flat)
        yield (
            flat,
            _OnFlat(
                sheet=sheet,
                names=tuple(hole.name for hole in holes),
                at=tuple(hole.at for hole in holes),
                spots=sheet.spots(np.array([hole.centre for hole in holes])),
            ),
        )


def _held(placed: str, one: _OnFlat, stack_of: Mapping[str, int]) -> FlatHoles:
    """Return those holes of a flat in which a fastener holds something."""
    names = [f"{placed}.{name}" for name in one.names]
    stacks = np.array([stack_of.get(name, -1) for name in names], dtype=np.int64)
    kept = np.flatnonzero(stacks >= 0)
    return FlatHoles(
        placed=placed,
        sheet=one.sheet,
        names=tuple(names[k] for k in kept),
        at=tuple(one.at[k] for k in kept),
        stacks=stacks[kept],
        spots=one.spots[kept],
    )


def _drilled(build: Build, stacks: Iterable[Stack]) -> dict[str, dict[str, list[tuple[int, Array]]]]:
    """Return placed part -> flat -> (stack, point in the part's frame) of holes that a step drills in it."""
    made = build.replay.drilled if build.replay else {}
    found: dict[str, dict[str, list[tuple[int, Array]]]] = {}
    for stack in stacks:
        for layer in stack.layers:
            if layer.hole is None and layer.part in made.get(stack.index, ()):
                placed = build.assembly.placed[layer.part]
                there = placed.pose.inverse()
                point = there.points(stack.point + stack.axis * (layer.top + layer.bottom) / 2)
                flat = flat_through(placed.part, point, there.vectors(stack.axis))
                if flat is not None:
                    found.setdefault(layer.part, {}).setdefault(flat, []).append((stack.index, point))
    return found


def _through(build: Build, name: str, flat: str, drilled: list[tuple[int, Array]]) -> FlatHoles:
    assembly = build.assembly
    sheet = sheet_of(assembly.placed[name].part, flat)
    return FlatHoles(
        placed=name,
        sheet=sheet,
        names=tuple(assembly.stacks[k].holes[0] for k, _ in drilled),
        at=(assembly.placed[name].at,) * len(drilled),
        stacks=np.array([k for k, _ in drilled], dtype=np.int64),
        spots=sheet.spots(np.array([point for _, point in drilled])),
    )


def _joined(held: list[FlatHoles]) -> FlatHoles:
    """Return the holes of one flat together, each stack once."""
    stacks = np.concatenate([one.stacks for one in held])
    names = tuple(name for one in held for name in one.names)
    at = tuple(place for one in held for place in one.at)
    kept = np.sort(np.unique(stacks, return_index=True)[1])
    return FlatHoles(
        placed=held[0].placed,
        sheet=held[0].sheet,
        names=tuple(names[k] for k in kept),
        at=tuple(at[k] for k in kept),
        stacks=stacks[kept],
        spots=np.concatenate([one.spots for one in held])[kept],
    )
