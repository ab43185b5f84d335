"""Counted orders: enumerate them and ask the replay which are clean.

The numbers are those of the project's reference page on sequencing, set A, computed there by brute force on
the abstract orders; 48 for the subsets of three things was also read in a published answer.
"""

from __future__ import annotations

from itertools import product

import pytest

from seqviz.assembly.structure import PlacedPart
from seqviz.records.steps import Action
from seqviz.sequence.tables import Way
from tests.sequence.by_hand import Box, piece, place, puller, rivet, structure
from tests.sequence.enumerating import Asking, brick, in_a_well, well

CHAIN = {f"p{k}": [brick(0, 20, k)] for k in range(6)}
ANTICHAIN = {f"p{k}": [brick(20 * k, 20 * k + 20, 0)] for k in range(6)}
# c lies on a and b, d on b alone: the letter N of a < c > b < d.
LETTER_N = {"a": [brick(0, 20, 0)], "b": [brick(20, 60, 0)], "c": [brick(0, 40, 1)], "d": [brick(40, 60, 1)]}
# A zigzag of six: every upper brick lies on two lower ones, the last on one.
FENCE = {
    "a1": [brick(0, 20, 0)],
    "a2": [brick(20, 40, 0)],
    "a3": [brick(40, 60, 0)],
    "b1": [brick(0, 30, 1)],
    "b2": [brick(30, 50, 1)],
    "b3": [brick(50, 60, 1)],
}
# (i, j) on level i + j about x = 10 (j - i), 20 wide: it lies on (i - 1, j) and (i, j - 1), on nothing else.
GRID = {
    f"g{i}{j}": [brick(10 * (j - i) + 20, 10 * (j - i) + 40, i + j)] for i, j in product(range(2), range(5))
}
# {1, 3} bridges beside the others, so that it lies on {1} and {3} and not on {2}.
SUBSETS = {
    "none": [brick(0, 60, 0, 0, 20)],
    "1": [brick(0, 20, 1)],
    "2": [brick(20, 40, 1)],
    "3": [brick(40, 60, 1)],
    "12": [brick(10, 30, 2)],
    "23": [brick(30, 50, 2)],
    "13": [brick(0, 10, 2), brick(50, 60, 2), brick(0, 60, 2, 10, 20)],
    "123": [brick(0, 60, 3, 0, 20)],
}


@pytest.mark.parametrize(
    ("parts", "orders"),
    [(CHAIN, 1), (ANTICHAIN, 720), (LETTER_N, 5), (SUBSETS, 48), (GRID, 42), (FENCE, 61)],
    ids=["chain", "antichain", "N", "subsets of 3", "2 x 5 grid", "fence"],
)
def test_a1_linear_extensions(parts: dict[str, list[Box]], orders: int) -> None:
    asking = Asking(in_a_well((120, 20, 100), parts))
    assert asking.orders_by_the_last(frozenset(parts)) == orders


@pytest.mark.parametrize(
    ("parts", "orders"), [(CHAIN, 1), (LETTER_N, 5), (FENCE, 61)], ids=["chain", "N", "fence"]
)
def test_a1_one_by_one(parts: dict[str, list[Box]], orders: int) -> None:
    asking = Asking(in_a_well((120, 20, 100), parts))
    assert asking.clean_orders([place(name) for name in parts]) == orders


@pytest.mark.parametrize(("rivets", "orders"), [(1, 2), (2, 4), (3, 12), (4, 48), (5, 240)])
def test_a2_lap_joint(rivets: int, orders: int) -> None:
    # 2 m!: the sheets in either order (on trestles one may come from below), then m rivets in any order.
    row = [(20.0 * k + 10, 10.0) for k in range(rivets)]
    lower = piece("lower", [((0, 0, 0), (120, 40, 1))], {"lap": row})
    upper = piece("upper", [((0, -20, 1), (120, 20, 2))], {"lap": row})
    asking = Asking(structure(lower, upper), bench="trestles", tools=(puller(),))
    steps: list[Action] = [place("lower"), place("upper")]
    steps += [rivet(f"lower.lap.{k}") for k in range(1, rivets + 1)]
    assert asking.clean_orders(steps) == orders


def _three_sheets(cover: bool) -> Asking:
    """S under D under L in a frame of walls; r1, r2 through S and D, r3, r4 through all three."""
    two, three = [(30.0, 25.0), (60.0, 25.0)], [(110.0, 25.0), (140.0, 25.0)]
    frame = piece("frame", well(170, 50, 30, floor=False))
    sheets = [
        piece("S", [((0, 0, 0), (170, 50, 1))], {"two": two, "three": three}),
        piece("D", [((0, 0, 1), (170, 50, 2))], {"two": two, "three": three}),
    ]
    # The cover stands 20 mm over r1 and r2, on a wall at x = 80.
    roof: list[Box] = [((80, 0, 2), (82, 50, 23)), ((0, 0, 22), (82, 50, 23))]
    third = piece("L", [((80, 0, 2), (170, 50, 3)), *(roof if cover else [])], {"three": three})
    return Asking(structure(frame, *sheets, third), tools=(puller(diameter=12.0),))


RIVETS = {
    "r1": rivet("S.two.1", head="upper"),
    "r2": rivet("S.two.2", head="upper"),
    "r3": rivet("S.three.1", head="upper"),
    "r4": rivet("S.three.2", head="upper"),
}
STEPS: dict[str, Action] = {"S": place("S"), "D": place("D"), "L": place("L"), **RIVETS}


