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
    _put(work, {k: work.end_toward(stacks[k], side) for k in new})
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
    pulled = tuple(k for k in shop.chooser.stacks(action.holes) if shop.pins.take(k) is not None)
    return Done(unpinned=pulled)


def move_pins(work: Work, action: MovePins) -> Done:
    """Let the pins in these holes come from another side."""
    shop = work.shop
    side = side_vector(shop.assembly, action.to)
    moved = [k for k in shop.chooser.stacks(action.holes) if k in shop.pins]
    _put(work, {k: work.end_toward(shop.assembly.stacks[k], side) for k in moved})
    return Done()


def _put(work: Work, ends: dict[int, int]) -> None:
    """Put pins in, each from its end, and note those for which there is no room."""
    shop, stacks = work.shop, work.shop.assembly.stacks
    pins = [Fixing(stack=index, kind="pin", end=end) for index, end in ends.items()]
    for pin in pins:
        shop.pins.put(work.hold(pin))
        shop.pinned_together.update(frozenset(pair) for pair in combinations(stacks[pin.stack].parts, 2))
    known = [p for p in pins if not shop.is_muted(stacks[p.stack]) and stacks[p.stack].located]
    among = frozenset(work.there - shop.assembly.muted)
    for pin, met in zip(known, shop.tables.pins_meet(known, among), strict=True):
        stack = stacks[pin.stack]
        if met or work.lie.closes(direction_of(stack.axis * pin.end), frozenset(stack.parts)):
            _note_no_room(work, pin, met)


def _note_no_room(work: Work, pin: Fixing, met: frozenset[str]) -> None:
    cause: Cause = "parts" if met else "bench"
    trouble = PinOutOfReach(
        step=work.number, at=work.step.at, stack=pin.stack, cause=cause, blockers=tuple(sorted(met))
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
