"""The bit-set replay against a naive simulation, on 6,000 random cases without geometry."""

from __future__ import annotations

import random
from collections import Counter
from typing import Any

import numpy as np
import pytest

from seqviz.sequence.replay import replay_on
from seqviz.sequence.replay_types import NoWay, NoWayOut, Replay, StepState
from tests.sequence.as_records import CaseTables, records
from tests.sequence.naive import Case, Told
from tests.sequence.naive_steps import Steps
from tests.sequence.random_cases import random_case

CASES = 6000
BATCHES = 5
TROUBLES = [name for name in Told.__dataclass_fields__ if name != "states"]
CAUSES = ["bench stop", "parts stop", "bench way", "pins way", "parts way", "pins out", "parts out"]


@pytest.mark.parametrize("batch", range(BATCHES))
def test_replay_agrees_with_the_naive_simulation(batch: int) -> None:
    chance = random.Random(1000 + batch)
    met: Counter[str] = Counter()
    for _ in range(CASES // BATCHES):
        case = random_case(chance)
        naive = Steps(case)
        told = naive.run()
        played, findings = replay_on(CaseTables(case), *records(case))
        assert findings == []
        _compare_places(naive, played)
        _compare(case, told, played)
        met.update(name for name in TROUBLES if getattr(told, name))
        met.update(f"{event[2]} stop" for event in told.stopped)
        met.update(f"{event[2]} way" for event in told.no_way)
        met.update(f"{event[2]} out" for event in told.no_way_out)
        met.update("last" for event in told.stopped if event[4] is not None)
        met.update("whole" for event in (*told.no_way, *told.no_way_out) if event[1] in case.subs)
        met.update("bent" for state in played.states if state.first_moves)
    # Every kind of trouble was met often enough in each batch to mean something.
    for kind in (*TROUBLES, *CAUSES, "last", "whole", "bent"):
        assert met[kind] >= 4, (kind, met[kind])


def _compare_places(naive: Steps, played: Replay) -> None:
    for number, moment in enumerate(naive.moments):
        there = {
            part: [work for work, bits in works.items() if bits >> number & 1]
            for part, works in played.where.items()
        }
        assert {part: works for part, works in there.items() if works} == {
            part: [work] for part, work in moment.of.items()
        }
    assert played.filled_at == {k: naive.set_at[k] for k in naive.set}


def _compare(case: Case, told: Told, played: Replay) -> None:
    early = [(e.step, e.stack, list(e.missing), list(e.comes)) for e in played.too_early]
    assert early == told.too_early
    assert [(e.step, e.stack, e.since) for e in played.filled_open] == told.filled_open
    assert [(e.step, e.stack, e.until) for e in played.open_since] == told.open_since
    assert [(e.step, e.part, list(e.stacks)) for e in played.head_under] == told.under
    assert [(e.step, e.part, e.since) for e in played.placed_twice] == told.placed_twice
    assert [(e.step, e.stack, e.since) for e in played.set_twice] == told.set_twice
    off = [(e.step, e.part, list(e.stacks), list(e.set_at)) for e in played.off_when_set]
    assert off == told.off_when_set
    solid = [(e.step, e.stack, list(e.parts), list(e.comes)) for e in played.not_drilled]
    assert solid == told.not_drilled
    assert [(e.step, e.stack) for e in played.still_finger_tight] == told.finger_tight
    assert [(e.step, e.stack) for e in played.pin_out_of_reach] == told.pin_out_of_reach
    assert [(e.step, e.part, list(e.held)) for e in played.loose_at_turn] == told.loose
    assert [(e.step, list(e.stacks), e.pinned) for e in played.closing_unchecked] == told.closing
    assert [(e.step, list(e.stacks)) for e in played.last_chance] == told.last_chance
    _compare_stops(told, played)
    _compare_ways(case, told.no_way, played.no_way)
    _compare_ways(case, told.no_way_out, played.no_way_out)
    for state, (word, done) in zip(played.states, told.states, strict=True):
        _compare_state(state, word, done)


def _compare_stops(told: Told, played: Replay) -> None:
    assert len(played.tool_stopped) == len(told.stopped)
    for event, (step, stack, cause, choices, last) in zip(played.tool_stopped, told.stopped, strict=True):
        assert (event.step, event.stack, event.cause, event.last) == (step, stack, cause, last)
        if cause == "bench":
            assert event.blockers == ()
        else:
            assert frozenset(event.blockers) in choices
            newest = max(max(played.placed_at[p] for p in parts) for parts in choices)
            assert max(played.placed_at[p] for p in event.blockers) == newest


def _compare_ways(case: Case, told: list[Any], played: tuple[NoWay | NoWayOut, ...]) -> None:
    assert len(played) == len(told)
    for event, (step, part, cause, blockers) in zip(played, told, strict=True):
        assert (event.step, event.part, event.cause) == (step, part, cause)
        assert bool(event.members) == (part in case.subs)
        stacks = {
            f"{next(p for p, drilled in s.layers if drilled)}.h.{k + 1}": k for k, s in enumerate(case.stacks)
        }
        named = {stacks[b] for b in event.blockers if b in stacks}
        if cause == "pins":
            assert sorted(named) == blockers
        elif cause == "parts":
            assert ({b for b in event.blockers if b not in stacks}, named) in blockers


def _compare_state(state: StepState, word: str, done: Any) -> None:
    assert list(state.placed) == (done[0] if word == "place" else [])
    assert list(state.taken_off) == (done[0] if word == "take_off" else [])
    assert list(state.filled) == (done[0] if word in ("rivet", "bolt") else [])
    assert list(state.left_open) == (done if word == "leave_open" else [])
    assert list(state.drilled) == (done if word == "drill" else [])
    assert list(state.emptied) == (done if word == "drill_out" else [])
    assert state.hold == (word == "check")
    if word == "place":
        assert list(state.pinned) == done[2]
        _compare_moves(state, done[0], done[1])
    elif word == "take_off":
        assert list(state.unpinned) == done[2]
        _compare_moves(state, done[0], done[1])
    elif word in ("rivet", "bolt"):
        assert state.head_sides == done[1]
        assert list(state.unpinned) == done[2]
        assert list(state.tightened) == done[3]
    elif word == "pull":
        assert list(state.unpinned) == done


def _compare_moves(state: StepState, parts: list[str], wanted: list[Any]) -> None:
    for part, moves in dict(zip(parts, wanted, strict=True)).items():
        way = state.ways[part]
        assert (way is None) == (moves is None)
        assert way is None or np.allclose(way, moves[1])
        first = moves[0] if moves else None
        assert (part in state.first_moves) == (first is not None)