@pytest.mark.parametrize(("cover", "orders"), [(False, 40), (True, 4)])
def test_a3_three_sheets_and_four_rivets(cover: bool, orders: int) -> None:
    # Without cover: S, D, then five steps of which L is the first of three, 5! / 3. With it: 2! x 2!.
    assert _three_sheets(cover).clean_orders(list(STEPS.values())) == orders


def test_a7_given_order_and_repaired_order() -> None:
    asking = _three_sheets(cover=True)
    given = asking.replay([STEPS[name] for name in ("S", "D", "L", "r1", "r2", "r3", "r4")])
    # Violated: (r1, L) and (r2, L). Both could be set until D was on: step 2.
    stopped = [(e.step, e.stack, e.cause, e.blockers, e.last) for e in given.tool_stopped]
    assert stopped == [(4, 0, "parts", ("L",), 2), (5, 1, "parts", ("L",), 2)]
    assert len(given.too_early + given.no_way + given.head_under) == 0
    assert asking.is_clean([STEPS[name] for name in ("S", "D", "r1", "r2", "L", "r3", "r4")])


@pytest.mark.parametrize("boxes", range(1, 9))
def test_a5_boxes_in_a_row(boxes: int) -> None:
    # In a tunnel along x; the reverse of a clean order takes the boxes out, each by one of the two ends.
    length = 20.0 * boxes
    tunnel = piece(
        "tunnel",
        [
            ((0, -10, -5), (length, 20, 0)),
            ((0, -10, 10), (length, 20, 15)),
            ((0, -10, 0), (length, 0, 10)),
            ((0, 10, 0), (length, 20, 10)),
        ],
    )
    row = [piece(f"b{k}", [brick(20 * k, 20 * k + 20, 0)]) for k in range(boxes)]
    asking = Asking(structure(tunnel, *row))
    assert asking.orders_by_the_last(frozenset(part.name for part in row)) == 2 ** (boxes - 1)
    if boxes <= 5:
        assert asking.clean_orders([place(part.name) for part in row]) == 2 ** (boxes - 1)


def test_a11_nine_squares() -> None:
    # Between a floor and a roof, out along +-x or +-y: 9! x 4 / 5 orders.
    plates = piece("plates", [((0, 0, -5), (60, 60, 0)), ((0, 0, 10), (60, 60, 15))])
    squares = [
        piece(f"s{i}{j}", [brick(20 * i, 20 * i + 20, 0, 20 * j, 20 * j + 20)])
        for i, j in product(range(3), range(3))
    ]
    asking = Asking(structure(plates, *squares))

    assert asking.orders_by_the_last(frozenset(part.name for part in squares)) == 290_304


FLOOR = ((-50.0, -50.0, -10.0), (60.0, 60.0, 0.0))
LEFT, RIGHT = ((-50.0, 0.0, 0.0), (0.0, 10.0, 10.0)), ((10.0, 0.0, 0.0), (60.0, 10.0, 10.0))
BACK, FRONT = ((0.0, 10.0, 0.0), (10.0, 60.0, 10.0)), ((0.0, -50.0, 0.0), (10.0, 0.0, 10.0))
ROOF = ((-50.0, -50.0, 10.0), (60.0, 60.0, 20.0))


@pytest.mark.parametrize(
    ("around", "free"),
    [
        ([FLOOR], 5),
        ([FLOOR, LEFT], 4),
        ([FLOOR, LEFT, BACK], 3),
        ([FLOOR, LEFT, RIGHT], 3),
        ([FLOOR, ROOF], 4),
        ([FLOOR, ROOF, LEFT, RIGHT], 2),
        ([FLOOR, ROOF, LEFT, RIGHT, BACK], 1),
        ([FLOOR, ROOF, LEFT, RIGHT, BACK, FRONT], 0),
    ],
    ids=["table", "floor and wall", "corner", "slot", "sandwich", "tunnel", "blind pocket", "enclosed"],
)
def test_a4_free_axis_directions(around: list[Box], free: int) -> None:
    assert _free_ways(piece("box", [((0, 0, 0), (10, 10, 10))]), around) == free


@pytest.mark.parametrize(("closed", "free"), [(False, 2), (True, 1)])
def test_a10_slider_in_a_t_slot(closed: bool, free: int) -> None:
    # The slider's foot is 30 wide and runs under lips that leave 10 for its stem; the slot runs along x.
    slider = piece("slider", [((0, -15, 0), (40, 15, 10)), ((0, -5, 10), (40, 5, 30))])
    slot: list[Box] = [
        ((-50, -40, -10), (90, 40, 0)),
        ((-50, -40, 0), (90, -15, 20)),
        ((-50, 15, 0), (90, 40, 20)),
        ((-50, -15, 10), (90, -5, 20)),
        ((-50, 5, 10), (90, 15, 20)),
    ]
    stop: list[Box] = [((90, -40, -10), (100, 40, 20))]
    assert _free_ways(slider, slot + (stop if closed else [])) == free


def _free_ways(part: PlacedPart, around: list[Box]) -> int:
    tables = Asking(structure(piece("around", around), part)).tables
    ways = tables.ways(part.name)
    assert len(ways) == 6
    return sum(
        not tables.met_parts(part.name, Way(out), frozenset({"around"})) for out in tables.ways(part.name)
    )
