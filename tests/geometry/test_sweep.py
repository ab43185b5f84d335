from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import linprog

from seqviz.geometry.pose import Pose, frozen, turn_about, unit
from seqviz.geometry.prism import Prism
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.geometry.solids import Solids, joined, solids_of
from seqviz.geometry.sweep import sweep_meets
from tests.geometry.minkowski import random_cases, span_by_hull
from tests.geometry.prisms import boxes, random_axis, random_poses, random_prisms

LIMIT = TOLERANCE + GUARD
SIX = np.concatenate([np.eye(3), -np.eye(3)])
X, Y, Z = np.eye(3)

BLOCK = boxes(((0, 0, 0), (10, 10, 10)))
WALLS = {
    "floor": ((-50, -50, -1), (50, 50, 0)),
    "top": ((-50, -50, 10), (50, 50, 11)),
    "left": ((-1, -50, -50), (0, 50, 50)),
    "right": ((10, -50, -50), (11, 50, 50)),
    "back": ((-50, -1, -50), (50, 0, 50)),
    "front": ((-50, 10, -50), (50, 11, 50)),
}


def _free(moving: Solids, fixed: Solids, length: float = np.inf) -> set[str]:
    names = ["+x", "+y", "+z", "-x", "-y", "-z"]
    met = sweep_meets(moving, fixed, SIX, length)
    return {name for name, blocked in zip(names, met, strict=True) if not blocked}


# Case A4 of the reference on sequencing (section 6, set A): 5 / 4 / 3 / 3 / 4 / 2 / 1 / 0 free directions.
@pytest.mark.parametrize(
    ("around", "free"),
    [
        ("floor", "+x -x +y -y +z"),  # on a table
        ("floor left", "+x +y -y +z"),  # floor and wall
        ("floor left back", "+x +y +z"),  # corner
        ("floor left right", "+y -y +z"),  # slot
        ("floor top", "+x -x +y -y"),  # sandwich
        ("floor top left right", "+y -y"),  # tunnel
        ("floor left right back front", "+z"),  # blind pocket
        ("floor top left right back front", ""),  # enclosed
    ],
)
def test_free_axis_directions_of_a_box_case_a4(around: str, free: str) -> None:
    fixed = boxes(*[WALLS[name] for name in around.split()])
    assert _free(BLOCK, fixed) == set(free.split())


# Case A10 of the reference on sequencing: a T-slot slider has 2 directions, 1 where one end is closed.
def test_t_slot_slider_case_a10() -> None:
    slider = boxes(((0, -10, 0), (30, 10, 5)), ((0, -3, 5), (30, 3, 12)))
    slot = [
        ((-100, -20, -5), (100, 20, 0)),  # floor
        ((-100, 10, 0), (100, 20, 5)),  # sides of the wide part
        ((-100, -20, 0), (100, -10, 5)),
        ((-100, 3, 5), (100, 20, 8)),  # lips over it
        ((-100, -20, 5), (100, -3, 8)),
    ]
    assert _free(slider, boxes(*slot)) == {"+x", "-x"}
    closed = [*slot, ((100, -20, -5), (110, 20, 8))]
    assert _free(slider, boxes(*closed)) == {"-x"}


@pytest.mark.parametrize(("length", "met"), [(20.0, False), (20.05, False), (20.06, True)])
def test_a_move_may_end_flush_and_no_more_than_the_tolerance_deeper(length: float, met: bool) -> None:
    ceiling = boxes(((0, 0, 30), (10, 10, 31)))
    assert sweep_meets(BLOCK, ceiling, np.array([Z]), length).tolist() == [met]


def test_starting_too_deep_blocks_every_way_and_starting_at_the_tolerance_none_out() -> None:
    assert _free(BLOCK, boxes(((0, 0, -5), (10, 10, 0.06)))) == set()
    assert _free(BLOCK, boxes(((-50, -50, -5), (50, 50, 0.05)))) == {"+x", "-x", "+y", "-y", "+z"}


