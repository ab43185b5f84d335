"""Counts of orders that can be done by hand or are published, asked of the whole program.

Where a case has no other source it was counted by enumeration; the hand sum stands beside it.
"""

from collections.abc import Sized
from itertools import product
from math import factorial
from pathlib import Path

import pytest

from tests.published.structures import Cell, Outline, Trial, bricks, cells, on_posts, place, take_off

CHAIN = {f"p{k}": (0, k) for k in range(6)}
ANTICHAIN = {f"p{k}": (2 * k, 0) for k in range(6)}
N = {"a": (0, 0), "b": (2, 0), "c": (1, 1), "d": (3, 1)}
FENCE = {f"a{k}": (2 * k, 0) for k in range(3)} | {f"b{k}": (2 * k + 1, 1) for k in range(3)}
GRID = {f"g{i}{j}": (1 + j - i, i + j) for i in range(2) for j in range(5)}


@pytest.mark.parametrize(
    ("plates", "count"),
    [
        (CHAIN, 1),  # one upon the other
        (ANTICHAIN, factorial(6)),  # side by side
        (N, 5),  # 4! = 24 orders of a, b < c and b < d: c last 3 (b<d: abd, bad, bda), d last 2 (abc, bac)
        (FENCE, 61),  # the Euler number of alternating permutations of 6
        (GRID, 42),  # two rows of five, each in order and over the other: the Catalan number C5
    ],
    ids=["chain", "antichain", "N", "fence", "grid"],
)
def test_plates_on_posts_have_the_orders_of_their_poset(
    tmp_path: Path, plates: dict[str, tuple[int, int]], count: int
) -> None:
    model, posts = bricks(plates)
    trial = Trial(folder=tmp_path, model=model, do=place(plates), undo=take_off(plates), first=(posts,))
    assert trial.orders() == count


def _box(low: float, high: float, near: float = 0, far: float = 10) -> Outline:
    return [(low, near), (high, near), (high, far), (low, far)]


SUBSETS: dict[str, tuple[Outline, int]] = {
    "none": (_box(0, 60, 0, 20), 0),
    "only 1": (_box(0, 20), 1),
    "only 2": (_box(20, 40), 1),
    "only 3": (_box(40, 60), 1),
    "1 and 2": (_box(10, 30), 2),
    "2 and 3": (_box(30, 50), 2),
    # A bracket that lies on 1 and 3 with its feet, and goes past 2 behind.
    "1 and 3": ([(0, 0), (10, 0), (10, 10), (50, 10), (50, 0), (60, 0), (60, 20), (0, 20)], 2),
    "all": (_box(0, 60, 0, 20), 3),
}


def test_plates_that_lie_as_the_subsets_of_three_things(tmp_path: Path) -> None:
    """Each lies on those that are one less: 48 orders.

    First none, then of 1, 2, 3 and the pairs each pair after its two, last all. All three before any pair:
    3! x 3! = 36. Or two, their pair, the third, and the two pairs left: 3 x 2! x 2! = 12.
    """
    model, posts = on_posts(SUBSETS, [(5, 5), (25, 5), (45, 5)])
    trial = Trial(folder=tmp_path, model=model, do=place(SUBSETS), undo=take_off(SUBSETS), first=(posts,))
    assert trial.orders() == 48


ROOM: list[Cell] = [(x, y, z) for x, y, z in product(range(3), repeat=3) if (x, y, z) != (1, 1, 1)]
"""The 26 cells round the box in the middle."""

OUT: dict[str, Cell] = {
    **{"forward": (1, 0, 0), "aft": (-1, 0, 0), "left": (0, 1, 0)},
    **{"right": (0, -1, 0), "up": (0, 0, 1), "down": (0, 0, -1)},
}


def _all(name: str, spots: Sized) -> tuple[str]:
    """Return the step that places all parts of a block of cells."""
    return ("place: [" + ", ".join(f"{name} {k}" for k in range(len(spots))) + "]",)


def _on(side: str) -> set[Cell]:
    axis = next(k for k in range(3) if OUT[side][k])
    level = 1 + OUT[side][axis]
    return {spot for spot in ROOM if spot[axis] == level}


