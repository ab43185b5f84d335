"""What is still told when a step could not be read."""

from __future__ import annotations

from dataclasses import replace

from seqviz.records.steps import Sequence
from seqviz.sequence.replay import replay
from seqviz.sequence.replay_types import Replay
from tests.sequence.by_hand import model, order, piece, place, puller, rivet, structure

HOLES = [(20.0, 10.0), (60.0, 10.0)]
SKIN = piece("skin", [((0, 0, 0), (80, 40, 1))], {"rail": HOLES})
RAIL = piece("rail", [((0, 0, 1), (80, 20, 2))], {"foot": HOLES})
TRAY = structure(SKIN, RAIL)


def _replay(sequence: Sequence) -> Replay:
    played, findings = replay(model("skin", "rail"), TRAY, sequence)
    assert played is not None
    assert findings == []
    return played


def _without(sequence: Sequence, number: int) -> Sequence:
    steps = tuple(step for step in sequence.steps if step.number != number)
    return replace(sequence, steps=steps, broken=(number,))


def test_a_part_that_a_lost_step_may_have_placed_is_not_missed() -> None:
    sequence = order(place("rail"), rivet("rail.foot"))
    assert [e.stack for e in _replay(order(rivet("rail.foot"))).too_early] == [0, 1]
    assert _replay(_without(sequence, 1)).too_early == ()


def test_step_numbers_stay_those_of_the_file() -> None:
    played = _replay(_without(order(rivet("rail.foot.1"), rivet("rail.foot.2"), place("rail")), 1))
    # The hole is filled in step 2 although the rail comes with step 3: a lost step cannot have helped that.
    (early,) = played.too_early
    assert (early.step, early.stack, early.missing, early.comes) == (2, 1, ("rail",), (3,))
    assert played.placed_at == {"skin": 0, "rail": 3}
    assert played.presence["rail"] == 0b1000


def test_a_lost_turn_over_may_have_freed_what_the_bench_closes() -> None:
    steps = (place("rail"), place("skin"), rivet("rail.foot", head="lower"))
    clear = order(*steps, tools=(puller(),))
    assert {e.cause for e in _replay(clear).tool_stopped} == {"bench"}
    lost = _without(clear, 2)
    assert _replay(lost).tool_stopped == ()


def test_without_the_words_above_the_steps_no_tool_is_known() -> None:
    cover = piece("cover", [((0, 0, 50), (80, 40, 51))])
    steps = order(place("rail", "cover"), rivet("rail.foot.1", head="upper"), tools=(puller(),))
    causes = []
    for broken in ((), (1,), (0,)):
        sequence = replace(steps, broken=broken)
        played, _ = replay(model("skin", "rail", "cover"), structure(SKIN, RAIL, cover), sequence)
        assert played is not None
        causes.append([(e.cause, e.blockers) for e in played.tool_stopped])
    # A lost step cannot have taken the cover away; lost words may have named a shorter tool.
    assert causes == [[("parts", ("cover",))], [("parts", ("cover",))], []]
