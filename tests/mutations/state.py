"""What is there while the steps are simulated, and the small questions asked of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from seqviz.sequence.tables import Fixing
from tests.mutations.bench import Asked, Facts, Lying, names_of
from tests.mutations.read import Entry, lines_of, listed

__all__ = ["Held", "Moment", "Open", "Outcome", "State"]


@dataclass
class Outcome:
    """``wrong``, ``doubts``: (step, why), step 0: the end. ``did``: entry's id -> its parts and stacks."""

    wrong: list[tuple[int, str]] = field(default_factory=list)
    doubts: list[tuple[int, str]] = field(default_factory=list)
    did: dict[int, tuple[set[str], set[int]]] = field(default_factory=dict)


@dataclass
class Held:
    end: int
    parts: frozenset[str]
    step: int


@dataclass
class Open:
    stack: int
    work: str | None
    waits_for: frozenset[str]


@dataclass
class Moment:
    there: dict[str | None, frozenset[str]]
    brings: str | None = None
    pinned: bool = False


class State:
    """The bench: plain sets and dictionaries; the actions are in `simulate`."""

    def __init__(self, facts: Facts, file: Entry) -> None:
        self.facts, self.assembly, self.told = facts, facts.assembly, Outcome()
        self.lines = lines_of(file)
        up = file.get("up", "upper")
        self.lying: dict[str | None, Lying] = {None: self.laid(self.side(up), file.get("bench", "flat"), ())}
        placed = {n for line in self.lines for n in self.all_names(line.entry.get("place"))}
        base = self.assembly.base
        self.where: dict[str, str | None] = {} if base in placed else {base: None}
        self.members: dict[str, list[str]] = {}
        self.came: set[tuple[str, str | None]] = {(base, None)} if self.where else set()
        self.pins: dict[int, Held] = {}
        self.set: dict[int, Held] = {}
        self.loose_nuts: set[int] = set()
        self.drilled: set[tuple[int, str]] = set()
        self.prepared: set[Asked] = set()
        self.open: list[Open] = []
        self.pins_of_step: list[int] = []
        self.pinned_pairs: set[frozenset[str]] = set()
        self.unchecked: dict[str | None, bool] = {}
        self.moments: list[Moment] = []
        self.covered: set[int] = set()
        self.now = self.lines[0]

    # Small questions.

    def all_names(self, value: Any) -> list[str]:
        return [part for name in listed(value) for part in names_of(self.assembly, name)]

    def there(self, work: str | None) -> frozenset[str]:
        return frozenset(part for part, its in self.where.items() if its == work)

    def wrong(self, why: str) -> None:
        self.told.wrong.append((self.now.number, why))

    def doubt(self, why: str) -> None:
        self.told.doubts.append((self.now.number, why))

    def name(self, stack: int) -> str:
        return self.assembly.stacks[stack].holes[0]

    def side(self, word: str) -> tuple[float, float, float]:
        """Return the direction of ``upper``, ``left side``, ``strap bracket.leg 2 outside``."""
        forward, up = np.array(self.assembly.forward), np.array(self.assembly.up)
        known = {
            "upper": up,
            "lower": -up,
            "left": np.cross(up, forward),
            "forward": forward,
            "aft": -forward,
        }
        known["right"] = -known["left"]
        if "." in word:
            part, _, rest = word.partition(".")
            flat, _, face = rest.rpartition(" ")
            placed = self.assembly.placed[part]
            vector = placed.pose.rotation @ placed.part.flats[flat].face_normal(face)
        else:
            vector = known[word.split(maxsplit=1)[0]]
        x, y, z = (round(float(value), 9) for value in vector)
        return x, y, z

    def laid(self, up: tuple[float, float, float], bench: str, over: Iterable[str]) -> Lying:
        return Lying(up, bench == "flat", frozenset(part for name in over for part in self.all_names(name)))

    def solid(self, stack: int, there: frozenset[str]) -> list[str]:
        """Return the layers that are there and have no hole yet."""
        found = []
        for layer in self.assembly.stacks[stack].layers:
            if layer.part in there and (stack, layer.part) not in self.drilled:
                hole = layer.hole and next(
                    h for h in self.assembly.placed[layer.part].holes if layer.hole.endswith(f".{h.name}")
                )
                if not hole or not hole.punched or hole.pilot is not None:
                    found.append(layer.part)
        return found

    def fixings(self, work: str | None) -> dict[Fixing, frozenset[str]]:
        there = self.there(work)
        return {
            Fixing(stack=k, kind="pin", end=one.end): one.parts
            for k, one in self.pins.items()
            if one.parts & there
        } | {
            Fixing(stack=k, kind="fastener", end=one.end, fastener=self.fastener(k)): one.parts
            for k, one in self.set.items()
            if one.parts & there
        }

    def fastener(self, stack: int) -> str | None:
        return self.assembly.stacks[stack].fastener

    # One step.
