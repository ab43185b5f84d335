"""Where parts are and how each work lies, as bit sets."""

from __future__ import annotations

from dataclasses import replace

import pytest

from seqviz.records.steps import Action, Apart, Note, Sequence, TakeOff, TurnOver
from seqviz.sequence.choose import Chooser
from seqviz.sequence.timeline import Timeline, highest_bit, lowest_bit
from seqviz.sequence.timing import timeline_of
from tests.sequence.by_hand import HERE, model, names, order, piece, place, structure

SKIN = piece("skin", [((0, 0, 0), (10, 10, 1))])
RAIL = piece("rail", [((0, 0, 1), (10, 10, 2))])
CAP = piece("cap", [((0, 0, 2), (10, 10, 3))])
TURN, WORDS = TurnOver(how="sideways"), Note(text="x")
UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)


def _timeline(sequence: Sequence) -> Timeline:
    built = structure(SKIN, RAIL, CAP)
    return timeline_of(built, sequence, Chooser(model("skin", "rail", "cap"), built))


def _off(*texts: str) -> TakeOff:
    return TakeOff(names=names(*texts))


def _apart(sequence: Sequence, *aparts: tuple[str, str | None, set[int]], **words: object) -> Sequence:
    """The steps with these numbers are done on the sub-assembly."""
    work_of = {number: name for name, _, numbers in aparts for number in numbers}
    steps = tuple(replace(step, work=work_of.get(step.number)) for step in sequence.steps)
    told = tuple(
        Apart(name=name, inside=inside, up=None, bench=None, first=min(n), last=max(n), at=HERE)
        for name, inside, n in aparts
    )
    return replace(sequence, steps=steps, apart=tuple(replace(one, **words) for one in told))  # type: ignore[arg-type]


def test_bits_count_from_the_step_that_places_a_part() -> None:
    # Steps 1 rail, 2 turn over, 3 note; bits 0 to 3. The cap never comes.
    timeline = _timeline(order(place("rail"), TURN, WORDS))
    assert timeline.where == {"skin": {None: 0b1111}, "rail": {None: 0b1110}, "cap": {}}
    assert timeline.placed_at == {"skin": 0, "rail": 1}
    view = timeline.view(["skin"])
    assert (view.always, view.all_there(["skin", "rail"])) == (0b1111, 0b1110)
    assert view.any_there(["rail", "cap"]) == 0b1110
    assert view.there(0) == {"skin"}


def test_a_base_that_a_step_places_is_there_from_then() -> None:
    # Steps 1 skin, 2 rail, 3 turn over.
    timeline = _timeline(order(place("skin"), place("rail"), TURN))
    assert timeline.where["skin"] == {None: 0b1110}
    assert timeline.placed_at == {"skin": 1, "rail": 2}


def test_a_second_placing_changes_nothing() -> None:
    again = _timeline(order(place("rail"), place("cap"), place("rail")))
    assert again.placed_at == {"skin": 0, "rail": 1, "cap": 2}


def test_a_part_that_is_taken_off_leaves_a_gap() -> None:
    # On 1, off 2, on 4; placed and taken off within one step leaves nothing.
    timeline = _timeline(order(place("rail"), _off("rail"), WORDS, place("rail"), _off("cap")))
    assert timeline.where["rail"] == {None: 0b110010}
    assert timeline.where["cap"] == {}
    assert timeline.placed_at["rail"] == 1
    assert [timeline.next_there("rail", None, k) for k in (0, 1, 3, 4)] == [1, 4, 4, 5]


def test_parts_of_a_sub_assembly_are_in_its_work_until_it_is_placed() -> None:
    # Steps 1 rail and 2 cap on the set; 3 note; 4 place the set; 5 take it off; 6 place it again.
    actions: tuple[Action, ...] = (
        place("rail"),
        place("cap"),
        WORDS,
        place("set"),
        _off("set"),
        place("set"),
    )
    timeline = _timeline(_apart(order(*actions), ("set", None, {1, 2})))
    assert timeline.where["rail"] == {"set": 0b0101110, None: 0b1010000}
    assert timeline.where["cap"] == {"set": 0b0101100, None: 0b1010000}
    assert timeline.comes["rail"] == {"set": 1, None: 4}
    assert timeline.first_there("set", None) == 4
    assert timeline.first_there("cap", "set") == 2
    # Seen from the rail the skin is there only while both are in one work, and so is the cap.
    view = timeline.view(["rail"])
    assert (view.presence("skin"), view.presence("cap")) == (0b1010000, 0b1111100)
    # Seen from rail and skin, which are together only on the main work, the cap is there then.
    assert timeline.view(["rail", "skin"]).presence("cap") == 0b1010000


