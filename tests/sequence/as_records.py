"""A plain `Case` as the records, the structure and the tables that the replay takes; and random cases."""

from __future__ import annotations

import math
import random
from typing import Any

from seqviz.assembly.structure import Assembly, Layer, PlacedPart, Stack
from seqviz.geometry.pose import frozen
from seqviz.records.model import Later, Model
from seqviz.records.steps import (
    Action,
    LeaveOpen,
    MovePins,
    OpenNoLonger,
    PullPins,
    Sequence,
    TurnOver,
)
from seqviz.sequence.access import Alternative, End, Side
from seqviz.sequence.bench import Direction
from seqviz.sequence.tables import Fixing, Way
from tests.sequence.by_hand import HERE, RIVET, holes, model, order, piece, pins, place, rivet, structure
from tests.sequence.naive import DOWN, UP, Case, CaseStack, CaseWay


class CaseTables:
    """Answers the replay from the case's own lists."""

    def __init__(self, case: Case) -> None:
        self._case = case

    def sides(self, stack: int, fastener: str | None) -> tuple[Side, ...]:
        del fastener
        heads = self._case.stacks[stack].heads
        return tuple(
            Side(
                head=head,
                ends=tuple(
                    End.of(Alternative(blockers=b, directions=d) for b, d in end) for end in heads[head]
                ),
            )
            for head in heads
        )

    def ways(self, part: str) -> tuple[Direction, ...]:
        return tuple(way.out for way in self._case.ways[part])

    def two_moves(self, parts: tuple[str, ...], among: frozenset[str]) -> tuple[Way, ...]:
        del parts, among
        return ()

    def behind(self, stack: int, end: int, level: float, among: frozenset[str]) -> dict[str, float]:
        del stack, end, level, among
        return {}

    def pin_meets(self, pin: Fixing, among: frozenset[str]) -> frozenset[str]:
        del pin, among
        return frozenset()

    def met_parts(self, part: str, way: Way, among: frozenset[str]) -> frozenset[str]:
        return self._way(part, way).parts & among

    def _way(self, part: str, way: Way) -> CaseWay:
        return next(one for one in self._case.ways[part] if one.out == way.out)

    def met_fixings(self, part: str, way: Way, among: frozenset[Fixing]) -> frozenset[Fixing]:
        meets = self._way(part, way)
        return frozenset(
            f
            for f in among
            if (f.stack in meets.rivets if f.kind == "fastener" else (f.stack, f.end) in meets.pins)
        )

    def heads_under(self, part: str, among: frozenset[Fixing]) -> frozenset[Fixing]:
        return frozenset(f for f in among if f.kind == "fastener" and f.stack in self._case.under[part])


def records(case: Case) -> tuple[Model, Assembly, Sequence]:
    """Hole K + 1 of row ``h`` of a part is in stack K."""
    stacks = tuple(_stack(k, stack) for k, stack in enumerate(case.stacks))
    parts = [_part(case, name) for name in case.parts]
    later = tuple(
        Later(holes=holes(_name(case, k)), part=None, why="later", at=HERE) for k in sorted(case.later)
    )
    made = structure(*parts, stacks=stacks, muted=case.muted)
    actions = [_action(case, step) for step in case.steps]
    bench = "flat" if case.flat else "trestles"
    return model(*case.parts, later=later), made, order(*actions, bench=bench, finished=case.finished)


