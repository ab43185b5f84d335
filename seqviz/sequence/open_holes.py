"""``leave open`` and ``open no longer``: holes that must stay empty until something else is there."""

from __future__ import annotations

from seqviz.records.steps import LeaveOpen, OpenNoLonger, Step
from seqviz.sequence.work import Done, Window, Work

__all__ = ["close_windows", "leave_open", "open_no_longer"]


def leave_open(work: Work, step: Step, action: LeaveOpen) -> Done:
    """Leave holes open until the placed parts that ``for`` names are there, or until a step says so."""
    waits_for = _waited_for(work, action.reason) if action.reason else frozenset()
    stacks = tuple(work.chooser.stacks(action.holes))
    for stack in stacks:
        work.windows.append(Window(stack=stack, since=step.number, at=step.at, waits_for=waits_for))
    close_windows(work, step.number)
    return Done(left_open=stacks)


def _waited_for(work: Work, reason: str) -> frozenset[str]:
    """Return the placed parts that ``reason`` names; none where it is any other text."""
    parts = work.chooser.parts_named(reason)
    unread = (reason,) if not parts and reason in work.timeline.placed_at else ()
    return frozenset((*parts, *unread))


def open_no_longer(work: Work, step: Step, action: OpenNoLonger) -> Done:
    """Let holes be filled again."""
    stacks = work.chooser.stacks(action.holes)
    for window in work.windows:
        if window.until is None and window.stack in stacks:
            window.until = step.number
    return Done()


def close_windows(work: Work, step: int) -> None:
    """End the windows that wait for parts which are all placed by ``step``."""
    for window in work.windows:
        if window.until is None and window.waits_for:
            placed = [work.timeline.placed_at.get(part) for part in window.waits_for]
            if all(at is not None and at <= step for at in placed):
                window.until = step