def test_a_sub_assembly_within_another_goes_with_it() -> None:
    # 1 cap on the inner set; 2 rail on the outer; 3 the inner into the outer; 4 the outer onto the skin.
    actions: tuple[Action, ...] = (place("cap"), place("rail"), place("inner"), place("outer"), _off("outer"))
    timeline = _timeline(_apart(order(*actions), ("inner", "outer", {1}), ("outer", None, {2, 3})))
    assert timeline.where["cap"] == {"inner": 0b000110, "outer": 0b101000, None: 0b010000}
    assert timeline.where["rail"] == {"outer": 0b101100, None: 0b010000}
    assert timeline.around("inner") == ("inner", "outer", None)
    # From the inner set the rail is there once both are in the outer one.
    assert timeline.next_there("rail", "inner", 1) == 2


def test_the_bench_closes_what_looks_down_at_that_step() -> None:
    # Down is closed until step 2 turns the work over, then up is; sideways never is.
    view = _timeline(order(place("rail"), TURN, WORDS)).view(["rail"])
    assert view.closed([DOWN]) == 0b0011
    assert view.closed([UP]) == 0b1100
    assert view.closed([UP, DOWN]) == 0b1111
    assert view.closed([(1.0, 0.0, 0.0)]) == 0
    assert view.without_bench().closed([UP, DOWN]) == 0


@pytest.mark.parametrize("bench", ["trestles", "blocks"])
def test_trestles_and_blocks_close_nothing(bench: str) -> None:
    view = _timeline(order(place("rail"), TURN, WORDS, bench=bench)).view(["rail"])
    assert view.closed([DOWN]) == 0


def test_a_turn_over_may_change_the_bench_and_what_stands_over_its_edge() -> None:
    # Step 2 turns it onto trestles, step 3 back onto a flat bench with the rail out over its edge.
    onto = TurnOver(how="sideways", bench="trestles")
    back = TurnOver(how="sideways", bench="flat", over_the_edge=names("rail"))
    timeline = _timeline(order(place("rail", "cap"), onto, back, WORDS))
    assert timeline.view(["cap"]).closed([DOWN]) == 0b11011
    assert timeline.view(["rail", "cap"]).closed([DOWN]) == 0b00011
    assert timeline.lie(None, 2).bench == "trestles"


def test_a_sub_assembly_lies_as_it_says_or_as_the_main_work_does_then() -> None:
    # The main work is turned by step 1, the set by step 3.
    actions: tuple[Action, ...] = (TURN, place("rail"), TURN, WORDS, place("set"))
    as_main = _timeline(_apart(order(*actions), ("set", None, {2, 3, 4})))
    assert [list(as_main.lie("set", k).up) for k in (2, 3)] == [[0, 0, -1], [0, 0, 1]]
    # Lower side up at 2, upper at 3 and 4; from 5 on it lies as the main work, lower side up.
    assert as_main.view(["rail"]).closed([UP]) == 0b100100
    assert as_main.view(["rail"]).closed([DOWN]) == 0b011000
    told = _apart(
        order(*actions),
        ("set", None, {2, 3, 4}),
        up=(names("rail")[0], "face", "outside"),
        bench="trestles",
    )
    own = _timeline(told)
    assert list(own.lie("set", 2).up) == [0, 0, 1]
    assert own.view(["rail"]).closed([UP]) == 0b100000


def test_the_ends_of_bit_sets() -> None:
    assert [highest_bit(bits) for bits in (0, 1, 0b1010)] == [None, 0, 3]
    assert [lowest_bit(bits) for bits in (0, 1, 0b1010)] == [None, 0, 1]
