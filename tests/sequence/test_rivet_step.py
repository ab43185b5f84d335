"""Which holes a step fills, from which side, and the one trouble of each."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from seqviz.assembly.structure import Assembly, Layer
from seqviz.findings import At
from seqviz.records.model import Later, Model, Name
from seqviz.records.steps import Action, HoleFilter, TurnOver
from seqviz.sequence.replay import replay
from seqviz.sequence.replay_types import Replay
from tests.sequence.by_hand import HERE, holes, model, order, piece, place, puller, rivet, step_at, structure

# Stacks 0-3: skin and rail; 2 and 3 have the strap on top as well. Stack 4: the skin alone.
FEET = [(20.0, 20.0), (50.0, 20.0), (80.0, 20.0), (110.0, 20.0)]
SKIN = piece("skin", [((0, 0, 0), (130, 90, 1))], {"rail": FEET, "spare": [(20, 80)]})
RAIL = piece("rail", [((0, 0, 1), (130, 40, 2))], {"foot": FEET})
STRAP = piece("strap", [((65, 0, 2), (130, 40, 3))], {"row": FEET[2:]})
TRAY = structure(SKIN, RAIL, STRAP)
MODEL = model("skin", "rail", "strap")


def _replay(*actions: Action, built: Assembly = TRAY, told: Model = MODEL, **words: Any) -> Replay:
    played, findings = replay(told, built, order(*actions, **words))
    assert findings == []
    assert played is not None
    return played


def _filled(played: Replay) -> list[tuple[int, ...]]:
    return [state.filled for state in played.states]


def test_a_layer_that_comes_later_is_told_at_the_rivet() -> None:
    played = _replay(place("rail"), rivet("rail.foot"), place("strap"))
    told = [(e.step, e.stack, e.missing, e.comes, e.at) for e in played.too_early]
    assert told == [(2, k, ("strap",), (3,), step_at(2)) for k in (2, 3)]
    assert _filled(played) == [(), (0, 1, 2, 3), ()]
    assert played.filled_at == {0: 2, 1: 2, 2: 2, 3: 2}


def test_parts_of_the_same_step_count_and_a_hole_named_again_is_nothing_new() -> None:
    played = _replay(place("rail", "strap"), rivet("rail.foot.4-3"), rivet("strap.row", "rail.foot.1"))
    assert played.too_early == ()
    assert _filled(played) == [(), (3, 2), (0,)]


def test_in_a_list_the_trouble_stands_at_the_name() -> None:
    played = _replay(place("rail"), rivet("rail.foot.1", "rail.foot.3"))
    assert [e.at for e in played.too_early] == [At(file="order.yaml", line=1, column=21)]


@pytest.mark.parametrize(
    ("finished", "later", "told"), [(False, (), True), (True, (), False), (True, ("strap",), True)]
)
def test_a_layer_that_never_comes(finished: bool, later: tuple[str, ...], told: bool) -> None:
    # Finished: the part that is not placed is one finding of its own, unless it is known to come later.
    entries = tuple(Later(holes=(), part=Name(text=n, at=HERE), why="later", at=HERE) for n in later)
    known = replace(MODEL, later=entries)
    played = _replay(place("rail"), rivet("rail.foot.3"), told=known, finished=finished)
    assert [(e.missing, e.comes) for e in played.too_early] == ([(("strap",), (None,))] if told else [])


def test_everything_ready() -> None:
    # Without the strap stacks 0 and 1; stack 4 has one layer. Later and left-open ones are passed over.
    assert _filled(_replay(place("rail"), rivet(), place("strap"), rivet())) == [(), (0, 1), (), (2, 3)]
    later = replace(MODEL, later=(Later(holes=holes("rail.foot.1"), part=None, why="tray", at=HERE),))
    assert _filled(_replay(place("rail"), rivet(), told=later)) == [(), (1,)]
    bare = structure(SKIN, RAIL, STRAP, stacks=tuple(replace(s, fastener=None) for s in TRAY.stacks))
    assert _filled(_replay(place("rail"), rivet(), built=bare)) == [(), ()]


def test_a_layer_without_a_hole_is_never_ready_and_told_by_the_geometry_alone() -> None:
    solid = Layer(part="strap", hole=None, top=3.0, bottom=2.0)
    stacks = tuple(replace(s, layers=(solid, *s.layers[1:])) if s.index == 2 else s for s in TRAY.stacks)
    built = structure(SKIN, RAIL, STRAP, stacks=stacks)
    played = _replay(place("rail", "strap"), rivet(), built=built)
    assert _filled(played) == [(), (0, 1, 3)]
    assert _replay(place("rail"), rivet("rail.foot.3"), built=built).too_early == ()


def test_a_single_layer_named_is_filled_without_a_word() -> None:
    played = _replay(rivet("skin.spare.1"), tools=(puller(),))
    assert _filled(played) == [(4,)]
    assert len(played.too_early + played.tool_stopped) == 0


def test_filters_narrow_names_too() -> None:
    only = HoleFilter(excluded=holes("rail.foot.2"), through=(Name(text="rail", at=HERE),))
    assert _filled(_replay(place("rail"), rivet("skin.rail.1-2", narrowed=only))) == [(), (0,)]
    assert _filled(_replay(place("rail", "strap"), rivet(narrowed=only))) == [(), (0, 2, 3)]


def test_stacks_of_muted_parts_bring_no_trouble() -> None:
    built = structure(SKIN, RAIL, STRAP, muted=frozenset({"strap"}))
    played = _replay(place("rail"), rivet("rail.foot"), built=built, tools=(puller(),))
    assert _filled(played) == [(), (0, 1, 2, 3)]
    assert len(played.too_early + played.tool_stopped) == 0


COVER = piece("cover", [((0, 0, 30), (130, 90, 31))])
COVERED = structure(SKIN, RAIL, COVER)
COVERED_MODEL = model("skin", "rail", "cover")


def _covered(*actions: Action, **words: Any) -> list[tuple[int, int, str, tuple[str, ...], int | None]]:
    told = _replay(*actions, built=COVERED, told=COVERED_MODEL, tools=(puller(),), **words)
    return [(e.step, e.stack, e.cause, e.blockers, e.last) for e in told.tool_stopped]


def test_a_covered_rivet_could_last_be_set_before_the_cover() -> None:
    steps = (place("rail"), TurnOver(how="sideways"), TurnOver(how="sideways"), place("cover"))
    above = rivet("rail.foot.1", head="upper")
    # The work lay on its face during step 2: the last step with the upper side free and up is 3.
    assert _covered(*steps, above) == [(5, 0, "parts", ("cover",), 3)]
    assert _covered(*steps[:3], above) == []


def test_from_below_only_the_bench_is_in_the_way() -> None:
    assert _covered(place("rail", "cover"), rivet("rail.foot.1")) == [(2, 0, "bench", (), None)]
    assert _covered(place("rail", "cover"), rivet("rail.foot.1"), bench="trestles") == []
    assert _covered(place("rail", "cover"), TurnOver(how="sideways"), rivet("rail.foot.1")) == []


@pytest.mark.parametrize(
    ("head", "bench", "side"),
    [
        (None, "flat", 1),
        ("upper", "flat", 1),
        ("lower", "trestles", -1),
        ("outside", "flat", 1),
        ("inside", "trestles", -1),
        ("on rail", "flat", 1),
        ("on skin", "trestles", -1),
        ("on strap", "flat", 1),
    ],
)
def test_side_of_the_head(head: str | None, bench: str, side: int) -> None:
    # Layer 1 is the rail, the skin's outside is its upper face; the strap is no layer of stack 0.
    played = _replay(place("rail"), rivet("rail.foot.1", head=head), tools=(puller(),), bench=bench)
    assert played.tool_stopped == ()
    assert played.states[1].head_sides == {0: side}


def test_the_head_goes_where_it_can_be_reached() -> None:
    covered: dict[str, Any] = {
        "built": COVERED,
        "told": COVERED_MODEL,
        "tools": (puller(),),
        "bench": "trestles",
    }
    played = _replay(place("rail", "cover"), rivet("rail.foot.1"), **covered)
    assert played.tool_stopped == ()
    assert played.states[1].head_sides == {0: -1}
