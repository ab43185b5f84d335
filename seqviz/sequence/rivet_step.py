"""``rivet`` and ``bolt``: which holes a step fills, tightens, or finds filled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from seqviz.assembly.fastening import fastener_named
from seqviz.assembly.structure import Stack
from seqviz.records.model import HoleChoice
from seqviz.records.steps import Bolt, Rivet
from seqviz.sequence.access import Reached
from seqviz.sequence.fill_hole import Filling, checked, fill, told_head
from seqviz.sequence.pin_gaps import note_pin_gaps
from seqviz.sequence.replay_types import SetTwice
from seqviz.sequence.work import Done, Work, place_of
from seqviz.trade.fasteners import BOLT

__all__ = ["bolt", "rivet"]

_NONE: Mapping[int, Reached] = {}

Chosen = dict[int, HoleChoice | None]
"""Stacks in the order in which they are filled, each with the choice that named it first."""


def rivet(work: Work, action: Rivet) -> Done:
    """Fill the holes that the step names, in that order; a hole with a trouble is filled all the same."""
    chosen = _chosen(work, action)
    new = {k: choice for k, choice in chosen.items() if k not in work.shop.filled}
    _note_set_twice(work, action, [k for k in chosen if k not in new])
    note_pin_gaps(work, list(new))
    return _done(work, {k: fill(work, _filling(work, action, k, choice)) for k, choice in new.items()})


def bolt(work: Work, action: Bolt) -> Done:
    """Fill holes with bolts; of those that are finger tight already the nut is tightened."""
    shop = work.shop
    chosen = _chosen(work, action)
    new = {k: choice for k, choice in chosen.items() if k not in shop.filled}
    run_on = {k: choice for k, choice in chosen.items() if k in shop.finger_tight}
    _note_set_twice(work, action, [k for k in chosen if k in shop.filled and k not in run_on])
    note_pin_gaps(work, list(new))
    hows = {k: fill(work, _filling(work, action, k, choice)) for k, choice in new.items()}
    tightened = {} if action.finger_tight else {k: _tighten(work, action, k, run_on[k]) for k in run_on}
    if action.finger_tight:
        fresh = {k: (work.number, place_of(work.step, new[k], len(action.holes or ()))) for k in new}
        shop.finger_tight.update(fresh)
    return _done(work, hows, finger_tight=tuple(new) if action.finger_tight else (), tightened=tightened)


def _tighten(work: Work, action: Bolt, index: int, choice: HoleChoice | None) -> Reached:
    """Tighten the nut of a bolt that is in; its head is where it was put in."""
    shop = work.shop
    filling = _filling(work, action, index, choice)
    fixing = shop.filled[index].fixing
    filling = replace(filling, head=fixing.end, fastener=fixing.fastener, run_on=True)
    how = None if shop.is_muted(filling.stack) else checked(work, filling)
    del shop.finger_tight[index]
    return how or Reached(head=fixing.end)


def _done(
    work: Work,
    hows: dict[int, Reached],
    finger_tight: tuple[int, ...] = (),
    tightened: Mapping[int, Reached] = _NONE,
) -> Done:
    unpinned = tuple(index for index in hows if work.shop.pins.take(index) is not None)
    return Done(
        filled=tuple(hows),
        unpinned=unpinned,
        head_sides={k: how.head for k, how in hows.items()},
        finger_tight=finger_tight,
        tightened=tuple(tightened),
        tools={k: how.tools for k, how in {**hows, **tightened}.items() if how.tools},
    )


def _filling(work: Work, action: Rivet | Bolt, index: int, choice: HoleChoice | None) -> Filling:
    stack = work.shop.assembly.stacks[index]
    return Filling(
        at=place_of(work.step, choice, len(action.holes or ())),
        stack=stack,
        fastener=action.use.text if action.use else stack.fastener,
        head=told_head(work, action.head, stack),
        by_hand=isinstance(action, Bolt) and action.finger_tight,
    )


def _chosen(work: Work, action: Rivet | Bolt) -> Chosen:
    passing = work.shop.chooser.passes(action.narrowed)
    named: Chosen
    if action.holes is None:
        named = dict.fromkeys(_ready(work, action))
    else:
        named = {**work.shop.chooser.stacks(action.holes)}
    return {k: choice for k, choice in named.items() if k in passing}


def _ready(work: Work, action: Rivet | Bolt) -> list[int]:
    """Return the holes that ``everything ready`` means: of finger-tight bolts those that can be tightened."""
    shop, stacks = work.shop, work.shop.assembly.stacks
    bolts = isinstance(action, Bolt)
    tighten = isinstance(action, Bolt) and not action.finger_tight
    lots = (lot for parts, lot in shop.stacks_through.items() if parts <= work.there)
    whole = (stacks[k] for lot in lots for k in lot if k not in shop.filled)
    ready = [s.index for s in whole if _is_ready(work, action, s) and _takes_bolt(work, action, s) == bolts]
    run_on = [k for k in shop.finger_tight if tighten and work.has(shop.filled[k])]
    return sorted(ready + run_on)


def _is_ready(work: Work, action: Rivet | Bolt, stack: Stack) -> bool:
    return (
        (stack.fastener is not None or action.use is not None)
        and stack.joins
        and all(work.whole(stack, layer) for layer in stack.layers)
        and stack.index not in work.shop.later
        and work.shop.open_window(stack.index) is None
    )


def _takes_bolt(work: Work, action: Rivet | Bolt, stack: Stack) -> bool:
    """Say whether a bolt goes in; of a step that names hardware that decides."""
    name = action.use.text if action.use else stack.fastener
    known = fastener_named(work.shop.model, name) if name else None
    return known is not None and known.kind == BOLT


def _note_set_twice(work: Work, action: Rivet | Bolt, filled: list[int]) -> None:
    """Note the holes that are named and filled already.

    Who names a whole row of which some are filled means the rest of it; those went with a part that was taken
    off are told there.
    """
    shop = work.shop
    for choice in action.holes or ():
        mine = shop.chooser.stacks([choice])
        if choice.first is None and not all(k in filled for k in mine):
            continue
        for k in filled:
            if k in mine and k not in shop.taken_off_when_set:
                at = place_of(work.step, choice, len(action.holes or ()))
                shop.troubles.note(SetTwice(step=work.number, at=at, stack=k, since=shop.filled[k].step))
