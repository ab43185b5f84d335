"""Pins: where a step puts them, pulls them and moves them. A pin does not fill a hole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seqviz.assembly.structure import Stack
from seqviz.geometry.pose import Array
from seqviz.records.steps import MovePins, PinPattern, PullPins
from seqviz.sequence.bench import side_vector
from seqviz.sequence.work import Done, Work

__all__ = ["move_pins", "pull_pins", "put_pins"]


def put_pins(work: Work, parts: tuple[str, ...], pattern: PinPattern | None, side: Array) -> tuple[int, ...]:
    """Pin the parts just placed by ``pattern``, pins coming from ``side``; return the stacks newly pinned."""
    if pattern is None:
        return ()
    stacks = work.assembly.stacks
    new = [k for k in dict.fromkeys(_wanted(work, parts, pattern)) if _takes_pin(work, stacks[k])]
    for index in new:
        work.pins[index] = work.end_toward(stacks[index], side)
    return tuple(new)


def pull_pins(work: Work, action: PullPins) -> Done:
    """Take pins out."""
    pulled = tuple(k for k in work.chooser.stacks(action.holes) if work.pins.pop(k, None) is not None)
    return Done(unpinned=pulled)


def move_pins(work: Work, action: MovePins) -> Done:
    """Let the pins in these holes come from another side."""
    side = side_vector(work.assembly, action.to)
    for index in work.chooser.stacks(action.holes):
        if index in work.pins:
            work.pins[index] = work.end_toward(work.assembly.stacks[index], side)
    return Done()


def _wanted(work: Work, parts: tuple[str, ...], pattern: PinPattern) -> Iterable[int]:
    if pattern.kind == "none":
        return ()
    if pattern.kind == "all":
        return (k for part in parts for k in work.assembly.stacks_of_part[part] if _shared(work, k))
    if pattern.every is not None:
        return (k for part in parts for row in _rows(work, part) for k in _every(row, pattern.every))
    return work.chooser.stacks(pattern.holes)


def _rows(work: Work, part: str) -> Iterator[list[int]]:
    """Yield for each row of ``part`` its shared holes, in the order of their numbers."""
    rows: dict[str, list[tuple[int, int]]] = {}
    for hole in work.assembly.placed[part].holes:
        index = work.assembly.stack_of.get(f"{part}.{hole.name}")
        if index is not None and _shared(work, index):
            rows.setdefault(hole.row, []).append((hole.number, index))
    for row in rows.values():
        yield [index for _, index in sorted(row)]


def _every(row: list[int], pitch: int) -> list[int]:
    """Return the 1st, the (1 + pitch)th, .. and the last."""
    return [*row[:: max(1, pitch)], row[-1]]


def _shared(work: Work, index: int) -> bool:
    return work.layers_there(work.assembly.stacks[index]) >= 2


def _takes_pin(work: Work, stack: Stack) -> bool:
    """No second pin, none beside a fastener, and none through a part that has no hole there."""
    solid = any(layer.hole is None and layer.part in work.there for layer in stack.layers)
    return stack.index not in work.pins and stack.index not in work.filled_at and not solid
