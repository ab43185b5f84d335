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
Moves = tuple[Vector | None, Vector]
"""A short first move, or None; then the move without end."""


@dataclass
class CaseStack:
    """Layers from layer 1 on as (part, has a hole); ``turned``: layer 1 is the lowest; heads: what blocks."""

    layers: list[tuple[str, bool]]
    turned: bool
    fastener: str | None
    heads: dict[int, list[End]]

    @property
    def parts(self) -> set[str]:
        return {part for part, _ in self.layers}


@dataclass
class CaseWay:
    parts: frozenset[str]
    pins: frozenset[tuple[int, int]]
    rivets: frozenset[int]


@dataclass
class Case:
    """``ways``: candidates in one move; ``bent``: in two; ``meets``: what a part meets on any of them.

    ``subs``: sub-assembly -> (the work around it, its bench is flat). A step is (work, word, ...).
    """

    parts: list[str]
    stacks: list[CaseStack]
    ways: dict[str, list[Vector]]
    bent: dict[str, list[Moves]]
    meets: dict[tuple[str, Moves], CaseWay]
    under: dict[str, frozenset[int]]
    muted: frozenset[str]
    later: frozenset[int]
    finished: bool
    flat: bool
    subs: dict[str, tuple[str | None, bool]]
    steps: list[tuple[Any, ...]]


@dataclass
class Told:
    """Every list holds plain tuples, in the order met."""

    too_early: list[Any] = field(default_factory=list)
    stopped: list[Any] = field(default_factory=list)
    no_way: list[Any] = field(default_factory=list)
    no_way_out: list[Any] = field(default_factory=list)
    off_when_set: list[Any] = field(default_factory=list)
    placed_twice: list[Any] = field(default_factory=list)
    set_twice: list[Any] = field(default_factory=list)
    not_drilled: list[Any] = field(default_factory=list)
    finger_tight: list[Any] = field(default_factory=list)
    pin_out_of_reach: list[Any] = field(default_factory=list)
    loose: list[Any] = field(default_factory=list)
    closing: list[Any] = field(default_factory=list)
    last_chance: list[Any] = field(default_factory=list)
    under: list[Any] = field(default_factory=list)
    filled_open: list[Any] = field(default_factory=list)
    open_since: list[Any] = field(default_factory=list)
    states: list[Any] = field(default_factory=list)


class Where:
    """Where each part is: which work, or not in the dictionary."""

    def __init__(self, case: Case) -> None:
        placed = {name for step in case.steps if step[1] == "place" for name in step[2]}
        self.case = case
        self.of: dict[str, str | None] = {} if case.parts[0] in placed else {case.parts[0]: None}
        self.members: dict[str, list[str]] = {}
        self.since: dict[str, int] = dict.fromkeys(self.of, 0)
        self.came: dict[str, int] = dict.fromkeys(case.parts, 0)

    def there(self, work: str | None) -> list[str]:
        return [part for part, name in self.of.items() if name == work]

    def coming(self, name: str, work: str | None) -> list[str]:
        if name in self.case.subs:
            return self.there(name) if work != name else []
        return [] if name in self.of else [name]

    def is_there(self, name: str) -> bool:
        return name in self.members if name in self.case.subs else name in self.of

    def going(self, name: str, work: str | None) -> list[str]:
        if name in self.case.subs:
            return [p for p in self.members.get(name, []) if self.of.get(p, "-") == work and work != name]
        return [name] if self.of.get(name, "-") == work else []

    def put(self, name: str, piece: list[str], work: str | None, number: int) -> None:
        if name in self.case.subs:
            self.members.setdefault(name, []).extend(piece)
        self.since[name] = number
        for part in piece:
            self.of.pop(part, None)
            self.of[part] = work
            self.came[part] = number

    def remove(self, name: str, piece: list[str]) -> None:
        self.since.pop(name, None)
        for part in piece:
            self.of.pop(part)
            if name in self.case.subs:
                self.of[part] = name
            else:
                for parts in self.members.values():
                    if part in parts:
                        parts.remove(part)
        if name in self.case.subs:
            self.members.pop(name, None)


