"""Troubles that may come from a step that could not be read are not told: they would be guesses."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from seqviz.sequence.replay_types import (
    ClosingUnchecked,
    FilledOpen,
    LastChance,
    LooseAtTurn,
    NotDrilled,
    NoWay,
    NoWayOut,
    OffWhenSet,
    PinOutOfReach,
    PinsFarApart,
    PlacedTwice,
    SetTwice,
    StandsOnWeak,
    StillFingerTight,
    TooEarly,
    ToolStopped,
    UnderSet,
)
from seqviz.sequence.troubles import Troubles

__all__ = ["drop_doubtful"]

_AFTER: tuple[type[Any], ...] = (
    ClosingUnchecked,
    FilledOpen,
    LooseAtTurn,
    NotDrilled,
    NoWayOut,
    OffWhenSet,
    PinsFarApart,
    PlacedTwice,
    SetTwice,
    StandsOnWeak,
    UnderSet,
)
"""What such a step may have prevented when it comes before: it pins, checks, drills, takes off."""


def drop_doubtful(troubles: Troubles, broken: Sequence[int]) -> None:
    """Leave out what a step that could not be read may have prevented.

    Such a step may have placed a part, turned the work, pulled pins, let a hole be filled, or done any other
    thing that the troubles after it are about. It is not guessed to have taken anything away, so troubles
    with parts in the way stay.

    Parameters
    ----------
    troubles
        As met in the replay of the steps that could be read.
    broken
        Numbers of the others; 0 stands for the words above the steps: side up, bench, tools.
    """
    if not broken:
        return
    first = min(broken)
    troubles.drop(TooEarly, lambda e: None in e.comes)
    troubles.drop(ToolStopped, lambda e: first == 0 or (e.step >= first and e.cause != "parts"))
    troubles.drop(NoWay, lambda e: e.step >= first and e.cause != "parts")
    troubles.drop(PinOutOfReach, lambda e: e.step >= first and e.cause != "parts")
    troubles.drop(LastChance, lambda _: True)
    troubles.drop(StillFingerTight, lambda _: True)
    for kind in _AFTER:
        troubles.drop(kind, lambda e: e.step >= first)
