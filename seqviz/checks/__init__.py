"""Checks: one file for each kind of finding, listed here in reading order."""

from __future__ import annotations

from seqviz.checks import (
    bad_value,
    duplicate_name,
    faces_wrong_way,
    fills_left_open,
    gap_drawn_shut,
    gap_in_stack,
    head_under_part,
    hole_size_differs,
    holes_off,
    known_unused,
    layer_missing,
    layer_undrilled,
    left_open_forever,
    loose_part,
    missing_word,
    never_set,
    no_way_in,
    part_unplaced,
    parts_interfere,
    pin_in_the_way,
    say_over_or_under,
    tool_blocked,
    unknown_name,
    unknown_word,
    value_lost,
    wrong_side_up,
)
from seqviz.checks.check import Check

__all__ = ["CHECKS"]

CHECKS: tuple[Check, ...] = (
    unknown_word.CHECK,
    bad_value.CHECK,
    missing_word.CHECK,
    unknown_name.CHECK,
    duplicate_name.CHECK,
    value_lost.CHECK,
    say_over_or_under.CHECK,
    faces_wrong_way.CHECK,
    known_unused.CHECK,
    holes_off.CHECK,
    layer_undrilled.CHECK,
    hole_size_differs.CHECK,
    parts_interfere.CHECK,
    loose_part.CHECK,
    gap_in_stack.CHECK,
    gap_drawn_shut.CHECK,
    layer_missing.CHECK,
    tool_blocked.CHECK,
    no_way_in.CHECK,
    head_under_part.CHECK,
    wrong_side_up.CHECK,
    fills_left_open.CHECK,
    never_set.CHECK,
    left_open_forever.CHECK,
    part_unplaced.CHECK,
    pin_in_the_way.CHECK,
)
