"""The bit-set replay against a naive simulation, on 5,000 random cases without geometry."""

from __future__ import annotations

import random
from collections import Counter
from typing import Any

import numpy as np
import pytest

from seqviz.sequence.replay import replay_on
from seqviz.sequence.replay_types import Replay
from tests.sequence.as_records import CaseTables, random_case, records
from tests.sequence.naive import Case, Naive, Told

CASES = 5000
BATCHES = 10


@pytest.mark.parametrize("batch", range(BATCHES))
def test_replay_agrees_with_the_naive_simulation(batch: int) -> None:
    chance = random.Random(1000 + batch)
    met: Counter[str] = Counter()
    for _ in range(CASES // BATCHES):
        case = random_case(chance)
        told = Naive(case).run()
        played, findings = replay_on(CaseTables(case), *records(case))
        assert findings == []
        _compare(case, told, played)
        met.update({name: 1 for name in Told.__dataclass_fields__ if getattr(told, name)})
        met.update(f"{event[2]} stop" for event in told.stopped)
        met.update(f"{event[2]} way" for event in told.no_way)
        met.update("last" for event in told.stopped if event[4] is not None)
    # Every kind of trouble was met often enough in each batch to mean something.
    for kind in ("too_early", "stopped", "no_way", "under", "filled_open", "open_since", "last"):
        assert met[kind] >= 8, kind
    for kind in ("bench stop", "parts stop", "bench way", "pins way", "parts way"):
        assert met[kind] >= 8, kind


def _compare(case: Case, told: Told, played: Replay) -> None:
    early = [(e.step, e.stack, list(e.missing), list(e.comes)) for e in played.too_early]
    assert early == told.too_early
    assert [(e.step, e.stack, e.since) for e in played.filled_open] == told.filled_open
    assert [(e.step, e.stack, e.until) for e in played.open_since] == told.open_since
    assert [(e.step, e.part, list(e.stacks)) for e in played.head_under] == told.under
    _compare_stops(told, played)
    _compare_ways(case, told, played)
    for state, done in zip(played.states, told.states, strict=True):
        _compare_state(state, done)


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


def _compare_ways(case: Case, told: Told, played: Replay) -> None:
    assert len(played.no_way) == len(told.no_way)
    for event, (step, part, cause, blockers) in zip(played.no_way, told.no_way, strict=True):
        assert (event.step, event.part, event.cause) == (step, part, cause)
        stacks = {
            f"{next(p for p, drilled in s.layers if drilled)}.h.{k + 1}": k for k, s in enumerate(case.stacks)
        }
        named = {stacks[b] for b in event.blockers if b in stacks}
        if cause == "pins":
            assert [f"stack {k}" for k in sorted(named)] == blockers
        elif cause == "parts":
            assert (frozenset(b for b in event.blockers if b not in stacks), named) in blockers


def _compare_state(state: Any, done: tuple[Any, ...]) -> None:
    assert list(state.placed) == (done[1] if done[0] == "place" else [])
    assert list(state.filled) == (done[1] if done[0] == "rivet" else [])
    assert list(state.left_open) == (done[1] if done[0] == "open" else [])
    if done[0] == "place":
        assert list(state.pinned) == done[3]
        for way, wanted in zip(state.ways.values(), done[2], strict=True):
            assert (way is None) == (wanted is None)
            assert way is None or np.allclose(way, wanted)
    elif done[0] == "rivet":
        assert state.head_sides == done[2]
        assert list(state.unpinned) == done[3]
    elif done[0] == "pull":
        assert list(state.unpinned) == done[1]
