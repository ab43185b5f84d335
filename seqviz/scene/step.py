"""One step as a picture: what is there, what is new, which holes it is about, and its words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from seqviz.assembly.structure import Assembly
from seqviz.build import Build
from seqviz.geometry.pose import Array, frozen, unit
from seqviz.records.steps import Drill, TurnOver
from seqviz.scene.history import parts_before, pieces_moved, with_moved_pins
from seqviz.scene.holes import marks_of
from seqviz.scene.picture import Arrow, Item, Label, Role, Scene, Turn
from seqviz.scene.shifts import arrow_of, shifts_of, shifts_off
from seqviz.scene.sides import side_up
from seqviz.scene.standing import Standing
from seqviz.scene.words import words_of_step
from seqviz.sequence.bench import side_vector
from seqviz.sequence.replay_types import StepState

__all__ = ["Scenes", "located", "scene_of_step"]

_NOWHERE = frozen(np.zeros(3))
_MOST_LABELS = 4


def scene_of_step(build: Build, number: int) -> Scene:
    """Return the picture of step ``number`` (from 1) of a build with a replayed sequence."""
    scenes = Scenes(build)
    for state in scenes.states:
        if state.step.number == number:
            return scenes.next()
        scenes.skip()
    raise ValueError(f"there is no step {number}")


class Scenes:
    """The pictures of a build with a replayed sequence, one step after the other.

    Attributes
    ----------
    replay, states
        The steps, with moved pins told as pinned.
    standing
        What stands in the holes before the next step.
    """

    def __init__(self, build: Build) -> None:
        if build.replay is None:
            raise ValueError("a build without a sequence has no steps to draw")
        self._build = build
        self.replay = with_moved_pins(build.model, build.assembly, build.replay)
        self._index = 0
        self._still: dict[str, Item] = {}
        self.states = self.replay.states
        self.standing = Standing(build.model, build.assembly, self.replay)

    def skip(self) -> None:
        """Let the next step be done."""
        self.standing.go(self.states[self._index])
        self._index += 1

    def next(self) -> Scene:
        """Return the picture of the next step, and let it be done."""
        scene = self._scene()
        self.skip()
        return scene

    def _scene(self) -> Scene:
        build, replay, assembly = self._build, self.replay, self._build.assembly
        state = located(assembly, self.states[self._index])
        number = state.step.number
        before = parts_before(assembly, replay, self._index)
        pieces = pieces_moved(replay, state)
        shifts = {**shifts_of(assembly, state, before, pieces), **shifts_off(assembly, state, before)}
        busy = frozenset((*state.filled, *state.tightened, *state.pinned, *state.unpinned, *state.emptied))
        drawn = {**dict.fromkeys(before, _NOWHERE), **shifts}
        return Scene(
            number=number,
            items=tuple(self._items(drawn, frozenset(shifts))),
            fitted=tuple(self.standing.fitted(state, shifts, busy)),
            marks=tuple(marks_of(assembly, replay, state, drawn)),
            arrows=tuple(_arrows(assembly, state, shifts, pieces)),
            labels=tuple(_labels(assembly, state, drawn, tuple(shifts))),
            words=words_of_step(build.model, assembly, replay, self._index),
            up=state.up,
            forward=assembly.forward,
            up_name=side_up(assembly, state.up),
            turn=_turn(build, self._index),
            undrawn=_undrawn(assembly, replay.presence, number),
        )

    def _items(self, drawn: Mapping[str, Array], new: frozenset[str]) -> Iterator[Item]:
        for name, shift in drawn.items():
            if name in new:
                yield _item(self._build.assembly, name, "new", shift)
                continue
            if name not in self._still:
                self._still[name] = _item(self._build.assembly, name, "there", _NOWHERE)
            yield self._still[name]


def located(assembly: Assembly, state: StepState) -> StepState:
    """Return the step without the parts that have no place: nothing can be drawn of them."""
    placed, taken_off = (
        tuple(name for name in names if name in assembly.placed and assembly.placed[name].located)
        for names in (state.placed, state.taken_off)
    )
    return replace(state, placed=placed, taken_off=taken_off)


def _arrows(
    assembly: Assembly, state: StepState, shifts: Mapping[str, Array], pieces: Mapping[str, str]
) -> Iterator[Arrow]:
    """Yield one arrow for each piece that comes or goes."""
    told = set()
    for name, shift in shifts.items():
        piece = pieces.get(name, name)
        if shift.any() and piece not in told:
            told.add(piece)
            yield arrow_of(assembly, name, shift, leaves=name in state.taken_off)


def _undrawn(assembly: Assembly, presence: Mapping[str, int], number: int) -> tuple[str, ...]:
    bare = (name for name, part in assembly.placed.items() if not part.located)
    return tuple(name for name in bare if presence.get(name, 0) >> number & 1)


def _item(assembly: Assembly, name: str, role: Role, shift: Array) -> Item:
    placed = assembly.placed[name]
    return Item(name=name, part=placed.part, pose=placed.pose, role=role, shift=shift)


def _labels(
    assembly: Assembly, state: StepState, drawn: Mapping[str, Array], new: tuple[str, ...]
) -> Iterator[Label]:
    yield from (Label(part=name, wanted=True) for name in new)
    near: Counter[str] = Counter()
    for contact in assembly.contacts:
        if contact.upper in new or contact.lower in new:
            near.update([contact.upper, contact.lower])
    if not new:
        busy = (*state.filled, *state.tightened, *state.drilled, *state.emptied)
        for index in (*busy, *state.pinned, *state.unpinned, *state.left_open):
            near.update(assembly.stacks[index].parts)
    action = state.step.action
    if isinstance(action, Drill) and action.template and action.template.placed in drawn:
        yield Label(part=action.template.placed, wanted=True)
        near.pop(action.template.placed, None)
    others = [name for name, _ in near.most_common() if name in drawn and name not in new]
    yield from (Label(part=name, wanted=False) for name in others[:_MOST_LABELS])


def _turn(build: Build, index: int) -> Turn | None:
    if build.replay is None or build.sequence is None:
        return None
    states = build.replay.states
    action = states[index].step.action
    if not isinstance(action, TurnOver):
        return None
    forward = build.assembly.forward
    own = [state.up for state in states[:index] if state.work == states[index].work]
    before = own[-1] if own else side_vector(build.assembly, build.sequence.up)
    # The work turns the other way round than what faces up does, seen from the work.
    across = np.cross(states[index].up, before)
    level = forward - before * float(forward @ before)
    if np.linalg.norm(across) > 0.1:
        axis = unit(across)
    elif np.linalg.norm(level) < 0.1:
        axis = np.cross(build.assembly.up, forward)
    else:
        axis = unit(level) if action.how == "sideways" else np.cross(before, unit(level))
    return Turn(axis=frozen(axis), before=before)
