"""What the geometry knows, for a simulation that keeps no bits: is a hole reached, is a way free, right now?

The tables are those of the program (tests/sequence and tests/invariants look after them); who is where, when,
and what follows from it is all our own. Answers are kept, for many mutations ask the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import combinations

import numpy as np

from seqviz.assembly.fastening import fastener_named
from seqviz.assembly.structure import Assembly
from seqviz.build import Build
from seqviz.geometry.access import Cylinder, cylinder_meets
from seqviz.geometry.pose import Array
from seqviz.sequence.structure_tables import StructureTables
from seqviz.sequence.tables import Fixing, Way
from seqviz.trade.fasteners import BOLT

__all__ = ["Asked", "Facts", "Lying", "facts_of", "names_of"]

Vector = tuple[float, float, float]
LEAST = -float(np.sin(np.radians(15.0)))


@dataclass(frozen=True)
class Lying:
    """How a work lies: what is up, whether its bench closes what faces it, and what stands over the edge."""

    up: Vector
    flat: bool
    over: frozenset[str] = frozenset()

    def closes(self, out: Iterable[float], parts: frozenset[str]) -> bool:
        down = sum(a * b for a, b in zip(out, self.up, strict=True)) < LEAST - 1e-9
        return self.flat and down and not self.over & parts


@dataclass(frozen=True)
class Asked:
    """What the maker asks for between two parts that touch: ``prime``, ``seal`` or ``deburr``."""

    what: str
    pair: frozenset[str]


FREE = Lying((0.0, 0.0, 1.0), flat=False)


@dataclass
class Facts:
    assembly: Assembly
    tables: StructureTables
    bolts: frozenset[str]
    asked: frozenset[Asked] = frozenset()
    reach: dict[object, int | None] = field(default_factory=dict)
    way: dict[object, str | None] = field(default_factory=dict)

    def reached(self, stack: int, there: frozenset[str], lying: Lying, head: int | None) -> int | None:
        """Return the end at which the head can be now: 1 or -1, 1 too where nobody asks; None: nowhere."""
        key = (stack, there, lying, head)
        if key not in self.reach:
            self.reach[key] = self._reached(stack, there, lying, head)
        return self.reach[key]

    def _reached(self, stack: int, there: frozenset[str], lying: Lying, head: int | None) -> int | None:
        own = frozenset(self.assembly.stacks[stack].parts)
        sides = self.tables.sides(stack, self.assembly.stacks[stack].fastener)
        for side in sides:
            if head in (None, side.head) and all(
                any(
                    not (one.blockers & there) and not any(lying.closes(d, own) for d in one.directions)
                    for one in end
                )
                for end in side.ends
            ):
                return side.head
        return None if sides else 1

    def is_checked(self, stack: int) -> bool:
        return bool(self.tables.sides(stack, self.assembly.stacks[stack].fastener))

    def way_of(
        self, piece: tuple[str, ...], there: frozenset[str], fixings: frozenset[Fixing], lying: Lying
    ) -> str | None:
        """Return None where the piece comes in or out, else what closes its ways: bench, pins or parts."""
        key = (piece, there, fixings, lying)
        if key not in self.way:
            self.way[key] = self._way_of(piece, there, fixings, lying)
        return self.way[key]

    def _way_of(
        self, piece: tuple[str, ...], there: frozenset[str], fixings: frozenset[Fixing], lying: Lying
    ) -> str | None:
        whole, closed = frozenset(piece), set()
        straight = [
            Way(out) for out in dict.fromkeys(out for part in piece for out in self.tables.ways(part))
        ]
        for way in straight:
            bench = any(lying.closes(d, whole) for d in way.directions)
            met = any(self.tables.met_parts(part, way, there) for part in piece)
            stuck = frozenset().union(*(self.tables.met_fixings(part, way, fixings) for part in piece))
            if not (bench or met or stuck):
                return None
            closed.add(
                "parts" if met or any(f.kind != "pin" for f in stuck) else "pins" if stuck else "bench"
            )
        for way in self.tables.two_moves(piece, there):
            if not any(lying.closes(d, whole) for d in way.directions) and not any(
                self.tables.met_parts(part, way, there) or self.tables.met_fixings(part, way, fixings)
                for part in piece
            ):
                return None
        return "bench" if "bench" in closed else "pins" if "pins" in closed else "parts"

    def clamped(self, part: str, there: frozenset[str], held: dict[int, frozenset[str]]) -> list[int]:
        """Return the set fasteners that shut the room between two parts into which ``part`` must go."""
        beside = {
            other
            for contact in self.assembly.contacts
            for own, other in ((contact.upper, contact.lower), (contact.lower, contact.upper))
            if own == part and other in there
        }
        found = []
        for pair in combinations(sorted(beside - {part}), 2):
            shared = [k for k in self.assembly.stacks_of_part[part] if set(pair) <= set(self.stack(k))]
            shut = [k for k, parts in held.items() if set(pair) <= parts and self._shuts(k, part, pair)]
            if shut and all(k in held for k in shared):
                found += shut
        return found

    def stack(self, index: int) -> tuple[str, ...]:
        return self.assembly.stacks[index].parts

    def _shuts(self, index: int, part: str, pair: tuple[str, str]) -> bool:
        stack = self.assembly.stacks[index]
        if part in stack.parts:
            return False
        first, second = (next(one for one in stack.layers if one.part == name) for name in pair)
        low, high = min(first.top, second.top), max(first.bottom, second.bottom)
        if high - low < 0.11:
            return False
        room = Cylinder(start=stack.point + stack.axis * low, axis=stack.axis, length=high - low, radius=25.0)
        return bool(cylinder_meets(room, self.assembly.placed[part].solids).any())

    def stands_on_edges(self, there: frozenset[str], up: Array) -> bool:
        """Say whether all that is lowest is thin sheet on its edge."""
        parts = [self.assembly.placed[name] for name in there]
        low = {part.name: float((part.solids.vertices @ up).min()) for part in parts}
        lowest = [part for part in parts if low[part.name] <= min(low.values()) + 1.0]
        return bool(parts) and all(
            len(part.part.flats) == 1
            and flat.thickness < 0.9999
            and abs(part.pose.vectors(flat.frame.rotation[:, 2]) @ up) < 0.9998
            for part in lowest
            for flat in part.part.flats.values()
        )


def facts_of(built: Build) -> Facts:
    assert built.sequence is not None
    tables = StructureTables(built.model, built.assembly, built.sequence)
    model = built.model
    named = {size.fastener.text for size in model.sizes.values() if size.fastener} | {*model.hardware}
    made = {name: fastener_named(model, name) for name in named}
    bolts = frozenset(name for name, one in made.items() if one and one.kind == BOLT)
    return Facts(built.assembly, tables, bolts, frozenset(_asked(built)))


def _asked(built: Build) -> Iterator[Asked]:
    """Yield the pairs between which something is asked for, where they sit on each other."""
    touching = {frozenset((one.upper, one.lower)) for one in built.assembly.contacts}
    for entry in built.model.preparation:
        parts = [part for name in entry.between for part in names_of(built.assembly, name.text)]
        for pair in map(frozenset, combinations(parts, 2)):
            if pair in touching:
                yield Asked(entry.what, pair)


def names_of(assembly: Assembly, name: str) -> list[str]:
    """Return the placed parts that a name means: one, or both twins."""
    twins = [f"{name} {hand}" for hand in ("left", "right", "forward", "aft")]
    return [one for one in (name, *twins) if one in assembly.placed][: 1 if name in assembly.placed else None]
