"""Which step is done where: one entry for each kind of action."""

from __future__ import annotations

from seqviz.records.steps import (
    Action,
    Bolt,
    Drill,
    DrillOut,
    HoldPoint,
    LeaveOpen,
    MovePins,
    Note,
    OpenNoLonger,
    Place,
    Prepare,
    PullPins,
    PutPins,
    Rivet,
    TakeOff,
    TurnOver,
)
from seqviz.sequence.drill_step import drill, drill_out
from seqviz.sequence.open_holes import leave_open, open_no_longer
from seqviz.sequence.pin_steps import move_pins, pull_pins, put_pins_step
from seqviz.sequence.place_step import place
from seqviz.sequence.prepare_step import prepare
from seqviz.sequence.rivet_step import bolt, rivet
from seqviz.sequence.take_off_step import take_off
from seqviz.sequence.turn_step import turn_over
from seqviz.sequence.work import Done, Work

__all__ = ["done"]


def done(work: Work, action: Action) -> Done:
    """Do one step."""
    match action:
        case Place() | TakeOff() | TurnOver():
            return _moved(work, action)
        case PutPins() | PullPins() | MovePins():
            return _pinned(work, action)
        case Rivet():
            return rivet(work, action)
        case Bolt():
            return bolt(work, action)
        case Drill():
            return drill(work, action)
        case DrillOut():
            return drill_out(work, action)
        case Prepare():
            return prepare(work, action)
        case LeaveOpen():
            return leave_open(work, action)
        case OpenNoLonger():
            return open_no_longer(work, action)
        case HoldPoint():
            return Done(hold=True)
        case Note():
            return Done()


def _moved(work: Work, action: Place | TakeOff | TurnOver) -> Done:
    match action:
        case Place():
            return place(work, action)
        case TakeOff():
            return take_off(work, action)
        case TurnOver():
            return turn_over(work)


def _pinned(work: Work, action: PutPins | PullPins | MovePins) -> Done:
    match action:
        case PutPins():
            return put_pins_step(work, action)
        case PullPins():
            return pull_pins(work, action)
        case MovePins():
            return move_pins(work, action)
