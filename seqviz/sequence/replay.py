"""The sequence, replayed step by step: what each does, and every trouble met."""

from __future__ import annotations

from seqviz.assembly.structure import Assembly
from seqviz.findings import Finding
from seqviz.records.model import Model
from seqviz.records.steps import (
    LeaveOpen,
    MovePins,
    OpenNoLonger,
    Place,
    PullPins,
    Rivet,
    Sequence,
    Step,
)
from seqviz.sequence.choose import Chooser
from seqviz.sequence.doubts import without_doubtful
from seqviz.sequence.open_holes import leave_open, open_no_longer
from seqviz.sequence.pin_steps import move_pins, pull_pins
from seqviz.sequence.place_step import place
from seqviz.sequence.replay_types import Replay, StepState
from seqviz.sequence.rivet_step import rivet
from seqviz.sequence.structure_tables import StructureTables
from seqviz.sequence.tables import Tables
from seqviz.sequence.timeline import timeline_of
from seqviz.sequence.work import Done, Work

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
    chooser = Chooser(model, assembly)
    timeline = timeline_of(assembly, sequence, chooser)
    work = Work(
        assembly=assembly,
        chooser=chooser,
        timeline=timeline,
        tables=tables,
        finished=sequence.finished,
        later=chooser.later(),
        later_parts=chooser.later_parts(),
        there={assembly.base} if timeline.placed_at[assembly.base] == 0 else set(),
    )
    states = tuple(_state(work, step) for step in sequence.steps)
    troubles = without_doubtful(work.troubles, sequence.broken)
    told = Replay(
        states=states,
        presence=dict(timeline.presence),
        filled_at=work.filled_at,
        placed_at=dict(timeline.placed_at),
        too_early=tuple(troubles.too_early),
        tool_stopped=tuple(troubles.tool_stopped),
        no_way=tuple(troubles.no_way),
        head_under=tuple(troubles.head_under),
        filled_open=tuple(troubles.filled_open),
        open_since=work.opened(),
    )
    return told, chooser.findings


def _state(work: Work, step: Step) -> StepState:
    done = _done(work, step)
    return StepState(
        step=step,
        placed=done.placed,
        ways=dict(done.ways),
        pinned=done.pinned,
        unpinned=done.unpinned,
        filled=done.filled,
        left_open=done.left_open,
        up=work.timeline.ups[step.number],
        head_sides=dict(done.head_sides),
    )


def _done(work: Work, step: Step) -> Done:
    """Do one step; what turns the work or only speaks changes nothing here."""
    match step.action:
        case Place() as action:
            return place(work, step, action)
        case PullPins() as action:
            return pull_pins(work, action)
        case MovePins() as action:
            return move_pins(work, action)
        case Rivet() as action:
            return rivet(work, step, action)
        case LeaveOpen() as action:
            return leave_open(work, step, action)
        case OpenNoLonger() as action:
            return open_no_longer(work, step, action)
        case _:
            return Done()