@dataclass
class Moment:
    of: dict[str, str | None]
    up: dict[str | None, Vector]


class Naive:
    """The state, and what several actions ask of it; the actions are in `naive_steps.Steps`."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.where = Where(case)
        self.up: dict[str | None, Vector] = {None: UP}
        self.moments = [Moment(dict(self.where.of), dict(self.up))]
        self.ahead = self.look_ahead()
        self.pins: dict[int, tuple[int, set[str], str | None]] = {}
        self.set: dict[int, tuple[int, set[str], str | None]] = {}
        self.set_at: dict[int, int] = {}
        self.run_on: dict[int, int] = {}
        self.gone_when_set: set[int] = set()
        self.made: set[tuple[int, str]] = set()
        self.open: list[list[Any]] = []
        self.told = Told()

    def look_ahead(self) -> list[dict[str, str | None]]:
        """Return where the parts are after each step, all steps played through for that alone."""
        where, found = Where(self.case), []
        found.append(dict(where.of))
        for number, (work, word, *rest) in enumerate(self.case.steps, start=1):
            for name in rest[0] if word in ("place", "take_off") else ():
                piece = where.coming(name, work) if word == "place" else where.going(name, work)
                if piece and word == "place":
                    where.put(name, piece, work, number)
                elif piece:
                    where.remove(name, piece)
            found.append(dict(where.of))
        return found

    def around(self, work: str | None) -> list[str | None]:
        return [work] if work is None else [work, *self.around(self.case.subs[work][0])]

    def comes(self, part: str, work: str | None, number: int) -> int | None:
        for k in range(number + 1, len(self.ahead)):
            if part in self.ahead[k] and self.ahead[k][part] in self.around(work):
                return k
        return None

    def ever_placed(self, part: str) -> bool:
        return any(part in of for of in self.ahead)

    def drilled_at(self, stack: int, part: str) -> list[int]:
        found = []
        for number, (work, word, *rest) in enumerate(self.case.steps, start=1):
            if word == "drill" and stack in rest[0] and self.ahead[number].get(part, "-") == work:
                found.append(number)
        return found

    def calm(self, stack: int) -> bool:
        return not self.case.stacks[stack].parts & self.case.muted

    def in_work(self, held: tuple[int, set[str], str | None], work: str | None) -> bool:
        parts, put_in = held[1], held[2]
        return any(self.where.of.get(p, "-") == work for p in parts) if parts else put_in == work

    def parts_there(self, stack: int, work: str | None) -> set[str]:
        return self.case.stacks[stack].parts & set(self.where.there(work))

    def end(self, stack: int, side: Vector) -> int:
        layer_1_looks = DOWN if self.case.stacks[stack].turned else UP
        return -1 if dot(layer_1_looks, side) < -0.5 else 1

    def flat(self, work: str | None) -> bool:
        return self.case.flat if work is None else self.case.subs[work][1]

    def bench(self, out: Vector, work: str | None, up: Vector) -> bool:
        return self.flat(work) and math.degrees(math.asin(max(-1.0, min(1.0, -dot(out, up))))) > 15.0

    def has_hole(self, stack: int, part: str, drilled: bool) -> bool:
        return drilled or (stack, part) in self.made

    def reached(self, stack: CaseStack, side: int, moment: Moment, level: bool = True) -> bool:
        """Say whether a tool reaches it as things stand; ``level``: the bench counts."""
        works = {moment.of.get(p, "-") for p in stack.parts}
        if len(works) != 1 or "-" in works:
            return False
        (work,) = works
        there = {p for p, name in moment.of.items() if name == work}
        up = moment.up.get(work, UP)
        return all(
            any(
                not (blockers & there) and not (level and any(self.bench(d, work, up) for d in outs))
                for blockers, outs in end
            )
            for end in stack.heads[side]
        )

    def kept_open(self, stack: int) -> list[int]:
        return [window[1] for window in self.open if window[0] == stack and window[4] is None]


def dot(a: Vector, b: Vector) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))
