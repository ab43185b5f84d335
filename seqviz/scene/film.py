"""The whole sequence as a film: each step with its picture, its parts on their true ways, and the fixings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from seqviz.assembly.structure import Assembly
from seqviz.build import Build
from seqviz.geometry.pose import Array, frozen
from seqviz.scene.film_types import Film, Moment, Move
from seqviz.scene.history import pieces_moved
from seqviz.scene.shifts import box_of
from seqviz.scene.step import Scenes, located
from seqviz.sequence.replay_types import StepState

__all__ = ["film_of", "goings", "path_clear_of"]

_CLEAR = 10.0
"""mm: how far clear of the work's box a part starts (project choice)."""

_AT_HOME = frozen(np.zeros((1, 3)))


def film_of(build: Build) -> Film:
    """Return the film of a build with a replayed sequence; one pass over the steps."""
    scenes = Scenes(build)
    moments = []
    for state in scenes.states:
        fixed_before = scenes.standing.numbers_before(state)
        scene = scenes.next()
        moving = {*state.placed, *state.taken_off}
        stays = [item.name for item in scene.items if item.name not in moving]
        pieces = pieces_moved(scenes.replay, state)
        moments.append(
            Moment(
                scene=scene,
                moves=tuple(_moves(build.assembly, located(build.assembly, state), pieces, stays)),
                fixed_before=fixed_before,
                fixed=scenes.standing.numbers_after(state),
            )
        )
    return Film(moments=tuple(moments), fixed=tuple(scenes.standing.fixed))


def path_clear_of(moving: tuple[Array, Array], work: tuple[Array, Array], out: Array, first: Array) -> Array:
    """Return the path of a piece, as `Move` has it, that starts clear of the work.

    Parameters
    ----------
    moving, work
        Lowest and highest corner, ``(3,)`` mm each, of the boxes around the piece in its place and around
        what is there.
    out, first
        ``(3,)`` unit vector of the last move out, and the short move before it, mm; zeros: there is none.
    """
    low, high = moving[0] + first, moving[1] + first
    # Along each axis how far the piece must go, by the sign of its way, until the boxes are apart.
    gap = np.where(out > 0, work[1] - low, high - work[0]) + _CLEAR
    far = np.min(np.maximum(gap, 0.0)[np.abs(out) > 1e-9] / np.abs(out)[np.abs(out) > 1e-9])
    points = [first + out * far, first, np.zeros(3)] if first.any() else [out * far, np.zeros(3)]
    return frozen(points)


def goings(
    state: StepState, pieces: Mapping[str, str], stays: Sequence[str]
) -> Iterator[tuple[str, list[str], list[str]]]:
    """Yield for each piece that comes or goes its name, its parts, and what is there beside it then.

    ``pieces``: part -> what it moves as; ``stays``: the parts that are there before and after the step.
    """
    leaves = bool(state.taken_off)
    members: dict[str, list[str]] = {}
    for part in state.taken_off if leaves else state.placed:
        members.setdefault(pieces[part], []).append(part)
    lots = list(members.values())
    for number, (piece, parts) in enumerate(members.items()):
        # What comes finds those before it there; what is taken off leaves those after it.
        others = lots[number + 1 :] if leaves else lots[:number]
        yield piece, parts, [*stays, *(part for lot in others for part in lot)]


def _moves(
    assembly: Assembly, state: StepState, pieces: Mapping[str, str], stays: Sequence[str]
) -> Iterator[Move]:
    for piece, parts, there in goings(state, pieces, stays):
        path = _path(assembly, state, parts, there)
        leaves = bool(state.taken_off)
        yield from (Move(part=part, piece=piece, path=path, leaves=leaves) for part in parts)


def _path(assembly: Assembly, state: StepState, parts: Sequence[str], there: Sequence[str]) -> Array:
    ways = (way for part in parts if (way := state.ways.get(part)) is not None)
    out = next(ways, None)
    if out is None or not there:
        return _AT_HOME
    firsts = (state.first_moves[part] for part in parts if part in state.first_moves)
    first = next(firsts, np.zeros(3))
    return path_clear_of(box_of(assembly, parts), box_of(assembly, there), out, first)