def test_a_pin_in_a_hole_cannot_be_passed_over_but_along_its_axis() -> None:
    # A pin of 3 in the middle of a frame of four strips, its opening 3 wide.
    pin = boxes(((-1.5, -1.5, -20), (1.5, 1.5, 20)))
    frame = boxes(
        ((-9, -9, 0), (-1.5, 9, 1)),
        ((1.5, -9, 0), (9, 9, 1)),
        ((-9, -9, 0), (9, -1.5, 1)),
        ((-9, 1.5, 0), (9, 9, 1)),
    )
    assert _free(pin, frame) == {"+z", "-z"}


@pytest.mark.parametrize(("room", "met"), [(10.0, False), (9.9, False), (9.89, True)])
def test_a_slanting_way_through_a_gap(room: float, met: bool) -> None:
    # The block passes between two walls along its own sides: 10 wide, 0.05 in each wall allowed.
    ways = np.array([unit(np.array([0.0, 1.0, 1.0]))])
    side = (10.0 - room) / 2.0
    walls = boxes(((-9, 20, 20), (side, 40, 40)), ((10 - side, 20, 20), (19, 40, 40)))
    assert sweep_meets(BLOCK, walls, ways).tolist() == [met]


def test_edges_that_meet_on_the_way() -> None:
    # Two bars on their edges, crossing: their edges pass at heights 0.04 and 0.06 deep into each other.
    half = 10.0
    polygon = np.array([[half, 0.0], [0.0, half], [-half, 0.0], [0.0, -half]])
    along_x = Pose(rotation=frozen(np.column_stack([Y, Z, X])), translation=np.array([-100.0, 0.0, 0.0]))
    for deep, met in ((0.04, False), (0.06, True)):
        along_y = Pose(
            rotation=frozen(np.column_stack([Z, X, Y])), translation=np.array([300.0, -100.0, 20.0 - deep])
        )
        lower, upper = (
            solids_of([Prism(polygon=polygon, height=200.0, frame=pose)]) for pose in (along_x, along_y)
        )
        assert sweep_meets(lower, upper, np.array([X])).tolist() == [met]
        assert sweep_meets(lower, upper, np.array([-X])).tolist() == [False]


@pytest.mark.parametrize("tapered", [False, True])
def test_sweeps_agree_with_the_hull_of_differences_in_5000_random_cases(tapered: bool) -> None:
    cases = random_cases(20, 5000, tapered)
    rng = np.random.default_rng(21)
    ways = rng.normal(size=(5000, 3))
    ways /= np.linalg.norm(ways, axis=1)[:, None]
    # Start some way off, so that the way leads past, into or out of the other piece.
    starts = -ways * rng.uniform(-50.0, 400.0, (5000, 1)) + rng.normal(size=(5000, 3)) * 20.0
    lengths = rng.choice([np.inf, 30.0, 300.0], 5000)
    wrong, met = 0, 0
    for k, faces in enumerate(cases.faces):
        there = faces + np.outer(faces[:, :3] @ starts[k], [0.0, 0.0, 0.0, 1.0])
        begin, end = span_by_hull(there, ways[k], LIMIT)
        expected = max(begin, 0.0) < min(end, lengths[k])
        moving = cases.a.take([k]).moved(Pose(rotation=np.eye(3), translation=starts[k]))
        found = bool(sweep_meets(moving, cases.b.take([k]), ways[k : k + 1], lengths[k])[0])
        wrong += found != expected
        met += expected
    assert wrong == 0
    assert 1000 < met < 4000


def test_the_brute_force_agrees_with_linear_programs() -> None:
    cases = random_cases(20, 5000)
    rng = np.random.default_rng(22)
    for k in range(150):
        faces, way = cases.faces[k], random_axis(rng)
        begin, end = span_by_hull(faces, way, LIMIT)
        room, slopes = -faces[:, 3] - LIMIT, (faces[:, :3] @ way)[:, None]
        program = linprog([1.0], A_ub=slopes, b_ub=room, bounds=[(-1e6, 1e6)])
        assert program.success == (begin <= end)
        if program.x is not None:
            assert program.x[0] == pytest.approx(begin, abs=1e-6)


