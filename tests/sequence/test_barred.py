"""Which tools, rooms and corridors are shown of a fastener that nothing reaches; worked by hand."""

from __future__ import annotations

from functools import partial

from seqviz.geometry.access import Cylinder
from seqviz.geometry.pose import frozen
from seqviz.geometry.prism import Piece
from seqviz.geometry.rounds import prism_around
from seqviz.sequence.access import Batch, End, Side, stopped
from seqviz.sequence.barred import barred_tool
from seqviz.sequence.bench import Direction
from tests.sequence.test_access import DOWN, TIMELINE, UP

Told = tuple[frozenset[str], Direction]


def met(*parts: str, out: Direction = UP) -> Told:
    return frozenset(parts), out


def solid(name: int, number: int) -> tuple[Piece, ...]:
    """Return a piece by whose height one knows of which alternative it is: 10 x the end, and its number."""
    return (
        prism_around(
            Cylinder(start=frozen([0, 0, 0]), axis=frozen([0, 0, 1]), length=10.0 * name + number, radius=1.0)
        ),
    )


def end(name: int, *told: Told) -> End:
    return End(
        [
            Batch(
                directions=[(out,) for _, out in told],
                ask=lambda: [parts for parts, _ in told],
                solid=partial(solid, name),
            )
        ]
    )


def shown(*sides: Side, step: int = 4) -> list[float]:
    """Return the heights of the pieces shown when it is stopped after ``step``; at 4 a, b and c are there."""
    why = stopped(sides, TIMELINE, step, 0b11111)
    return [p.height for p in barred_tool(sides, TIMELINE, step, why)]  # type: ignore[union-attr]


def test_of_two_ends_that_which_is_stopped_by_the_fewest() -> None:
    # End 1 wants both a and b away or a alone; end 2 meets nothing in its second alternative.
    assert shown(Side(head=1, ends=(end(1, met("a", "b"), met("a")), end(2, met("a"), met())))) == [11.0]


def test_both_ends_where_both_are_stopped() -> None:
    assert shown(Side(head=1, ends=(end(1, met("a")), end(2, met("c"))))) == [10.0, 20.0]


def test_the_side_of_which_is_told() -> None:
    front, back = (Side(head=1, ends=(end(1, met("a", "b")),)), Side(head=-1, ends=(end(2, met("d")),)))
    # d is there during steps 1 and 2: one part in the way instead of two.
    assert shown(front, back, step=2) == [20.0]
    assert shown(front) == [10.0]


def test_what_the_bench_stops_and_nothing_else() -> None:
    side = Side(head=1, ends=(end(1, met("a"), met(out=DOWN)), end(2, met(out=DOWN), met())))
    assert shown(side) == [11.0]


def test_where_solids_are_not_known_nothing_is_shown() -> None:
    plain = Side(head=1, ends=(End([Batch(directions=[(UP,)], ask=lambda: [frozenset({"a"})])]),))
    assert shown(plain) == []
