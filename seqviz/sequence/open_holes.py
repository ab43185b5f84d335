"""``leave open`` and ``open no longer``: holes that must stay empty until something else is there."""

from __future__ import annotations

from seqviz.records.steps import LeaveOpen, OpenNoLonger
from seqviz.sequence.work import Done, Shop, Window, Work

__all__ = ["close_windows", "leave_open", "open_no_longer"]


def leave_open(work: Work, action: LeaveOpen) -> Done:
    """Leave holes open until what ``for`` names is there, or until a step says so."""
    shop = work.shop
    waits_for = _waited_for(shop, action.reason) if action.reason else frozenset()
    stacks = tuple(shop.chooser.stacks(action.holes))
    shop.windows += [
        Window(stack=stack, since=work.number, at=work.step.at, work=work.name, waits_for=waits_for)
        for stack in stacks
    ]
    close_windows(shop, work.number)
    return Done(left_open=stacks)


def _waited_for(shop: Shop, reason: str) -> frozenset[str]:
    """Return the placed parts, or the sub-assembly, that ``reason`` names; none where it is other text."""
    parts = shop.chooser.parts_named(reason)
    # A sub-assembly, or a part that could not be read.
    other = (reason,) if not parts and reason in shop.timeline.comes else ()
    return frozenset((*parts, *other))


def open_no_longer(work: Work, action: OpenNoLonger) -> Done:
    """Let holes be filled again."""
    stacks = work.shop.chooser.stacks(action.holes)
    for window in work.shop.windows:
        if window.until is None and window.stack in stacks:
            window.until = work.number
    return Done()


def close_windows(shop: Shop, step: int) -> None:
    """End the windows that wait for what is there by ``step``, in their work or what it becomes part of."""
    for window in shop.windows:
        if window.until is None and window.waits_for:
            there = [shop.timeline.first_there(name, window.work) for name in window.waits_for]
            if all(at is not None and at <= step for at in there):
                window.until = step
