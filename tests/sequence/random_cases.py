"""Random cases for the replay: small structures of lists, and orders of work with every action in them."""

from __future__ import annotations

import math
import random
from typing import Any

from tests.sequence.naive import DOWN, UP, Case, CaseStack, CaseWay, Vector

__all__ = ["random_case"]

LEVELS = (1.0, 0.5, 0.0, -0.2, -0.3, -0.8, -1.0)
"""z of directions: -0.2 is 11.5 degrees below level and passes over the bench, -0.3 is 17.5 and does not."""

WORDS = {
    "place": 2,
    "take_off": 3,
    "rivet": 8,
    "bolt": 3,
    "leave_open": 3,
    "open_no_longer": 1,
    "drill": 4,
    "drill_out": 1,
    "pull": 1,
    "move": 1,
    "turn": 2,
    "check": 1,
}
PATTERNS = ("all", "none", 2, 3)


def random_case(chance: random.Random) -> Case:
    parts = [f"p{k}" for k in range(chance.randint(3, 6))]
    muted = frozenset(p for p in parts[1:] if chance.random() < 0.07)
    stacks = [_stack(chance, parts, muted) for _ in range(chance.randint(2, 6))]
    named = [k for k, s in enumerate(stacks) if any(d and p not in muted for p, d in s.layers)]
    subs = _subs(chance)
    ways, bent, meets = _ways(chance, parts, len(stacks))
    return Case(
        parts=parts,
        stacks=stacks,
        ways=ways,
        bent=bent,
        meets=meets,
        under={part: _some(chance, range(len(stacks)), 0.1) for part in parts},
        muted=muted,
        later=frozenset(k for k in named if chance.random() < 0.1),
        finished=chance.random() < 0.5,
        flat=chance.random() < 0.7,
        subs=subs,
        steps=_steps(chance, parts, named, subs),
    )


def _subs(chance: random.Random) -> dict[str, tuple[str | None, bool]]:
    flat = [chance.random() < 0.7 for _ in range(2)]
    inner = {"inner": (chance.choice(["outer", None]), flat[1])} if chance.random() < 0.4 else {}
    return {"outer": (None, flat[0]), **inner} if chance.random() < 0.6 else {}


def _stack(chance: random.Random, parts: list[str], muted: frozenset[str]) -> CaseStack:
    chosen = chance.sample(parts, min(len(parts), chance.choice([1, 2, 2, 2, 3, 3])))
    layers = [(part, chance.random() > 0.18) for part in chosen]
    if not any(drilled for _, drilled in layers) or all(p in muted for p, d in layers if d):
        layers = [(chosen[0], True)] if chosen[0] not in muted else [(parts[0], True)]
    heads = {}
    if chance.random() < 0.85:
        ends = chance.choice([1, 2])
        heads = {side: [_end(chance, parts) for _ in range(ends)] for side in (1, -1)}
    fastener = chance.choices(["rivet", "bolt", None], [7, 3, 1])[0]
    return CaseStack(layers, chance.random() < 0.3, fastener, heads)


def _end(chance: random.Random, parts: list[str]) -> Any:
    return [
        (_some(chance, parts, 0.3), tuple(_out(chance) for _ in range(chance.choice([0, 0, 1, 2]))))
        for _ in range(chance.randint(1, 2))
    ]


def _ways(chance: random.Random, parts: list[str], stacks: int) -> tuple[Any, Any, Any]:
    """Candidates of each part, and what every part meets on the candidates of all."""
    ends = [(k, end) for k in range(stacks) for end in (1, -1)]
    outs = [_unit(level) for level in chance.sample(LEVELS, 4)]
    firsts = [_out(chance)]
    ways = {part: chance.sample(outs, chance.randint(1, 3)) for part in parts}
    bent = {part: [(f, out) for f in firsts for out in outs[:2] if chance.random() < 0.3] for part in parts}
    every = [(None, out) for out in outs] + [(f, out) for f in firsts for out in outs[:2]]
    meets = {
        (part, moves): CaseWay(
            parts=_some(chance, parts, 0.25),
            pins=_some(chance, ends, 0.15),
            rivets=_some(chance, range(stacks), 0.15),
        )
        for part in parts
        for moves in every
    }
    return ways, bent, meets


def _steps(chance: random.Random, parts: list[str], named: list[int], subs: Any) -> list[tuple[Any, ...]]:
    """Most parts are placed, one or two at a time, then the sub-assemblies; other steps in between."""
    left = [part for part in chance.sample(parts, len(parts)) if chance.random() < 0.9]
    names = [*parts, *subs]
    steps: list[tuple[Any, ...]] = []
    for sub in [*reversed(subs), None]:
        inner = [one for one in subs if subs[one][0] == sub]
        share = len(left) if sub is None else chance.randint(0, len(left))
        todo = left[:share] + [one for one in inner if chance.random() < 0.9]
        left = left[share:]
        while todo:
            together = chance.choice([1, 1, 2])
            side = chance.choice([None, UP, DOWN])
            steps.append((sub, "place", todo[:together], chance.choice(PATTERNS), side))
            todo = todo[together:]
            more = range(chance.choice([0, 0, 1, 1, 2]))
            steps.extend((sub, *_step(chance, names, named)) for _ in more)
    last = [chance.choice([None, None, *subs]) for _ in range(chance.randint(2, 7))]
    return steps + [(work, *_step(chance, names, named)) for work in last]


def _step(chance: random.Random, names: list[str], named: list[int]) -> tuple[Any, ...]:
    stacks = chance.sample(named, chance.randint(1, len(named))) if named else []
    word = chance.choices(list(WORDS), list(WORDS.values()))[0]
    heads = [None, None, "upper", "lower"]
    if word == "place" or not stacks:
        side = chance.choice([None, UP, DOWN])
        return "place", chance.sample(names, chance.choice([1, 1, 2])), chance.choice(PATTERNS), side
    if word == "take_off":
        return word, chance.sample(names, chance.choice([1, 1, 2]))
    if word == "rivet":
        return word, chance.choice([None, stacks[:1], stacks[:3]]), chance.choice(heads)
    if word == "bolt":
        return word, chance.choice([None, stacks[:2]]), chance.choice(heads), chance.random() < 0.5
    if word == "leave_open":
        return word, stacks[:2], chance.choice([None, *names])
    if word == "move":
        return word, stacks, chance.choice([UP, DOWN])
    return (word,) if word in ("turn", "check") else (word, stacks[:3])


def _some(chance: random.Random, among: Any, share: float) -> frozenset[Any]:
    return frozenset(one for one in among if chance.random() < share)


def _out(chance: random.Random) -> Vector:
    return _unit(chance.choice(LEVELS))


def _unit(level: float) -> Vector:
    return (math.sqrt(1.0 - level * level), 0.0, level)
