"""Pins: where a step puts them, pulls them and moves them. A pin does not fill a hole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from seqviz.assembly.structure import Stack
from seqviz.records.steps import MovePins, PinPattern, PullPins, PutPins
from seqviz.sequence.bench import direction_of, side_vector
from seqviz.sequence.replay_types import Cause, PinOutOfReach
from seqviz.sequence.tables import Fixing
from seqviz.sequence.work import Done, Work

__all__ = ["move_pins", "pull_pins", "put_pins", "put_pins_step"]


def put_pins(
    work: Work, parts: tuple[str, ...], pattern: PinPattern | None, pins_from: str | None
) -> tuple[int, ...]:
    """Pin ``parts`` by ``pattern``, from a side of the base or that up; return the stacks newly pinned."""
    if parts:
        work.shop.just_placed[work.name] = parts
    if pattern is None:
        return ()
    side = side_vector(work.shop.assembly, pins_from) if pins_from else work.lie.up
    stacks = work.shop.assembly.stacks
    new = [k for k in dict.fromkeys(_wanted(work, parts, pattern)) if _takes_pin(work, stacks[k])]
    for index in new:
        _put(work, stacks[index], work.end_toward(stacks[index], side))
    return tuple(new)


def put_pins_step(work: Work, action: PutPins) -> Done:
    """Put pins in as a step of its own: in the parts named, or in those just placed."""
    shop = work.shop
    named = [part for name in action.of for part in shop.chooser.parts_named(name.text)]
    parts = tuple(named) if action.of else shop.just_placed.get(work.name, ())
    parts = tuple(part for part in dict.fromkeys(parts) if part in work.there)
    return Done(pinned=put_pins(work, parts, action.pattern, action.pins_from))


def pull_pins(work: Work, action: PullPins) -> Done:
    """Take pins out."""
    shop = work.shop
    pulled = tuple(k for k in shop.chooser.stacks(action.holes) if shop.pins.pop(k, None) is not None)
    return Done(unpinned=pulled)


def move_pins(work: Work, action: MovePins) -> Done:
    """Let the pins in these holes come from another side."""
    shop = work.shop
    side = side_vector(shop.assembly, action.to)
    for index in shop.chooser.stacks(action.holes):
        if index in shop.pins:
            _put(work, shop.assembly.stacks[index], work.end_toward(shop.assembly.stacks[index], side))
    return Done()


def _put(work: Work, stack: Stack, end: int) -> None:
    """Put a pin in, and note that there is no room for it where there is none."""
    pin = Fixing(stack=stack.index, kind="pin", end=end)
    work.shop.pins[stack.index] = work.hold(pin)
    work.shop.pinned_together.update(frozenset(pair) for pair in combinations(stack.parts, 2))
    if work.shop.is_muted(stack) or not stack.located:
        return
    among = frozenset(work.there - work.shop.assembly.muted)
    met = work.shop.tables.pin_meets(pin, among)
    shut = work.lie.closes(direction_of(stack.axis * end), frozenset(stack.parts))
    if met or shut:
        cause: Cause = "parts" if met else "bench"
        trouble = PinOutOfReach(
            step=work.number, at=work.step.at, stack=stack.index, cause=cause, blockers=tuple(sorted(met))
        )
        work.shop.troubles.note(trouble)


def _wanted(work: Work, parts: tuple[str, ...], pattern: PinPattern) -> Iterable[int]:
    shop = work.shop
    if pattern.kind == "none":
        return ()
    if pattern.kind == "all":
        return (k for part in parts for k in shop.assembly.stacks_of_part[part] if _shared(work, k))
    if pattern.every is not None:
        return (k for part in parts for row in _rows(work, part) for k in _every(row, pattern.every))
    return shop.chooser.stacks(pattern.holes)


def _rows(work: Work, part: str) -> Iterator[list[int]]:
    """Yield for each row of ``part`` its shared holes, in the order of their numbers."""
    rows: dict[str, list[tuple[int, int]]] = {}
    for hole in work.shop.assembly.placed[part].holes:
        index = work.shop.assembly.stack_of.get(f"{part}.{hole.name}")
        if index is not None and _shared(work, index):
            rows.setdefault(hole.row, []).append((hole.number, index))
    for row in rows.values():
        yield [index for _, index in sorted(row)]


def _every(row: list[int], pitch: int) -> list[int]:
    """Return the 1st, the (1 + pitch)th, .. and the last."""
    return [*row[:: max(1, pitch)], row[-1]]


def _shared(work: Work, index: int) -> bool:
    return work.layers_there(work.shop.assembly.stacks[index]) >= 2


def _takes_pin(work: Work, stack: Stack) -> bool:
    """No second pin, none beside a fastener, and none through a part that has no hole there."""
    shop, index = work.shop, stack.index
    solid = any(not shop.holes.open(index, layer) for layer in stack.layers if layer.part in work.there)
    return index not in shop.pins and index not in shop.filled and not solid
