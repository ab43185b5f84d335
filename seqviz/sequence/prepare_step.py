"""``deburr``, ``prime``, ``seal``, and the points at which work stops until something is checked."""

from __future__ import annotations

from seqviz.records.steps import Prepare
from seqviz.sequence.work import Done, Work

__all__ = ["prepare"]


def prepare(work: Work, action: Prepare) -> Done:
    """Return the parts that the step prepares: those named, and those in whose holes it works."""
    shop = work.shop
    whole = [part for name in action.names for part in shop.chooser.parts_named(name.text)]
    at_holes = [part for choice in action.holes for part, _ in shop.chooser.placed_holes(choice)]
    return Done(prepared=tuple(dict.fromkeys((*whole, *at_holes))))
