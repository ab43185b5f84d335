"""Presence and sides up as bit sets."""

from __future__ import annotations

from seqviz.records.steps import Note, TurnOver
from seqviz.sequence.choose import Chooser
from seqviz.sequence.timeline import Timeline, highest_bit, timeline_of
from tests.sequence.by_hand import model, order, piece, place, structure

SKIN = piece("skin", [((0, 0, 0), (10, 10, 1))])
RAIL = piece("rail", [((0, 0, 1), (10, 10, 2))])
CAP = piece("cap", [((0, 0, 2), (10, 10, 3))])


def _timeline(*names: str, bench: str = "flat", base_placed: bool = False) -> Timeline:
    built, told = structure(SKIN, RAIL, CAP), model("skin", "rail", "cap")
    first = [place("skin")] if base_placed else []
    sequence = order(
        *first, *(place(name) for name in names), TurnOver(how="sideways"), Note(text="x"), bench=bench
    )
    return timeline_of(built, sequence, Chooser(told, built))


def test_bits_count_from_the_step_that_places_a_part() -> None:
    # Steps 1 rail, 2 turn over, 3 note; bits 0 to 3. The cap never comes.
    timeline = _timeline("rail")
    assert timeline.presence == {"skin": 0b1111, "rail": 0b1110, "cap": 0}
    assert timeline.placed_at == {"skin": 0, "rail": 1}
    assert (timeline.always, timeline.all_there(["skin", "rail"])) == (0b1111, 0b1110)
    assert timeline.any_there(["rail", "cap"]) == 0b1110


def test_a_base_that_a_step_places_is_there_from_then() -> None:
    # Steps 1 skin, 2 rail, 3 turn over, 4 note.
    timeline = _timeline("rail", base_placed=True)
    assert timeline.presence["skin"] == 0b11110
    assert timeline.placed_at == {"skin": 1, "rail": 2}


def test_a_second_placing_changes_nothing() -> None:
    assert _timeline("rail", "cap", "rail").placed_at == {"skin": 0, "rail": 1, "cap": 2}


def test_the_bench_closes_what_looks_down_at_that_step() -> None:
    # Down is closed until step 2 turns the work over, then up is; sideways never is.
    timeline = _timeline("rail")
    assert timeline.closed([(0.0, 0.0, -1.0)]) == 0b0011
    assert timeline.closed([(0.0, 0.0, 1.0)]) == 0b1100
    assert timeline.closed([(0.0, 0.0, 1.0), (0.0, 0.0, -1.0)]) == 0b1111
    assert timeline.closed([(1.0, 0.0, 0.0)]) == 0


def test_trestles_close_nothing() -> None:
    assert _timeline("rail", bench="trestles").closed([(0.0, 0.0, -1.0)]) == 0


def test_highest_bit() -> None:
    assert [highest_bit(bits) for bits in (0, 1, 0b1010)] == [None, 0, 3]
