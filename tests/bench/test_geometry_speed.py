"""How the geometry's cost grows: ratios of processor times, which hold on any machine."""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np

from seqviz.geometry.access import Cylinder, cylinder_meets, cylinders_meet
from seqviz.geometry.lines import fit_lines
from seqviz.geometry.pose import Array, Pose
from seqviz.geometry.separation import close_pairs, depths
from seqviz.geometry.sweep import sweep_meets
from tests.geometry.prisms import boxes, random_poses, random_prisms

Z = np.array([0.0, 0.0, 1.0])


def _cost(work: Callable[[], object], times: int = 3) -> float:
    """Return the least processor time of a few runs, s; other work on the machine hardly counts."""
    costs = []
    for _ in range(times):
        begin = time.process_time()
        work()
        costs.append(time.process_time() - begin)
    return min(costs)


def _tools(rng: np.random.Generator, count: int, spread: float) -> list[Cylinder]:
    return [
        Cylinder(start=pose.translation, axis=pose.rotation[0], length=90.0, radius=12.0)
        for pose in random_poses(rng, count, spread)
    ]


def test_pairs_at_once_cost_a_fraction_of_pairs_one_by_one() -> None:
    rng = np.random.default_rng(1)
    a, b = random_prisms(rng, 400, 300.0), random_prisms(rng, 400, 300.0)
    pairs = close_pairs(a, b)[:400]
    assert len(pairs) == 400
    together = _cost(lambda: depths(a, b, pairs))
    alone = _cost(lambda: [depths(a, b, pair[None]) for pair in pairs], times=1)
    assert alone > 4.0 * together


def test_tools_at_once_cost_a_fraction_of_tools_one_by_one() -> None:
    rng = np.random.default_rng(2)
    tools, solids = _tools(rng, 200, 400.0), random_prisms(rng, 60, 400.0)
    together = _cost(lambda: cylinders_meet(tools, solids))
    alone = _cost(lambda: [cylinder_meets(tool, solids) for tool in tools], times=1)
    assert alone > 3.0 * together


def test_tools_far_from_everything_cost_little() -> None:
    rng = np.random.default_rng(3)
    near, far = _tools(rng, 200, 50.0), _tools(rng, 200, 5000.0)
    solids = random_prisms(rng, 200, 50.0, smallest=20.0)
    exact = _cost(lambda: cylinders_meet(near, solids))
    by_boxes = _cost(lambda: cylinders_meet(far, solids))
    assert exact > 10.0 * by_boxes


def test_a_way_past_everything_costs_little() -> None:
    # 2,000 pieces that the boxes alone turn down, against 2,000 of which each touches the way's side.
    rng = np.random.default_rng(4)
    post = boxes(((-20, -20, 0), (20, 20, 10)), ((-5, -5, 10), (5, 5, 20)))
    pieces = random_prisms(rng, 2000, 15.0, smallest=5.0)
    away = pieces.moved(Pose(rotation=np.eye(3), translation=np.array([5000.0, 0.0, 0.0])))
    up = Z[None]
    along = _cost(lambda: sweep_meets(post, away, up))
    corner = pieces.moved(Pose(rotation=np.eye(3), translation=np.array([60.0, 60.0, 400.0])))
    beside = corner.take(np.flatnonzero((corner.low[:, 0] < 20.0) & (corner.low[:, 1] < 20.0)))
    free = [k for k in range(len(beside)) if not sweep_meets(post, beside.take([k]), up)[0]]
    assert len(free) > 20
    exact = _cost(lambda: sweep_meets(post, beside.take(free), up))
    assert exact / len(free) > 3.0 * along / len(pieces)


def test_a_long_row_costs_hardly_more_than_two_holes() -> None:
    def fit(count: int) -> Callable[[], object]:
        points: Array = np.array([[20.0 * k, 10.0, 0.0] for k in range(count)])
        axes = np.tile(Z, (count, 1))
        return lambda: [fit_lines(points, axes, points + 5.0, axes) for _ in range(20)]

    assert _cost(fit(60)) < 4.0 * _cost(fit(2))
