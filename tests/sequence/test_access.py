"""When can a fastener be set, given what each alternative meets: worked by hand."""

from __future__ import annotations

import pytest

from seqviz.sequence.access import (
    Alternative,
    Batch,
    End,
    Side,
    Stopped,
    fewest,
    free_bits,
    reaching_side,
    stopped,
    undominated,
)
from seqviz.sequence.bench import Direction
from seqviz.sequence.timeline import Lie, Timeline
from tests.sequence.by_hand import vector

UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
# a from step 1, b from step 2, c from step 3; taken off again is possible too: d only during 1 and 2.
WHERE = {"a": 0b11110, "b": 0b11100, "c": 0b11000, "d": 0b00110}
TIMELINE = Timeline(
    steps=4,
    where={part: {None: bits} for part, bits in WHERE.items()},
    placed_at={"a": 1, "b": 2, "c": 3, "d": 1},
    comes={},
    lies={None: (Lie(first=0, last=4, up=vector(0, 0, 1), bench="flat"),)},
).view(())


def _met(*parts: str, out: Direction = UP) -> Alternative:
    return Alternative(blockers=frozenset(parts), directions=(out,))


def _side(*ends: list[Alternative], head: int = 1) -> Side:
    return Side(head=head, ends=tuple(End.of(end) for end in ends))


def test_an_alternative_is_free_while_nothing_that_it_meets_is_there() -> None:
    assert free_bits(_met("b"), TIMELINE) == 0b00011
    assert free_bits(_met("b", "d"), TIMELINE) == 0b00001
    assert free_bits(_met("d"), TIMELINE) == 0b11001
    assert free_bits(_met(out=DOWN), TIMELINE) == 0


def test_every_end_of_a_side_must_be_free_and_one_side_is_enough() -> None:
    good, shut = [_met("c"), _met("a")], [_met("a")]
    assert reaching_side((_side(good, shut), _side(good, head=-1)), TIMELINE, 2) is not None
    side = reaching_side((_side(good, shut), _side(good, head=-1)), TIMELINE, 2)
    assert side is not None
    assert side.head == -1
    assert reaching_side((_side(good, shut),), TIMELINE, 2) is None


def test_last_reachable_step_is_the_highest_earlier_bit_with_all_layers() -> None:
    # At step 4 the ends meet c (from 3) and b (from 2): both were free before 2; the layers are there from 1.
    sides = (_side([_met("c")], [_met("b")]),)
    assert stopped(sides, TIMELINE, 4, 0b11110) == Stopped(cause="parts", blockers=("b", "c"), last=1)
    # Layers complete with step 2 only: never.
    assert stopped(sides, TIMELINE, 4, 0b11100).last is None


def test_presence_with_gaps_gives_the_step_after_the_part_was_taken_off() -> None:
    # d was there during 1 and 2, c from 3: free at 0 only. Without c: free again at 3.
    assert stopped((_side([_met("c", "d")]),), TIMELINE, 4, 0b11111).last == 0
    assert stopped((_side([_met("d")], [_met("a"), _met("c")]),), TIMELINE, 2, 0b11111).last == 0


def test_bench_alone_goes_before_parts() -> None:
    sides = (_side([_met("a")]), _side([_met("c", out=DOWN)], head=-1))
    # At step 2 c is not there yet: only the bench closes the lower end.
    assert stopped(sides, TIMELINE, 2, 0b11111) == Stopped(cause="bench", blockers=(), last=0, above=("a",))
    # At step 4 it is: a and c are one part each; c was placed last.
    assert stopped(sides, TIMELINE, 4, 0b11111) == Stopped(cause="parts", blockers=("c",), last=0)


def test_fewest_prefers_small_then_new() -> None:
    sets = [frozenset("ab"), frozenset("a"), frozenset("c")]
    assert fewest(sets, TIMELINE.placed_at) == frozenset("c")


def test_supersets_and_equals_are_dropped_unless_they_point_elsewhere() -> None:
    kept = undominated([_met("a", "b"), _met("a"), _met("a"), _met("a", "c", out=DOWN)])
    assert kept == (_met("a"), _met("a", "c", out=DOWN))


def test_a_batch_closed_by_the_bench_is_not_computed() -> None:
    def never() -> list[frozenset[str]]:
        pytest.fail("nobody needs to know what it meets")

    closed = End([Batch(directions=[(DOWN,)], ask=never)])
    assert not closed.is_free(TIMELINE, 1)
    assert closed.free_bits(TIMELINE) == 0


def test_a_later_batch_is_not_computed_once_an_earlier_one_is_free() -> None:
    def never() -> list[frozenset[str]]:
        pytest.fail("nobody needs to know what it meets")

    ends = End([Batch(directions=[(UP,)], ask=lambda: [frozenset()]), Batch(directions=[(UP,)], ask=never)])
    assert ends.is_free(TIMELINE, 1)
    assert ends.free_bits(TIMELINE) == 0b11111
