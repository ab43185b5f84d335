"""What stands in the holes while the steps go by: heads, tails and pins, each with the part that it is on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from seqviz.assembly.fastening import sunk_in
from seqviz.assembly.structure import Assembly, Stack
from seqviz.geometry.pose import Array, frozen
from seqviz.records.model import Model
from seqviz.scene.fasteners import fastener_of
from seqviz.scene.film_types import Fixed
from seqviz.scene.history import InHoles, pieces_moved
from seqviz.scene.holes import end_of
from seqviz.scene.picture import Fitted
from seqviz.sequence.replay_types import Replay, StepState
from seqviz.trade.heads import head_size, tail_size

__all__ = ["Standing", "StandsIn"]

# A pin's body as drawn, times the hole's diameter: wide and tall enough to be seen, project choice.
_PIN_WIDTH, _PIN_HEIGHT = 1.7, 4.0

# mm: a flush head is drawn as a disc so thin that it only shows where it is, project choice.
_FLUSH_HEIGHT = 0.1

StandsIn = dict[int, tuple[int, ...]]
"""Stack -> numbers of what stands in it, in `Standing.fixed`."""

_Key = tuple[int, str, str, bool, str | None]


class Standing:
    """Goes through the steps; what a step does not touch is not looked at again.

    Attributes
    ----------
    fixed
        Everything that stood in a hole so far, each once.
    """

    def __init__(self, model: Model, assembly: Assembly, replay: Replay) -> None:
        self._model = model
        self._assembly = assembly
        self._replay = replay
        self._holes = InHoles(assembly, replay)
        self._works: dict[str | None, StandsIn] = {}
        self._told: dict[str | None, tuple[int, ...]] = {}
        self._numbers: dict[_Key, int] = {}
        self._still: list[Fitted] = []
        self._apart = frozenset(work for works in replay.where.values() for work in works)
        self.fixed: list[Fixed] = []

    def before(self, state: StepState) -> StandsIn:
        """Return what stands in the holes before ``state``, the next step; not to be changed.

        What was set in a sub-assembly that comes with it is in its holes already.
        """
        own = self._works.get(state.work, {})
        coming = [self._works.get(piece, {}) for piece in self._pieces(state) if state.placed]
        return {index: some for one in (own, *coming) for index, some in one.items()} if coming else own

    def numbers_before(self, state: StepState) -> tuple[int, ...]:
        """Return the same as numbers, rising."""
        works = [state.work, *(self._pieces(state) if state.placed else ())]
        told = [self._numbers_of(work) for work in dict.fromkeys(works)]
        return told[0] if len(told) == 1 else tuple(sorted(set().union(*told)))

    def numbers_after(self, state: StepState) -> tuple[int, ...]:
        """Return what stands in the holes of its work after ``state``, the step gone last, rising."""
        return self._numbers_of(state.work)

    def go(self, state: StepState) -> None:
        """Go one step on."""
        self._holes.go(state)
        touched = dict.fromkeys((*state.pinned, *state.unpinned, *state.filled, *state.emptied))
        moved = (*state.placed, *state.taken_off)
        stacks_of = self._assembly.stacks_of_part
        touched |= dict.fromkeys(k for part in moved for k in stacks_of.get(part, ()))
        for work in dict.fromkeys((state.work, *self._pieces(state))) if touched else ():
            self._look_again(state, work, touched)

    def fitted(
        self, state: StepState, shifts: Mapping[str, Array], busy: frozenset[int]
    ) -> tuple[Fitted, ...]:
        """Return what stands in the holes before ``state`` as it is drawn; ``shifts``: part -> mm.

        Stacks with a mark, ``busy``, are left out.
        """
        stands, still = self.before(state), self._still
        moved = {k for part in shifts for k in self._assembly.stacks_of_part[part]} - busy
        passed = busy | moved
        # In one go: late in a long sequence these are ten thousand and more.
        found = [still[number] for index, some in stands.items() if index not in passed for number in some]
        for number in (number for index in sorted(moved) for number in stands.get(index, ())):
            one, shift = self.fixed[number], shifts.get(self.fixed[number].part)
            found.append(still[number] if shift is None else _fitted(one, one.point + shift))
        return tuple(found)

    def _pieces(self, state: StepState) -> list[str]:
        """Return the sub-assemblies that come or go."""
        pieces = dict.fromkeys(pieces_moved(self._replay, state).values())
        return [piece for piece in pieces if piece in self._apart]

    def _numbers_of(self, work: str | None) -> tuple[int, ...]:
        if work not in self._told:
            numbers = [number for some in self._works.get(work, {}).values() for number in some]
            self._told[work] = tuple(sorted(numbers))
        return self._told[work]

    def _look_again(self, state: StepState, work: str | None, stacks: Mapping[int, None]) -> None:
        """Find out what stands in some ``stacks`` of a work after ``state``."""
        # A copy: what was told before this step stays as it was.
        stands = dict(self._works.get(work, {}))
        for index in stacks:
            numbers = tuple(self._in_stack(state, work, index))
            if numbers:
                stands[index] = numbers
            else:
                stands.pop(index, None)
        self._works[work] = stands
        self._told.pop(work, None)

    def _in_stack(self, state: StepState, work: str | None, index: int) -> Iterator[int]:
        holes, stack = self._holes, self._assembly.stacks[index]
        if index not in holes.heads and index not in holes.pins:
            return
        there = holes.layers_there(state, index, work)
        if not holes.is_held(index, there) or not stack.located:
            return
        drawn = [part for part in stack.parts if part in there and self._assembly.placed[part].located]
        if not drawn:
            return
        if index in holes.heads:
            yield from self._heads(stack, drawn, holes.heads[index], holes.used.get(index))
        if index in holes.pins:
            part = drawn[0] if holes.pins[index] > 0 else drawn[-1]
            yield self._number(stack, "pin", part, holes.pins[index], None)

    def _heads(self, stack: Stack, drawn: list[str], side: int, use: str | None) -> Iterator[int]:
        near, far = (drawn[0], drawn[-1]) if side > 0 else (drawn[-1], drawn[0])
        yield self._number(stack, "head", near, side, use)
        yield self._number(stack, "tail", far, -side, use)

    def _number(self, stack: Stack, kind: str, part: str, side: int, use: str | None) -> int:
        """Return the number of what stands on ``part`` at a side of the stack (+1: layer 1's)."""
        key = (stack.index, kind, part, side > 0, use)
        if key not in self._numbers:
            self._numbers[key] = len(self.fixed)
            one = self._fixed(stack, kind, part, side, use)
            self.fixed.append(one)
            self._still.append(_fitted(one, one.point))
        return self._numbers[key]

    def _fixed(self, stack: Stack, kind: str, part: str, side: int, use: str | None) -> Fixed:
        if kind == "pin":
            diameter, height = _PIN_WIDTH * stack.diameter, _PIN_HEIGHT * stack.diameter
        else:
            diameter, height = self._end_size(stack, kind, use)
        end = end_of(stack, part, side)
        return Fixed(
            stack=stack.index,
            part=part,
            kind=kind,
            point=end.point,
            outward=end.outward,
            diameter=diameter,
            height=height,
        )

    def _end_size(self, stack: Stack, kind: str, use: str | None) -> tuple[float, float]:
        """Return how wide and high a head or tail is drawn, mm."""
        one = fastener_of(self._model, stack, use)
        if kind == "tail":
            tail = tail_size(one.kind, one.diameter)
            return tail.diameter, tail.height
        name = use or stack.fastener
        sunk = sunk_in(self._model, name, stack.diameter, countersunk=stack.countersunk)
        if sunk is not None:
            return sunk.diameter, _FLUSH_HEIGHT
        head = head_size(one.kind, one.diameter)
        return head.diameter, head.height


def _fitted(one: Fixed, point: Array) -> Fitted:
    return Fitted(
        stack=one.stack,
        point=frozen(point),
        outward=one.outward,
        diameter=one.diameter,
        height=one.height,
        pin=one.kind == "pin",
    )
