"""What to show of a finding: where it is, and the tool, pin or way that something bars."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from seqviz.assembly.entries import entries
from seqviz.build import Build
from seqviz.findings import Finding
from seqviz.geometry.pose import Array, frozen
from seqviz.geometry.prism import Piece
from seqviz.geometry.rounds import prism_around
from seqviz.parts.fitting import standing
from seqviz.scene.film import goings, path_clear_of
from seqviz.scene.film_types import Conflict
from seqviz.scene.history import parts_before, pieces_moved, pin_side
from seqviz.scene.shifts import box_of
from seqviz.scene.spots import hole_spot, middle_of, spot_of, wanted_stacks
from seqviz.scene.step import located
from seqviz.sequence.fixings import body_of_pin
from seqviz.sequence.replay_types import Cause, NoWay, NoWayOut, PinOutOfReach, StepState, ToolStopped

__all__ = ["conflict_of"]

_Trouble = ToolStopped | PinOutOfReach | NoWay | NoWayOut

_KINDS: dict[type[_Trouble], dict[Cause, str]] = {
    ToolStopped: {"parts": "tool-blocked", "bench": "wrong-side-up"},
    PinOutOfReach: {"parts": "pin-out-of-reach", "bench": "pin-out-of-reach"},
    NoWay: {"parts": "no-way-in", "pins": "pin-in-the-way", "bench": "wrong-side-up"},
    NoWayOut: {"parts": "way-out-blocked", "pins": "pin-in-the-way", "bench": "wrong-side-up"},
}
"""The finding that tells of a trouble, by its cause."""


def conflict_of(build: Build, finding: Finding) -> Conflict | None:
    """Return what to show of a finding; None where it is about no place in the structure.

    A finding about a model that another one uses is shown where that first stands.
    """
    inner = next((one for one in build.used if _is_about(one, finding)), None)
    if inner is not None:
        return _lifted(build, inner, conflict_of(inner, finding))
    trouble, spot = _trouble_of(build, finding), spot_of(build, finding)
    if isinstance(trouble, NoWay | NoWayOut):
        return _way(build, finding, trouble)
    if spot is None:
        return None
    blockers = _between(build, finding) if trouble is None else trouble.blockers
    return Conflict(
        spot=spot if trouble is None else _at_stack(build, trouble.stack, spot),
        step=_step_of(build, finding) if trouble is None else trouble.step,
        parts=_placed(build, (*finding.parts, *blockers, *_others(build, finding))),
        blockers=_placed(build, blockers),
        tool=() if trouble is None else _tool(build, trouble),
        path=None,
    )


def _trouble_of(build: Build, finding: Finding) -> _Trouble | None:
    """Return the first trouble of those that a finding tells of."""
    replay = build.replay
    if replay is None:
        return None
    stacks = {build.assembly.stack_of.get(hole) for hole in finding.holes}
    troubles: tuple[_Trouble, ...] = (
        *replay.tool_stopped,
        *replay.pin_out_of_reach,
        *replay.no_way,
        *replay.no_way_out,
    )
    for trouble in troubles:
        told = _KINDS[type(trouble)].get(trouble.cause) == finding.kind
        if told and trouble.at == finding.at and trouble.step in finding.steps:
            if isinstance(trouble, NoWay | NoWayOut):
                if not stacks and {*(trouble.members or (trouble.part,))} <= {*finding.parts}:
                    return trouble
            elif trouble.stack in stacks:
                return trouble
    return None


def _tool(build: Build, trouble: ToolStopped | PinOutOfReach) -> tuple[Piece, ...]:
    """Return what has no room: the tool that the trouble keeps, or the pin's body."""
    if isinstance(trouble, ToolStopped):
        return trouble.tool
    assembly = build.assembly
    side = pin_side(assembly, _state(build, trouble.step)[1], trouble.stack)
    return (prism_around(body_of_pin(assembly.stacks[trouble.stack], side)),)


