"""The steps of a page, and what stands in the holes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from seqviz.build import Build
from seqviz.page.contract import FixingData, MarkData, MoveData, StepData, TurnData
from seqviz.page.numbers import direction, millimetres, place, spans_of
from seqviz.scene.film_types import Film, Fixed, Moment
from seqviz.scene.picture import Scene
from seqviz.sequence.replay_types import StepState

__all__ = ["fixings_data", "steps_data"]

Index = Mapping[str, int]


def steps_data(build: Build, film: Film, index: Index) -> list[StepData]:
    """Return the steps; ``index``: placed part -> its place in the page's list."""
    states = build.replay.states if build.replay else ()
    return [_step(state, moment, index) for state, moment in zip(states, film.moments, strict=True)]


def fixings_data(film: Film, index: Index) -> list[FixingData]:
    """Return all that is ever in a hole."""
    return [_fixing(one, index) for one in film.fixed]


def _step(state: StepState, moment: Moment, index: Index) -> StepData:
    scene = moment.scene
    return {
        "no": state.step.number,
        "title": scene.words.title,
        "lines": list(scene.words.lines),
        "holes": scene.words.holes,
        "work": state.work,
        "up": direction(scene.up),
        "up_name": scene.up_name,
        "turn": _turn(scene),
        "there": sorted(index[item.name] for item in scene.items),
        "moves": list(_moves(moment, index)),
        "fixed_before": spans_of(moment.fixed_before),
        "fixed": spans_of(moment.fixed),
        "marks": list(_marks(scene, index)),
        "hold": state.hold,
        "bare": scene.bare,
        "at": place(state.step.at),
    }


def _turn(scene: Scene) -> TurnData | None:
    if scene.turn is None:
        return None
    return {"axis": direction(scene.turn.axis), "before": direction(scene.turn.before)}


def _moves(moment: Moment, index: Index) -> Iterator[MoveData]:
    for move in moment.moves:
        yield {
            "part": index[move.part],
            "piece": move.piece,
            "path": [millimetres(point) for point in move.path],
            "leaves": move.leaves,
        }


def _marks(scene: Scene, index: Index) -> Iterator[MarkData]:
    """Yield the marks at the ends worked from, where they are once every part is in its place."""
    shifts = {item.name: item.shift for item in scene.items}
    for mark in scene.marks:
        end = mark.ends[0]
        yield {
            "stack": mark.stack,
            "part": index[end.part],
            "kind": mark.kind,
            "at": millimetres(end.point - shifts[end.part]),
            "out": direction(end.outward),
            "wide": millimetres([mark.diameter])[0],
        }


def _fixing(one: Fixed, index: Index) -> FixingData:
    wide, high = millimetres([one.diameter, one.height])
    return {
        "stack": one.stack,
        "part": index[one.part],
        "kind": one.kind,
        "at": millimetres(one.point),
        "out": direction(one.outward),
        "wide": wide,
        "high": high,
    }
