"""What would have to stand at a fastener that no tool reaches: the best of all alternatives, as solids."""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.geometry.prism import Piece
from seqviz.sequence.access import Alternative, End, Side, Stopped
from seqviz.sequence.timeline import View

__all__ = ["barred_tool"]


def barred_tool(sides: tuple[Side, ...], view: View, step: int, why: Stopped) -> tuple[Piece, ...]:
    """Return the tools, rooms and corridors of the best alternative that are stopped; base frame, mm.

    The best one is that of which ``why`` tells: it meets nothing but the blockers told there.
    """
    there = view.there(step)
    for side in sides:
        chosen = [_best(end, there, view, step, frozenset(why.blockers)) for end in side.ends]
        if all(one is not None for one in chosen):
            return tuple(_stopped(side, chosen, there, view, step))
    return ()


def _best(end: End, there: set[str], view: View, step: int, blockers: frozenset[str]) -> Alternative | None:
    """Return the alternative that meets the least of what is there, and of these the first one open above."""
    met = ((one, one.blockers & there) for one in end)
    fitting = [(one, parts) for one, parts in met if parts <= blockers]
    if not fitting:
        return None
    return min(fitting, key=lambda each: (len(each[1]), _on_bench(each[0], view, step)))[0]


def _stopped(
    side: Side, chosen: list[Alternative | None], there: set[str], view: View, step: int
) -> Iterator[Piece]:
    for end, one in zip(side.ends, chosen, strict=True):
        if one is not None and (not there.isdisjoint(one.blockers) or _on_bench(one, view, step)):
            yield from end.pieces(one)


def _on_bench(alternative: Alternative, view: View, step: int) -> bool:
    return bool(view.closed(alternative.directions) >> step & 1)
