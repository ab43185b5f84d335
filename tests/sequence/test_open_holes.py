"""Holes left open: until when, and what fills them too early."""

from __future__ import annotations

from seqviz.records.steps import Action, LeaveOpen, OpenNoLonger
from seqviz.sequence.replay import replay
from seqviz.sequence.replay_types import Replay
from tests.sequence.by_hand import holes, model, order, piece, pins, place, rivet, step_at, structure

FEET = [(10.0 * k, 10.0) for k in range(1, 5)]
SKIN = piece("skin", [((0, 0, 0), (90, 90, 1))], {"rail": FEET})
RAIL = piece("rail", [((0, 0, 1), (90, 20, 2))], {"foot": FEET})
CAP = piece("cap left", [((0, 50, 1), (90, 70, 2))])
LID = piece("cap right", [((0, 70, 1), (90, 90, 2))])


def _replay(*actions: Action) -> Replay:
    told = model("skin", "rail", "cap", both=frozenset({"cap"}))
    played, findings = replay(told, structure(SKIN, RAIL, CAP, LID), order(*actions))
    assert findings == []
    assert played is not None
    return played


def _open(*texts: str, reason: str | None = None) -> LeaveOpen:
    return LeaveOpen(holes=holes(*texts), reason=reason)


def _windows(played: Replay) -> list[tuple[int, int, int | None]]:
    return [(window.stack, window.step, window.until) for window in played.open_since]


def test_filled_by_name_it_is_a_trouble_and_everything_ready_passes_it_over() -> None:
    played = _replay(place("rail"), _open("rail.foot.2-3"), rivet("rail.foot.2"), rivet())
    assert played.states[1].left_open == (1, 2)
    (trouble,) = played.filled_open
    assert (trouble.step, trouble.stack, trouble.since, trouble.at) == (3, 1, 2, step_at(3))
    assert [state.filled for state in played.states] == [(), (), (1,), (0, 3)]
    assert _windows(played) == [(1, 2, None), (2, 2, None)]
    assert [window.at for window in played.open_since] == [step_at(2)] * 2


def test_it_ends_with_the_part_that_it_waits_for() -> None:
    steps = (place("rail"), _open("rail.foot.1", reason="cap left"), place("cap left"), rivet("rail.foot.1"))
    played = _replay(*steps)
    assert played.filled_open == ()
    assert _windows(played) == [(0, 2, 3)]


def test_a_bare_name_waits_for_both_twins() -> None:
    steps: list[Action] = [
        place("rail"),
        _open("rail.foot.1", reason="cap"),
        place("cap left"),
        place("cap right"),
    ]
    assert _windows(_replay(*steps)) == [(0, 2, 4)]
    (trouble,) = _replay(*steps[:3], rivet("rail.foot.1"), steps[3]).filled_open
    assert (trouble.step, trouble.since) == (4, 2)


def test_any_other_text_waits_for_open_no_longer() -> None:
    played = _replay(
        place("rail"),
        _open("rail.foot.1-2", reason="the wiring"),
        place("cap"),
        OpenNoLonger(holes=holes("rail.foot.1")),
        rivet("rail.foot.1"),
    )
    assert _windows(played) == [(0, 2, 4), (1, 2, None)]
    assert played.filled_open == ()


def test_a_pin_does_not_fill_it() -> None:
    played = _replay(_open("skin.rail.1"), place("rail", pattern=pins("all")))
    assert played.states[1].pinned == (0, 1, 2, 3)
    assert played.filled_open == ()
