"""The way in of a part, what closes it, and heads under it."""

from __future__ import annotations

from typing import Any

import numpy as np

from seqviz.assembly.structure import Assembly
from seqviz.findings import At
from seqviz.records.steps import Action, PullPins, TurnOver
from seqviz.sequence.replay import replay
from seqviz.sequence.replay_types import Replay
from tests.sequence.by_hand import Box, holes, model, order, piece, pins, place, rivet, step_at, structure
from tests.sequence.enumerating import well

HOLE = [(50.0, 50.0)]


def _replay(built: Assembly, *actions: Action, **words: Any) -> Replay:
    played, findings = replay(model(*built.placed), built, order(*actions, **words))
    assert findings == []
    assert played is not None
    return played


def _troubles(played: Replay) -> list[tuple[int, str, str, tuple[str, ...]]]:
    return [(e.step, e.part, e.cause, e.blockers) for e in played.no_way]


FLOOR = piece("well", well(100, 100, 40))
LOW = piece("low", [((10, 10, 0), (90, 90, 10))])
HIGH = piece("high", [((10, 10, 10), (90, 90, 20))])


def test_the_way_out_nearest_to_the_side_that_the_part_lies_on() -> None:
    played = _replay(structure(FLOOR, LOW, HIGH), place("low", "high"))
    assert {name: list(way) for name, way in played.states[0].ways.items() if way is not None} == {
        "low": [0, 0, 1],
        "high": [0, 0, 1],
    }
    assert played.states[0].placed == ("low", "high")


def test_a_part_that_is_covered_has_no_way_in() -> None:
    # The well is open at the top only, and the high one is there.
    played = _replay(structure(FLOOR, LOW, HIGH), place("high"), place("low"))
    assert _troubles(played) == [(2, "low", "parts", ("high",))]
    assert played.no_way[0].at == step_at(2)
    assert played.states[1].ways == {"low": None}
    # It counts as placed all the same; within one step the order written decides.
    assert played.placed_at == {"well": 0, "high": 1, "low": 2}
    together = _replay(structure(FLOOR, LOW, HIGH), place("high", "low"))
    assert _troubles(together) == [(1, "low", "parts", ("high",))]
    assert together.no_way[0].at == At(file="order.yaml", line=1, column=21)


def test_muted_parts_have_no_way_and_are_in_nobodys_way() -> None:
    built = structure(FLOOR, LOW, HIGH, muted=frozenset({"high"}))
    played = _replay(built, place("high"), place("low"))
    assert _troubles(played) == []
    assert played.states[0].ways == {"high": None}


def test_a_second_placing_is_passed_over() -> None:
    played = _replay(structure(FLOOR, LOW, HIGH), place("low"), place("high"), place("low"))
    assert [state.placed for state in played.states] == [("low",), ("high",), ()]
    assert _troubles(played) == []


# A frame of walls without a floor: what lies in it goes up or down.
WALLS = piece("walls", well(100, 100, 40, floor=False))


def test_a_part_from_below_is_closed_by_the_bench_until_the_work_is_turned() -> None:
    built = structure(WALLS, HIGH, LOW)
    assert _troubles(_replay(built, place("high"), place("low"))) == [(2, "low", "bench", ())]
    turned = _replay(built, place("high"), TurnOver(how="sideways"), place("low"))
    assert _troubles(turned) == []
    assert np.allclose(turned.states[2].ways["low"], [0, 0, -1])  # type: ignore[arg-type]
    assert _troubles(_replay(built, place("high"), place("low"), bench="trestles")) == []


SKIN = piece("skin", [((0, 0, 0), (100, 100, 1))], {"row": HOLE})
STRAP = piece("strap", [((30, 30, 1), (70, 70, 2))], {"row": HOLE})
TOP = piece("top", [((20, 20, 2), (80, 80, 3))], {"row": HOLE})


def test_a_pin_through_its_own_hole_closes_every_way() -> None:
    built = structure(SKIN, STRAP, TOP)
    steps = (place("strap", pattern=pins("all")), place("top"))
    played = _replay(built, *steps)
    assert _troubles(played) == [(2, "top", "pins", ("top.row.1",))]
    pulled = _replay(built, steps[0], PullPins(holes=holes("strap.row.1")), steps[1])
    assert _troubles(pulled) == []


def test_a_fastener_set_too_early_is_told_at_the_fastener_only() -> None:
    played = _replay(structure(SKIN, STRAP, TOP), place("strap"), rivet("strap.row.1"), place("top"))
    assert [(e.step, e.missing, e.comes) for e in played.too_early] == [(2, ("top",), (3,))]
    assert len(played.no_way + played.head_under) == 0


# Its edge at x = 48 covers half of the head, 6.4 wide, on the strap at z = 2.
EDGE = piece("edge", [((0, 30, 2), (48, 70, 3))])


def test_a_part_on_a_set_head_is_one_trouble() -> None:
    built = structure(SKIN, STRAP, EDGE, stacks=structure(SKIN, STRAP).stacks)
    played = _replay(built, place("strap"), rivet("strap.row.1"), place("edge"))
    assert [(e.step, e.part, e.stacks, e.at) for e in played.head_under] == [(3, "edge", (0,), step_at(3))]
    assert played.no_way == ()
    assert np.allclose(played.states[2].ways["edge"], [0, 0, 1])  # type: ignore[arg-type]
    assert _replay(built, place("strap"), place("edge"), rivet("strap.row.1")).head_under == ()


def test_a_set_head_on_the_only_way_is_named_by_its_hole() -> None:
    # A slide in a tunnel open at its low-x end, beyond a rivet whose head stands in the tunnel's mouth.
    tunnel: list[Box] = [
        ((0, 30, -1), (200, 70, 0)),
        ((60, 30, 0), (200, 40, 20)),
        ((60, 60, 0), (200, 70, 20)),
        ((60, 40, 10), (200, 60, 20)),
        ((190, 40, 0), (200, 60, 10)),
    ]
    base = piece("tunnel", tunnel, {"row": [(30.0, 50.0)]})
    strap = piece("strap", [((20, 45, -2), (40, 55, -1))], {"row": [(30.0, 50.0)]})
    slide = piece("slide", [((100, 40, 0), (140, 60, 10))])
    built = structure(base, strap, slide)
    played = _replay(built, place("strap"), rivet("tunnel.row.1"), place("slide"), bench="trestles")
    assert _troubles(played) == [(3, "slide", "parts", ("strap.row.1",))]
    assert _troubles(_replay(built, place("strap", "slide"), rivet("tunnel.row.1"), bench="trestles")) == []
