"""A film at one time: which parts are there and how far off their places, what is in holes, how it lies."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from seqviz.geometry.pose import Array, any_across, frozen, turn_about, unit
from seqviz.scene.film_types import Film, Moment, Move
from seqviz.scene.picture import Scene

__all__ = ["Instant", "Lie", "benches_of", "instant", "lies_of", "seconds_of"]

_MOVING = 0.7
"""Share of a step in which parts move, where something then happens in its holes."""
_A_MOVE, _HOLES, _TURN, _WORDS = 1.2, 1.0, 1.8, 1.0  # seconds
_LONGEST = 8.0
_HAPPENS = ("set", "pin in", "pin out", "drill out")
_SAME = 0.999
_HOME = frozen(np.zeros(3))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Instant:
    """What is there at one time of a step.

    Attributes
    ----------
    offsets
        Each part that is there -> ``(3,)`` mm, how far it is off its place.
    fixed
        Indices into `Film.fixed`, rising: what stands on these parts.
    turned
        How much of the step's turn of the work is done, 0 to 1.
    """

    offsets: Mapping[str, Array]
    fixed: tuple[int, ...]
    turned: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lie:
    """How the work lies on the bench in a step.

    Attributes
    ----------
    after
        ``(3, 3)`` rotation, base frame to the bench's: z is up, y goes forward where forward is level.
    axis, degrees
        The work is turned about ``axis`` (unit vector, base frame) by so much in this step; 0: it is not.
    """

    after: Array
    axis: Array
    degrees: float

    def at(self, turned: float) -> Array:
        """Return the rotation, base frame to the bench's, when ``turned`` (0 to 1) of the turn is done."""
        return np.asarray(self.after @ turn_about(self.axis, self.degrees * (turned - 1.0)))


def instant(film: Film, index: int, time: float) -> Instant:
    """Return what is there at ``time`` of ``film.moments[index]``: 0 before the step, 1 after it."""
    moment = film.moments[index]
    happens = _happens(moment, film)
    span = 1.0 if not happens else _MOVING if moment.moves else 0.0
    offsets = dict(_offsets(moment, min(time / span, 1.0) if span else 1.0, time))
    done = len(happens) if time >= 1.0 else int(len(happens) * max(time - span, 0.0) / (1.0 - span or 1.0))
    fixed = _fixed(moment, frozenset(happens[:done]), film, over=time >= 1.0)
    return Instant(
        offsets=offsets,
        fixed=tuple(k for k in fixed if film.fixed[k].part in offsets),
        turned=_eased(time) if moment.scene.turn is not None else 1.0,
    )


def seconds_of(film: Film, index: int) -> float:
    """Return how long a step is played at speed 1."""
    moment = film.moments[index]
    seconds = _A_MOVE * len({move.piece for move in moment.moves if len(move.path) > 1})
    seconds += _HOLES * bool(_happens(moment, film)) + _TURN * (moment.scene.turn is not None)
    return min(max(seconds, _WORDS), _LONGEST)


def lies_of(film: Film) -> list[Lie]:
    """Return how the work lies in each step.

    A work goes on lying as it did when the same side was last up, whatever was done elsewhere meanwhile.
    """
    lain: dict[int, list[tuple[Array, Array]]] = {}
    found = []
    for bench, scene in zip(benches_of(film), (moment.scene for moment in film.moments), strict=True):
        known = lain.setdefault(bench, [])
        axis, degrees = (_HOME, 0.0) if scene.turn is None else (scene.turn.axis, _degrees(scene))
        if scene.turn is not None:
            before = _lying(known, scene.turn.before, scene.forward)
            after = before @ turn_about(axis, degrees)
        else:
            after = _lying(known, scene.up, scene.forward)
        known.append((scene.up, after))
        found.append(
            Lie(after=frozen(after), axis=axis if degrees else frozen([0.0, 0.0, 1.0]), degrees=degrees)
        )
    return found


def benches_of(film: Film) -> list[int]:
    """Return a number for each step: the same one for all steps of a work that goes on."""
    works: list[frozenset[str]] = []
    found: list[int] = []
    for moment in film.moments:
        there = {item.name for item in moment.scene.items if item.role == "there"}
        there |= {move.part for move in moment.moves if move.leaves}
        after = frozenset(item.name for item in moment.scene.items)
        own = next((k for k in reversed(range(len(works))) if works[k] & there), None)
        # Parts are prepared before the first one lies on the bench: what comes next lies on that bench.
        if own is None and not there and found and not (after and works[found[-1]]):
            own = found[-1]
        if own is None:
            own = len(works)
            works.append(frozenset())
        # What has come into this work is in no other any more.
        works = [after if k == own else parts - after for k, parts in enumerate(works)]
        found.append(own)
    return found


def _happens(moment: Moment, film: Film) -> list[int]:
    """Return the stacks of this step's marks in which something comes or goes, in their order."""
    marked = dict.fromkeys(mark.stack for mark in moment.scene.marks if mark.kind in _HAPPENS)
    changed = {film.fixed[k].stack for k in {*moment.fixed_before} ^ {*moment.fixed}}
    return [stack for stack in marked if stack in changed]


def _offsets(moment: Moment, share: float, time: float) -> Iterator[tuple[str, Array]]:
    """Yield the parts that are there; ``share`` (0 to 1) of the time for moves is over."""
    moves = {move.part: move for move in moment.moves}
    pieces = list(dict.fromkeys(move.piece for move in moment.moves))
    for item in moment.scene.items:
        move = moves.get(item.name)
        if move is None:
            yield item.name, _HOME
            continue
        along = min(max(share * len(pieces) - pieces.index(move.piece), 0.0), 1.0)
        if move.leaves and time < 1.0:
            yield item.name, _on_path(move, 1.0 - _eased(along))
        elif not move.leaves and along > 0.0:
            yield item.name, _on_path(move, _eased(along))


def _on_path(move: Move, along: float) -> Array:
    """Return the offset at ``along`` of a path, 0 outside to 1 in its place, by its length."""
    if along >= 1.0 or len(move.path) == 1:
        return frozen(move.path[-1])
    lengths = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(move.path, axis=0), axis=1))])
    return np.array([np.interp(along * lengths[-1], lengths, axis) for axis in move.path.T])


def _fixed(moment: Moment, done: frozenset[int], film: Film, *, over: bool) -> list[int]:
    if over:
        return list(moment.fixed)
    before = (k for k in moment.fixed_before if film.fixed[k].stack not in done)
    return sorted({*before, *(k for k in moment.fixed if film.fixed[k].stack in done)})


def _degrees(scene: Scene) -> float:
    """Return by how much the work is turned about the axis, so that what was told to come up faces up."""
    assert scene.turn is not None
    across = np.cross(scene.up, scene.turn.before)
    angle = np.degrees(np.arctan2(float(across @ scene.turn.axis), float(scene.up @ scene.turn.before)))
    return float(angle)


def _lying(known: Sequence[tuple[Array, Array]], up: Array, forward: Array) -> Array:
    """Return how work with ``up`` facing up lies: as it did last, else with forward ahead."""
    for side, lie in reversed(known):
        if float(side @ up) > _SAME:
            return lie
    level = forward - up * float(forward @ up)
    ahead = unit(level) if np.linalg.norm(level) > 0.1 else any_across(up)
    return np.array([np.cross(ahead, up), ahead, up])


def _eased(share: float) -> float:
    """Return 0 to 1 with a slow start and a slow end."""
    return share * share * (3.0 - 2.0 * share)