def _part(case: Case, name: str) -> PlacedPart:
    box = ((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
    points = [(float(k), 0.0) for k in range(len(case.stacks))]
    made = piece(name, [box], {"h": points})
    own = tuple(hole for hole in made.part.holes if (name, True) in case.stacks[hole.number - 1].layers)
    part = type(made.part)(
        name=name,
        shape="plate",
        flats=made.part.flats,
        pieces=made.part.pieces,
        piece_flats=made.part.piece_flats,
        holes=own,
        twins={},
        at=HERE,
    )
    return PlacedPart(name=name, part=part, pose=made.pose, depth=0, side=made.side, free=False, at=HERE)


def _stack(index: int, stack: CaseStack) -> Stack:
    layers = tuple(
        Layer(part=part, hole=f"{part}.h.{index + 1}" if drilled else None, top=-k, bottom=-k - 1)
        for k, (part, drilled) in enumerate(stack.layers)
    )
    return Stack(
        index=index,
        point=frozen([float(index), 0.0, 0.0]),
        axis=frozen(DOWN if stack.turned else UP),
        layers=layers,
        holes=tuple(layer.hole for layer in layers if layer.hole),
        diameter=3.3,
        size=None,
        fastener=RIVET if stack.fastener else None,
        pin=3.3,
    )


def _action(case: Case, step: tuple[Any, ...]) -> Action:
    word = step[0]
    if word == "place":
        every, side = step[2], step[3]
        pattern = pins("ends and every N", every) if isinstance(every, int) else pins(every)
        return place(*step[1], pattern=pattern, pins_from=_side_word(side))
    if word == "rivet":
        if step[1] is None:
            return rivet(head=step[2])
        return rivet(*(_name(case, k) for k in step[1]), head=step[2])
    if word == "turn":
        return TurnOver(how="sideways")
    named = holes(*(_name(case, k) for k in step[1]))
    if word == "leave_open":
        return LeaveOpen(holes=named, reason=step[2])
    if word == "open_no_longer":
        return OpenNoLonger(holes=named)
    return PullPins(holes=named) if word == "pull" else MovePins(holes=named, to=_side_word(step[2]) or "")


def _name(case: Case, stack: int) -> str:
    part = next(p for p, drilled in case.stacks[stack].layers if drilled and p not in case.muted)
    return f"{part}.h.{stack + 1}"


def _side_word(side: tuple[float, float, float] | None) -> str | None:
    return None if side is None else "upper" if side == UP else "lower"


LEVELS = (1.0, 0.5, 0.0, -0.2, -0.3, -0.8, -1.0)
"""z of directions: -0.2 is 11.5 degrees below level and passes over the bench, -0.3 is 17.5 and does not."""


def random_case(chance: random.Random) -> Case:
    parts = [f"p{k}" for k in range(chance.randint(3, 6))]
    muted = frozenset(p for p in parts[1:] if chance.random() < 0.07)
    stacks = [_random_stack(chance, parts, muted) for _ in range(chance.randint(2, 6))]
    named = [k for k, s in enumerate(stacks) if any(d and p not in muted for p, d in s.layers)]
    return Case(
        parts=parts,
        stacks=stacks,
        ways={part: _random_ways(chance, parts, len(stacks)) for part in parts},
        under={part: _some(chance, range(len(stacks)), 0.1) for part in parts},
        muted=muted,
        later=frozenset(k for k in named if chance.random() < 0.1),
        finished=chance.random() < 0.5,
        flat=chance.random() < 0.7,
        steps=_random_steps(chance, parts, named),
    )


def _random_stack(chance: random.Random, parts: list[str], muted: frozenset[str]) -> CaseStack:
    chosen = chance.sample(parts, min(len(parts), chance.choice([1, 2, 2, 2, 3, 3])))
    layers = [(part, chance.random() > 0.08) for part in chosen]
    if not any(drilled for _, drilled in layers) or all(p in muted for p, d in layers if d):
        layers = [(chosen[0], True)] if chosen[0] not in muted else [(parts[0], True)]
    heads = {}
    if chance.random() < 0.85:
        ends = chance.choice([1, 2])
        heads = {side: [_random_end(chance, parts) for _ in range(ends)] for side in (1, -1)}
    return CaseStack(layers, chance.random() < 0.3, chance.random() < 0.9, heads)


def _random_end(chance: random.Random, parts: list[str]) -> Any:
    return [
        (_some(chance, parts, 0.3), tuple(_out(chance) for _ in range(chance.choice([0, 0, 1, 2]))))
        for _ in range(chance.randint(1, 2))
    ]


def _random_ways(chance: random.Random, parts: list[str], stacks: int) -> list[CaseWay]:
    ends = [(k, end) for k in range(stacks) for end in (1, -1)]
    levels = chance.sample(LEVELS, chance.randint(1, 4))
    return [
        CaseWay(
            out=_unit(level),
            parts=_some(chance, parts, 0.25),
            pins=_some(chance, ends, 0.15),
            rivets=_some(chance, range(stacks), 0.15),
        )
        for level in levels
    ]


def _random_steps(chance: random.Random, parts: list[str], named: list[int]) -> list[tuple[Any, ...]]:
    """Most parts are placed, one or two at a time, with other steps in between and more at the end."""
    left = [part for part in chance.sample(parts, len(parts)) if chance.random() < 0.9]
    steps: list[tuple[Any, ...]] = []
    while left:
        together = chance.choice([1, 1, 2])
        side = chance.choice([None, UP, DOWN])
        steps.append(("place", left[:together], chance.choice(["all", "none", 2, 3]), side))
        left = left[together:]
        steps.extend(_random_step(chance, parts, named) for _ in range(chance.choice([0, 0, 1, 1, 2])))
    return steps + [_random_step(chance, parts, named) for _ in range(chance.randint(1, 4))]


def _random_step(chance: random.Random, parts: list[str], named: list[int]) -> tuple[Any, ...]:
    stacks = chance.sample(named, chance.randint(1, len(named))) if named else []
    word = chance.choices(
        ["place", "rivet", "leave_open", "open_no_longer", "pull", "move", "turn"], [1, 8, 3, 1, 1, 1, 2]
    )[0]
    if word == "place" or not stacks:
        pattern = chance.choice(["all", "none", 2, 3])
        return (
            "place",
            chance.sample(parts, chance.choice([1, 1, 2])),
            pattern,
            chance.choice([None, UP, DOWN]),
        )
    if word == "rivet":
        return (
            "rivet",
            chance.choice([None, stacks[:1], stacks[:3]]),
            chance.choice([None, None, "upper", "lower"]),
        )
    if word == "leave_open":
        return ("leave_open", stacks[:2], chance.choice([None, *parts]))
    if word == "move":
        return ("move", stacks, chance.choice([UP, DOWN]))
    return ("turn",) if word == "turn" else (word, stacks)


def _some(chance: random.Random, among: Any, share: float) -> frozenset[Any]:
    return frozenset(one for one in among if chance.random() < share)


def _out(chance: random.Random) -> tuple[float, float, float]:
    return _unit(chance.choice(LEVELS))


def _unit(level: float) -> tuple[float, float, float]:
    return (math.sqrt(1.0 - level * level), 0.0, level)