@pytest.mark.parametrize(
    ("closed", "free"),
    [
        (("down",), 5),  # on a table
        (("down", "right"), 4),  # floor and wall
        (("down", "right", "aft"), 3),  # a corner
        (("down", "left", "right"), 3),  # a slot
        (("down", "up"), 4),  # between two sheets
        (("down", "up", "left", "right"), 2),  # a tunnel
        (("down", "left", "right", "forward", "aft"), 1),  # a blind pocket
        (tuple(OUT), 0),  # enclosed
    ],
    ids=["table", "wall", "corner", "slot", "sandwich", "tunnel", "pocket", "enclosed"],
)
def test_free_directions_of_a_box(tmp_path: Path, closed: tuple[str, ...], free: int) -> None:
    """A direction is free when the box goes in although every other side of the room is shut."""
    found = 0
    for direction in OUT:
        walls = set().union(*(_on(side) for side in OUT if side != direction or side in closed))
        filled = sorted(walls)
        model = cells({"wall": filled, "box": [(1, 1, 1)]})
        trial = Trial(folder=tmp_path, model=model, do=place(["box"]), undo={}, first=_all("wall", filled))
        kinds = trial.kinds(["box"])
        assert kinds in ([], ["no-way-in"])
        found += not kinds
    assert found == free


@pytest.mark.parametrize("count", [1, 2, 4, 6])
def test_boxes_in_a_tunnel_go_in_from_both_ends(tmp_path: Path, count: int) -> None:
    """Taken out one by one, each is at one of the two ends but the last: 2^(n-1) orders."""
    around = [(y, z) for y, z in product((-1, 0, 1), repeat=2) if (y, z) != (0, 0)]
    tunnel = [(x, y, z) for x in range(count) for y, z in around]
    blocks = {f"b{x}": [(x, 0, 0)] for x in range(count)}
    trial = Trial(
        folder=tmp_path,
        model=cells({"tunnel": tunnel} | blocks),
        do=place(blocks),
        undo=take_off(blocks),
        first=_all("tunnel", tunnel),
    )
    assert trial.orders() == 2 ** (count - 1)


@pytest.mark.parametrize(("ends", "directions"), [((), 2), (("aft",), 1)], ids=["open", "one end closed"])
def test_a_slider_in_a_slot_goes_in_at_its_open_ends(
    tmp_path: Path, ends: tuple[str, ...], directions: int
) -> None:
    """A foot under two lips and a neck between them: it goes along the slot only."""
    slot = [(x, y, 0) for x in range(3) for y in (-2, 2)]  # beside the foot
    slot += [(x, y, 1) for x in range(3) for y in (-2, -1, 1, 2)]  # the lips
    slot += [(x, y, -1) for x in range(3) for y in range(-2, 3)]  # the floor
    shut = {"aft": [(-1, y, z) for y in range(-2, 3) for z in (0, 1)]}
    shut["forward"] = [(3, y, z) for y in range(-2, 3) for z in (0, 1)]
    found = 0
    for direction in ("forward", "aft"):
        walls = slot + [c for side in shut if side != direction or side in ends for c in shut[side]]
        # The slider: its foot three cells wide, its neck in the middle one; both in one go.
        blocks = {"wall": walls}
        model = cells(blocks).replace(
            "parts:\n",
            "parts:\n  slider: {shape: tee, thickness: 20, stem thickness: 20, length: 60, "
            "flange: 60, stem: 40}\n",
        )
        model += "  slider: {part: slider, at: [5000, 5010, 0], x along: forward, y along: left}\n"
        trial = Trial(folder=tmp_path, model=model, do=place(["slider"]), undo={}, first=_all("wall", walls))
        kinds = trial.kinds(["slider"])
        assert kinds in ([], ["no-way-in"])
        found += not kinds
    assert found == directions


def test_nine_squares_in_a_plane(tmp_path: Path) -> None:
    """Taken out one at a time in the plane, the middle one waits for one of its four neighbours.

    All 9! orders but those in which it goes before all four of them: of five, it is first in one fifth.
    """
    floor_and_lid = [(x, y, z) for x, y in product(range(3), repeat=2) for z in (-1, 1)]
    squares = {f"s{x}{y}": [(x, y, 0)] for x, y in product(range(3), repeat=2)}
    trial = Trial(
        folder=tmp_path,
        model=cells({"wall": floor_and_lid} | squares),
        do=place(squares),
        undo=take_off(squares),
        first=_all("wall", floor_and_lid),
    )
    assert trial.orders() == factorial(9) * 4 // 5
