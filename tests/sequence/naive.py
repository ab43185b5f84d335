"""A second replay, written for the tests alone: plain sets, one step after the other, nothing kept as bits.

It works on `Case`, plain data without geometry. The code under test gets the same case as records, a
structure and `CaseTables` (see `as_records.py`); nothing here is shared with it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

UP = (0.0, 0.0, 1.0)
DOWN = (0.0, 0.0, -1.0)
Vector = tuple[float, float, float]
End = list[tuple[frozenset[str], tuple[Vector, ...]]]


@dataclass
class CaseStack:
    """Layers from layer 1 on as (part, has a hole); ``turned``: layer 1 is the lowest; heads: what blocks."""

    layers: list[tuple[str, bool]]
    turned: bool
    fastener: bool
    heads: dict[int, list[End]]


@dataclass
class CaseWay:
    out: Vector
    parts: frozenset[str]
    pins: frozenset[tuple[int, int]]
    rivets: frozenset[int]


@dataclass
class Case:
    parts: list[str]
    stacks: list[CaseStack]
    ways: dict[str, list[CaseWay]]
    under: dict[str, frozenset[int]]
    muted: frozenset[str]
    later: frozenset[int]
    finished: bool
    flat: bool
    steps: list[tuple[Any, ...]]


@dataclass
class Told:
    """Every list holds plain tuples, in the order met."""

    too_early: list[tuple[Any, ...]] = field(default_factory=list)
    stopped: list[tuple[Any, ...]] = field(default_factory=list)
    no_way: list[tuple[Any, ...]] = field(default_factory=list)
    under: list[tuple[Any, ...]] = field(default_factory=list)
    filled_open: list[tuple[Any, ...]] = field(default_factory=list)
    open_since: list[tuple[Any, ...]] = field(default_factory=list)
    states: list[tuple[Any, ...]] = field(default_factory=list)


class Naive:
    def __init__(self, case: Case) -> None:
        self.case = case
        self.placed_at: dict[str, int] = {}
        for number, step in enumerate(case.steps, start=1):
            for part in step[1] if step[0] == "place" else ():
                self.placed_at.setdefault(part, number)
        self.placed_at.setdefault(case.parts[0], 0)
        self.there = [case.parts[0]] if self.placed_at[case.parts[0]] == 0 else []
        self.up = UP
        self.history: list[tuple[list[str], Vector]] = [(list(self.there), self.up)]
        self.pins: dict[int, int] = {}
        self.set: dict[int, int] = {}
        self.open: list[list[Any]] = []
        self.told = Told()

    def run(self) -> Told:
        for number, step in enumerate(self.case.steps, start=1):
            done = getattr(self, step[0])(number, *step[1:])
            self.history.append((list(self.there), self.up))
            self.told.states.append(done)
        self.told.open_since = [(since, stack, until) for stack, since, _, until in self.open]
        return self.told

    def place(self, number: int, names: list[str], every: int | str, side: Vector | None) -> Any:
        new, ways = [], []
        for part in names:
            if part in self.there or self.placed_at[part] != number:
                continue
            ways.append(None if part in self.case.muted else self.way(number, part))
            new.append(part)
            self.there.append(part)
        self.shut(number)
        pinned = []
        for part in new:
            through = [k for k, s in enumerate(self.case.stacks) if part in [p for p, _ in s.layers]]
            joint = [k for k in through if len(self.parts_there(k)) > 1]
            shared = [k for k in joint if (part, True) in self.case.stacks[k].layers]
            if every == "all":
                wanted = joint
            elif every == "none" or not shared:
                wanted = []
            else:
                wanted = [k for i, k in enumerate(shared) if i % int(every) == 0 or i == len(shared) - 1]
            for k in wanted:
                solid = any(not drilled and p in self.there for p, drilled in self.case.stacks[k].layers)
                if k not in self.pins and k not in self.set and not solid:
                    self.pins[k] = self.end(k, side or self.up)
                    pinned.append(k)
        return ("place", new, ways, pinned)

    def parts_there(self, stack: int) -> set[str]:
        return {part for part, _ in self.case.stacks[stack].layers if part in self.there}

    def end(self, stack: int, side: Vector) -> int:
        layer_1_looks = DOWN if self.case.stacks[stack].turned else UP
        return -1 if dot(layer_1_looks, side) < -0.5 else 1

    def way(self, number: int, part: str) -> Vector | None:
        case = self.case
        calm = [k for k, s in enumerate(case.stacks) if not {p for p, _ in s.layers} & case.muted]
        own = {k for k in calm if part in [p for p, _ in case.stacks[k].layers]}
        rivets = {k for k in self.set if k in calm and k not in own}
        under = sorted(rivets & case.under[part])
        if under:
            self.told.under.append((number, part, under))
        rivets -= set(under)
        through = {k for k in self.pins if k in own}
        pins = {(k, end) for k, end in self.pins.items() if k in calm and k not in own}
        solid = {p for p in self.there if p not in case.muted and p != part}
        found = []
        for way in case.ways[part]:
            meets = (way.parts & solid, way.rivets & rivets, {k for k, _ in way.pins & pins} | through)
            found.append((way.out, *meets, self.bench(way.out, self.up)))
        free = [out for out, a, b, c, bench in found if not (a or b or c or bench)]
        if free:
            return max(free, key=lambda out: (dot(out, UP), dot(out, self.up)))
        if under:
            return None
        if any(not (a or b or c) for _, a, b, c, _ in found):
            self.told.no_way.append((number, part, "bench", []))
        elif any(not (a or b) for _, a, b, _, _ in found):
            best = min((len(c), sorted(c)) for _, a, b, c, _ in found if not (a or b))
            self.told.no_way.append((number, part, "pins", [f"stack {k}" for k in best[1]]))
        else:
            least = min(len(a) + len(b) for _, a, b, _, _ in found)
            best_sets = [(a, b) for _, a, b, _, _ in found if len(a) + len(b) == least]
            self.told.no_way.append((number, part, "parts", best_sets))
        return None

    def bench(self, out: Vector, up: Vector) -> bool:
        return self.case.flat and math.degrees(math.asin(max(-1.0, min(1.0, -dot(out, up))))) > 15.0

    def rivet(self, number: int, named: list[int] | None, head: str | None) -> Any:
        fill = self.ready() if named is None else [k for k in dict.fromkeys(named) if k not in self.set]
        heads = {}
        for k in fill:
            heads[k] = self.fill(number, k, head)
        pulled = [k for k in fill if self.pins.pop(k, None) is not None]
        self.set.update(heads)
        return ("rivet", fill, heads, pulled)

    def ready(self) -> list[int]:
        return [
            k
            for k, stack in enumerate(self.case.stacks)
            if stack.fastener
            and k not in self.set
            and len(stack.layers) > 1
            and all(drilled and part in self.there for part, drilled in stack.layers)
            and k not in self.case.later
            and not self.kept_open(k)
        ]

    def kept_open(self, stack: int) -> list[int]:
        return [since for k, since, _, until in self.open if k == stack and until is None]

    def fill(self, number: int, k: int, head: str | None) -> int:
        stack = self.case.stacks[k]
        wanted = None if head is None else self.end(k, UP if head == "upper" else DOWN)
        if {p for p, _ in stack.layers} & self.case.muted:
            return wanted or 1
        if self.kept_open(k):
            self.told.filled_open.append((number, k, self.kept_open(k)[0]))
            return wanted or 1
        if any(p not in self.there for p, _ in stack.layers):
            late = list(dict.fromkeys(p for p, drilled in stack.layers if drilled and p not in self.there))
            late = [p for p in late if p in self.placed_at or not self.case.finished]
            if late:
                self.told.too_early.append((number, k, late, [self.placed_at.get(p) for p in late]))
            return wanted or 1
        if len(stack.layers) < 2 or not stack.heads:
            return wanted or 1
        for side in (1, -1):
            if wanted in (None, side) and self.reached(stack, side, set(self.there), self.up):
                return side
        self.told.stopped.append((number, k, *self.why(number, stack, wanted)))
        return wanted or 1

    def reached(self, stack: CaseStack, side: int, there: set[str], up: Vector) -> bool:
        return all(
            any(not (blockers & there) and not any(self.bench(d, up) for d in outs) for blockers, outs in end)
            for end in stack.heads[side]
        )

    def why(self, number: int, stack: CaseStack, wanted: int | None) -> tuple[str, Any, int | None]:
        sides = [side for side in (1, -1) if wanted in (None, side)]
        there = set(self.there)
        last = None
        for k in range(number):
            then, up = set(self.history[k][0]), self.history[k][1]
            whole = all(p in then for p, _ in stack.layers)
            if whole and any(self.reached(stack, side, then, up) for side in sides):
                last = k
        for side in sides:
            if all(any(not (blockers & there) for blockers, _ in end) for end in stack.heads[side]):
                return "bench", [], last
        sets = []
        for side in sides:
            unions: list[frozenset[str]] = [frozenset()]
            for end in stack.heads[side]:
                unions = [u | (blockers & there) for u in unions for blockers, _ in end]
            sets.extend(unions)
        return "parts", [s for s in sets if len(s) == min(len(one) for one in sets)], last

    def leave_open(self, number: int, stacks: list[int], waits_for: str | None) -> Any:
        self.open.extend([k, number, waits_for, None] for k in dict.fromkeys(stacks))
        self.shut(number)
        return ("open", list(dict.fromkeys(stacks)))

    def shut(self, number: int) -> None:
        for window in self.open:
            if window[3] is None and window[2] is not None and self.placed_at.get(window[2], 99) <= number:
                window[3] = number

    def open_no_longer(self, number: int, stacks: list[int]) -> Any:
        for window in self.open:
            if window[0] in stacks and window[3] is None:
                window[3] = number
        return ("nothing",)

    def pull(self, number: int, stacks: list[int]) -> Any:
        del number
        return ("pull", [k for k in dict.fromkeys(stacks) if self.pins.pop(k, None) is not None])

    def move(self, number: int, stacks: list[int], side: Vector) -> Any:
        del number
        for k in stacks:
            if k in self.pins:
                self.pins[k] = self.end(k, side)
        return ("nothing",)

    def turn(self, number: int) -> Any:
        del number
        self.up = DOWN if self.up == UP else UP
        return ("nothing",)


def dot(a: Vector, b: Vector) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))
