"""The sequence, replayed step by step: what each does, and every trouble met."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from seqviz.assembly.structure import Assembly
from seqviz.findings import Finding
from seqviz.records.model import Model
from seqviz.records.steps import Sequence, Step
from seqviz.sequence.choose import Chooser
from seqviz.sequence.closing import note_closings, note_last_chances
from seqviz.sequence.doing import done
from seqviz.sequence.doubts import drop_doubtful
from seqviz.sequence.drill_step import drilled_when
from seqviz.sequence.drilled import Holes
from seqviz.sequence.replay_types import (
    ClosingUnchecked,
    DrillHits,
    FilledOpen,
    HeadUnder,
    LastChance,
    LooseAtTurn,
    NotDrilled,
    NoWay,
    NoWayOut,
    OffWhenSet,
    PinOutOfReach,
    PinsFarApart,
    PlacedTwice,
    Replay,
    SetTwice,
    StandsOnWeak,
    StepState,
    StillFingerTight,
    TooEarly,
    ToolStopped,
    UnderSet,
)
from seqviz.sequence.structure_tables import StructureTables
from seqviz.sequence.tables import Tables
from seqviz.sequence.timing import begin, timeline_of
from seqviz.sequence.work import Done, Shop, Work

__all__ = ["replay", "replay_on"]


def replay(
    model: Model, assembly: Assembly, sequence: Sequence | None
) -> tuple[Replay | None, list[Finding]]:
    """Replay ``sequence`` on the structure; findings are for holes that it names and that are not there."""
    if sequence is None:
        return None, []
    return replay_on(StructureTables(model, assembly, sequence), model, assembly, sequence)


def replay_on(
    tables: Tables, model: Model, assembly: Assembly, sequence: Sequence
) -> tuple[Replay, list[Finding]]:
    """Replay ``sequence`` with the answers of ``tables``."""
    shop = _shop(tables, model, assembly, sequence)
    states = tuple(_state(shop, step) for step in sequence.steps)
    for stack, (step, at) in shop.finger_tight.items():
        shop.troubles.note(StillFingerTight(step=step, at=at, stack=stack))
    note_closings(shop, states)
    if not sequence.finished:
        note_last_chances(shop, states)
    drop_doubtful(shop.troubles, sequence.broken)
    return _told(shop, states), shop.chooser.findings


def _shop(tables: Tables, model: Model, assembly: Assembly, sequence: Sequence) -> Shop:
    chooser = Chooser(model, assembly)
    timeline = timeline_of(assembly, sequence, chooser)
    return Shop(
        model=model,
        assembly=assembly,
        chooser=chooser,
        timeline=timeline,
        tables=tables,
        holes=Holes(assembly, drilled_when(assembly, sequence, chooser, timeline)),
        finished=sequence.finished,
        later=chooser.later(),
        later_parts=chooser.later_parts(),
        now=begin(assembly, sequence, chooser),
    )


def _state(shop: Shop, step: Step) -> StepState:
    work = Work(shop=shop, name=step.work, step=step)
    did = done(work, step.action)
    told: dict[str, Any] = {field.name: getattr(did, field.name) for field in fields(Done)}
    told |= {name: dict(value) for name, value in told.items() if isinstance(value, dict)}
    return StepState(step=step, up=work.lie.up, work=step.work, **told)


def _told(shop: Shop, states: tuple[StepState, ...]) -> Replay:
    troubles = shop.troubles
    where = {part: dict(works) for part, works in shop.timeline.where.items()}
    return Replay(
        states=states,
        presence={part: _any(works) for part, works in where.items()},
        filled_at={stack: held.step for stack, held in shop.filled.items()},
        placed_at=dict(shop.timeline.placed_at),
        where=where,
        drilled={stack: frozenset(parts) for stack, parts in shop.holes.comes.items()},
        too_early=troubles.of(TooEarly),
        tool_stopped=troubles.of(ToolStopped),
        no_way=troubles.of(NoWay),
        head_under=troubles.of(HeadUnder),
        filled_open=troubles.of(FilledOpen),
        open_since=shop.opened(),
        no_way_out=troubles.of(NoWayOut),
        off_when_set=troubles.of(OffWhenSet),
        placed_twice=troubles.of(PlacedTwice),
        under_set=troubles.of(UnderSet),
        set_twice=troubles.of(SetTwice),
        not_drilled=troubles.of(NotDrilled),
        drill_hits=troubles.of(DrillHits),
        still_finger_tight=troubles.of(StillFingerTight),
        pins_far_apart=troubles.of(PinsFarApart),
        pin_out_of_reach=troubles.of(PinOutOfReach),
        loose_at_turn=troubles.of(LooseAtTurn),
        stands_on_weak=troubles.of(StandsOnWeak),
        closing_unchecked=troubles.of(ClosingUnchecked),
        last_chance=troubles.of(LastChance),
    )


def _any(works: dict[str | None, int]) -> int:
    bits = 0
    for one in works.values():
        bits |= one
    return bits
