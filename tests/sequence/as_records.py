"""A plain `Case` as the records, the structure and the tables that the replay takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from seqviz.assembly.structure import Assembly, Layer, PlacedPart, Stack
from seqviz.geometry.pose import frozen
from seqviz.records.model import HoleChoice, Later, Model
from seqviz.records.steps import (
    Action,
    Apart,
    Bolt,
    Drill,
    DrillOut,
    HoldPoint,
    LeaveOpen,
    MovePins,
    OpenNoLonger,
    PullPins,
    Sequence,
    TakeOff,
    TurnOver,
)
from seqviz.sequence.access import Alternative, End, Side
from seqviz.sequence.bench import Direction
from seqviz.sequence.tables import Fixing, Way
from tests.sequence.by_hand import (
    HERE,
    NO_FILTER,
    RIVET,
    holes,
    model,
    names,
    order,
    piece,
    pins,
    place,
    rivet,
    structure,
)
from tests.sequence.naive import DOWN, UP, Case, CaseStack


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
        return tuple(self._case.ways[part])

    def two_moves(self, parts: tuple[str, ...], among: frozenset[str]) -> Iterator[Way]:
        del among
        for part in parts:
            yield from (Way(out, first, 10.0) for first, out in self._case.bent[part])

    def behind(self, stack: int, end: int, level: float, among: frozenset[str]) -> dict[str, float]:
        del stack, end, level, among
        return {}

    def pins_meet(self, pins: Iterable[Fixing], among: frozenset[str]) -> list[frozenset[str]]:
        del among
        return [frozenset() for _ in pins]

    def met_parts(self, part: str, way: Way, among: frozenset[str]) -> frozenset[str]:
        return self._case.meets[part, (way.first, way.out)].parts & among

    def met_fixings(self, part: str, way: Way, among: frozenset[Fixing]) -> frozenset[Fixing]:
        meets = self._case.meets[part, (way.first, way.out)]
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
    actions = [_action(case, step[1:]) for step in case.steps]
    bench = "flat" if case.flat else "trestles"
    sequence = order(*actions, bench=bench, finished=case.finished)
    steps = tuple(replace(step, work=told[0]) for step, told in zip(sequence.steps, case.steps, strict=True))
    apart = tuple(
        Apart(
            name=name,
            inside=inside,
            up=None,
            bench="flat" if flat else "trestles",
            first=1,
            last=0,
            at=HERE,
        )
        for name, (inside, flat) in case.subs.items()
    )
    return model(*case.parts, later=later), made, replace(sequence, steps=steps, apart=apart)


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
        fastener={"rivet": RIVET, "bolt": "bolt AN3", None: None}[stack.fastener],
        pin=3.3,
    )


def _action(case: Case, step: tuple[Any, ...]) -> Action:
    word = step[0]
    if word == "place":
        every, side = step[2], step[3]
        pattern = pins("ends and every N", every) if isinstance(every, int) else pins(every)
        return place(*step[1], pattern=pattern, pins_from=_side_word(side))
    if word == "take_off":
        return TakeOff(names=names(*step[1]))
    if word in ("rivet", "bolt"):
        told = rivet(*(_name(case, k) for k in step[1] or ()), head=step[2])
        if word == "rivet":
            return told
        return Bolt(holes=told.holes, narrowed=told.narrowed, use=None, head=told.head, finger_tight=step[3])
    if word == "turn":
        return TurnOver(how="sideways")
    if word == "check":
        return HoldPoint(what="check", text="x", who=None, value=None)
    return _on_holes(word, holes(*(_name(case, k) for k in step[1])), step)


def _on_holes(word: str, named: tuple[HoleChoice, ...], step: tuple[Any, ...]) -> Action:
    match word:
        case "leave_open":
            return LeaveOpen(holes=named, reason=step[2])
        case "open_no_longer":
            return OpenNoLonger(holes=named)
        case "drill":
            return Drill(holes=named, narrowed=NO_FILTER, template=None, to=None)
        case "drill_out":
            return DrillOut(holes=named)
        case "pull":
            return PullPins(holes=named)
        case _:
            return MovePins(holes=named, to=_side_word(step[2]) or "")


def _name(case: Case, stack: int) -> str:
    part = next(p for p, drilled in case.stacks[stack].layers if drilled and p not in case.muted)
    return f"{part}.h.{stack + 1}"


def _side_word(side: tuple[float, float, float] | None) -> str | None:
    return None if side is None else "upper" if side == UP else "lower"
