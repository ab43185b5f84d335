"""What a step may do: a table of words for each action."""

from __future__ import annotations

from seqviz.records.hole_actions import HOLE_ACTIONS
from seqviz.records.other_actions import HOLD_ACTIONS, NOTE_ACTIONS, PREPARE_ACTIONS, TURN_ACTIONS
from seqviz.records.pin_actions import PIN_ACTIONS
from seqviz.records.tables import Record

__all__ = ["ACTIONS"]

_ALL: tuple[Record, ...] = (
    *PIN_ACTIONS,
    *HOLE_ACTIONS,
    *PREPARE_ACTIONS,
    *TURN_ACTIONS,
    *HOLD_ACTIONS,
    *NOTE_ACTIONS,
)

ACTIONS: dict[str, Record] = {record.fields[0].word: record for record in _ALL}
"""Action word -> the table of its step."""