def test_many_pieces_are_met_where_one_of_them_is() -> None:
    rng = np.random.default_rng(23)
    ways = np.array([pose.rotation[0] for pose in random_poses(rng, 40, 0.0)])
    moving = random_prisms(rng, 5, 60.0, smallest=20.0)
    aside = Pose(rotation=np.eye(3), translation=np.array([500.0, 0.0, 100.0]))
    fixed = random_prisms(rng, 9, 200.0, smallest=60.0).moved(aside)
    pairs = [(moving.take([i]), fixed.take([j])) for i in range(5) for j in range(9)]
    for length, met in ((np.inf, 3), (400.0, 2)):
        expected = np.any([sweep_meets(one, other, ways, length) for one, other in pairs], axis=0)
        np.testing.assert_array_equal(sweep_meets(moving, fixed, ways, length), expected)
        assert expected.sum() == met


def test_ways_do_not_depend_on_how_the_work_is_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    rng = np.random.default_rng(24)
    moving, fixed = random_prisms(rng, 20, 100.0), random_prisms(rng, 30, 900.0)
    far = fixed.moved(Pose(rotation=np.eye(3), translation=np.array([0.0, 0.0, 1500.0])))
    ways = np.array([pose.rotation[0] for pose in random_poses(rng, 40, 0.0)])
    whole = sweep_meets(moving, far, ways)
    assert whole.any()
    assert not whole.all()
    monkeypatch.setattr("seqviz.geometry.sweep._SPANS_AT_ONCE", 900)
    monkeypatch.setattr("seqviz.geometry.axes._NUMBERS_AT_ONCE", 300)
    np.testing.assert_array_equal(sweep_meets(moving, far, ways), whole)


def test_sliding_on_flush_sheets_is_free_in_2000_random_poses() -> None:
    rng = np.random.default_rng(25)
    strip = boxes(((100, 20, 0.8), (400, 38, 1.6)), ((100, 20, 1.6), (400, 20.8, 20)))
    skin = boxes(((0, 0, 0), (310, 360, 0.8)), ((310, 0, 0), (620, 360, 0.8)))
    for pose in random_poses(rng, 2000, 5000.0):
        met = sweep_meets(strip.moved(pose), skin.moved(pose), pose.vectors(SIX))
        assert met.tolist() == [False, False, False, False, False, True]


def test_the_way_back_of_the_other_is_the_same_question() -> None:
    rng = np.random.default_rng(26)
    a, b = random_prisms(rng, 10, 200.0), random_prisms(rng, 10, 600.0)
    far = b.moved(Pose(rotation=frozen(turn_about(Z, 30.0)), translation=np.array([900.0, 0.0, 0.0])))
    ways = np.array([pose.rotation[0] for pose in random_poses(rng, 60, 0.0)])
    there = sweep_meets(a, far, ways)
    np.testing.assert_array_equal(sweep_meets(far, a, -ways), there)
    assert 0 < there.sum() < 60


def test_two_foils_thinner_than_the_tolerance_never_meet() -> None:
    # 0.04 each: pushed through each other they are never more than 0.04 deep.
    lower, upper = boxes(((0, 0, 0), (50, 50, 0.04))), boxes(((20, 20, 10), (90, 90, 10.04)))
    assert sweep_meets(lower, upper, np.array([Z])).tolist() == [False]


def test_nothing_meets_nothing() -> None:
    assert sweep_meets(BLOCK, solids_of([]), SIX).tolist() == [False] * 6
    assert sweep_meets(solids_of([]), BLOCK, SIX).tolist() == [False] * 6
    assert sweep_meets(BLOCK, joined([BLOCK, BLOCK]), np.zeros((0, 3))).shape == (0,)
