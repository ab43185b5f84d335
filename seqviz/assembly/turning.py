"""Parts whose spare holes would lie on other spare holes if the part lay with its other face down."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from seqviz.assembly.entries import Entry
from seqviz.assembly.fitting import LINE, default_face
from seqviz.assembly.structure import Assembly, Stack
from seqviz.geometry.pose import Array, unit

__all__ = ["Turn", "turns_that_join"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """The placed ``part`` turned over, so that its ``face`` lies down."""

    part: str
    face: str


def turns_that_join(assembly: Assembly, known: dict[str, Entry], alone: Iterable[Stack]) -> dict[int, Turn]:
    """Return for stacks ``alone`` the turn that brings the hole of another part there.

    A part that holes in one line hold can be turned over about that line; holes that have no partner move.
    """
    wanted = [stack for stack in alone if stack.located]
    found: dict[int, Turn] = {}
    if not wanted:
        return found
    spare = [stack for stack in assembly.stacks if stack.located and len(_drilled(stack)) == 1]
    points = np.array([stack.point for stack in spare])
    for part in sorted({name for stack in spare for name in _drilled(stack)} & known.keys()):
        own = np.array([_drilled(stack) == {part} for stack in spare])
        line = _line_of_holes(assembly, part)
        if line is None:
            continue
        moved = _turned(points[own], *line)
        for stack in wanted:
            mine = _drilled(stack) == {part}
            spots = moved if not mine else points[~own]
            here = stack.point if not mine else _turned(stack.point[None], *line)[0]
            if np.any(_beside(spots - here, stack.axis) < stack.diameter / 2):
                found[stack.index] = Turn(part=part, face=_other_face(assembly, known[part]))
    return found


def _drilled(stack: Stack) -> set[str]:
    return {layer.part for layer in stack.layers if layer.hole}


def _turned(points: Array, start: Array, along: Array) -> Array:
    """Return ``(n, 3)`` points turned half round about a line."""
    away = points - start
    return np.asarray(start + 2 * np.outer(away @ along, along) - away)


def _beside(away: Array, axis: Array) -> Array:
    """Return how far ``(n, 3)`` vectors lead off the axis, mm."""
    return np.asarray(np.linalg.norm(away - np.outer(away @ axis, axis), axis=1))


def _line_of_holes(assembly: Assembly, part: str) -> tuple[Array, Array] | None:
    """Return the start and the direction of the line of the holes that hold the part, if they are in line."""
    stacks = [assembly.stacks[k] for k in assembly.stacks_of_part[part]]
    spots = np.array([stack.point for stack in stacks if len(_drilled(stack)) > 1 and stack.located])
    if len(spots) < 2:
        return None
    along = unit(spots[-1] - spots[0]) if np.any(spots[-1] != spots[0]) else np.zeros(3)
    return (spots[0], along) if _beside(spots - spots[0], along).max() < LINE else None


def _other_face(assembly: Assembly, entry: Entry) -> str:
    part = assembly.placed[entry.name].part
    face = entry.record.face or default_face(part, part.holes[0])
    return "inside" if face == "outside" else "outside"