def _way(build: Build, finding: Finding, trouble: NoWay | NoWayOut) -> Conflict | None:
    """Return the barred way of a part or sub-assembly; of pins the first one is what to look at."""
    assembly = build.assembly
    moved = [part for part in trouble.members or (trouble.part,) if part in assembly.placed]
    standing_there = [part for part in moved if assembly.placed[part].located]
    if not standing_there:
        return None
    holes = (hole_spot(assembly, name) for name in trouble.blockers if "." in name)
    pinned = next((spot for spot in holes if spot is not None), None)
    blockers = _placed(build, trouble.blockers)
    return Conflict(
        spot=middle_of(assembly, standing_there) if pinned is None or blockers else pinned,
        step=trouble.step,
        parts=_placed(build, (*moved, *finding.parts, *blockers)),
        blockers=blockers,
        tool=(),
        path=_barred_path(build, trouble, standing_there),
    )


def _barred_path(build: Build, trouble: NoWay | NoWayOut, parts: list[str]) -> Array | None:
    assembly, replay, way = build.assembly, build.replay, trouble.way
    if replay is None or way is None:
        return None
    index, state = _state(build, trouble.step)
    state = located(assembly, state)
    stays = [part for part in parts_before(assembly, replay, index) if part not in state.taken_off]
    for piece, _, there in goings(state, pieces_moved(replay, state), stays):
        if piece == trouble.part and there:
            first = np.zeros(3) if way.first is None else np.array(way.first) * way.length
            boxes = box_of(assembly, parts), box_of(assembly, there)
            return path_clear_of(*boxes, np.array(way.out), first)
    return None


def _state(build: Build, number: int) -> tuple[int, StepState]:
    """Return the step ``number`` of a build with a replay, and its place among the steps that were read."""
    states = build.replay.states if build.replay else ()
    return next((index, state) for index, state in enumerate(states) if state.step.number == number)


def _step_of(build: Build, finding: Finding) -> int:
    """Return the step in which a finding stands; 0 for one that stands in the model."""
    states = build.replay.states if build.replay else ()
    at = finding.at
    steps = (state.step for state in states if state.step.at.file == at.file and state.step.at <= at)
    return max((step.number for step in steps), default=0)


def _between(build: Build, finding: Finding) -> tuple[str, ...]:
    """Return the two parts between which one can no longer be slid."""
    under = build.replay.under_set if build.replay and finding.kind == "under-set-layer" else ()
    return next((one.between for one in under if one.at == finding.at), ())


def _at_stack(build: Build, stack: int, otherwise: Array) -> Array:
    spot = hole_spot(build.assembly, build.assembly.stacks[stack].holes[0])
    return otherwise if spot is None else spot


def _placed(build: Build, names: Iterable[str]) -> tuple[str, ...]:
    """Return those of ``names`` that are placed parts, each once."""
    return tuple(name for name in dict.fromkeys(names) if name in build.assembly.placed)


def _others(build: Build, finding: Finding) -> tuple[str, ...]:
    """Return the parts of the holes of a finding that names no part, or none that has a place."""
    if _placed(build, finding.parts):
        return ()
    stacks = build.assembly.stacks
    wanted = (part for name in finding.parts for k in wanted_stacks(build, name) for part in stacks[k].parts)
    return (*(hole.partition(".")[0] for hole in finding.holes), *wanted)


def _is_about(inner: Build, finding: Finding) -> bool:
    """Say whether a finding stands in the files of a model that another one uses."""
    sequence = inner.sequence.path if inner.sequence else None
    return finding.at.file in (inner.model.path, sequence)


def _lifted(build: Build, inner: Build, conflict: Conflict | None) -> Conflict | None:
    """Return what is to be shown of a used model where that stands first, as one piece of the structure."""
    using = {name for name, used in build.model.uses.items() if used.model.path == inner.model.path}
    placed, known = build.assembly.placed, entries(build.model)
    there = (name for name, part in placed.items() if part.located and name in known)
    name = next((name for name in there if known[name].record.name in using), None)
    if conflict is None or name is None:
        return None
    pose = placed[name].pose
    return Conflict(
        spot=frozen(pose.points(conflict.spot)),
        step=0,
        parts=(name,),
        blockers=(),
        tool=tuple(standing(piece, pose) for piece in conflict.tool),
        path=None if conflict.path is None else frozen(pose.vectors(conflict.path)),
    )
