"""Troubles that may come from a step that could not be read are not told: they would be guesses."""

from __future__ import annotations

from collections.abc import Sequence

from seqviz.sequence.work import Troubles

__all__ = ["without_doubtful"]


def without_doubtful(troubles: Troubles, broken: Sequence[int]) -> Troubles:
    """Leave out what a step that could not be read may have prevented.

    Such a step may have placed a part, turned the work, pulled pins, or let a hole be filled. It cannot have
    taken anything away that is in the way, so troubles with parts stay.

    Parameters
    ----------
    troubles
        As met in the replay of the steps that could be read.
    broken
        Numbers of the others; 0 stands for the words above the steps: side up, bench, tools.
    """
    if not broken:
        return troubles
    first = min(broken)
    return Troubles(
        too_early=[e for e in troubles.too_early if None not in e.comes],
        tool_stopped=[
            e for e in troubles.tool_stopped if first > 0 and (e.step < first or e.cause == "parts")
        ],
        no_way=[e for e in troubles.no_way if e.step < first or e.cause == "parts"],
        head_under=troubles.head_under,
        filled_open=[e for e in troubles.filled_open if e.step < first],
    )
