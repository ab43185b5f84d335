"""How the geometry's cost grows: ratios of processor times. Run: ``python -m tests.bench.geometry_speed``."""

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


def cost(work: Callable[[], object], times: int = 3) -> float:
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


def pairs_at_once() -> float:
    """Return what 400 pairs one by one cost, in costs of all at once."""
    rng = np.random.default_rng(1)
    a, b = random_prisms(rng, 400, 300.0), random_prisms(rng, 400, 300.0)
    pairs = close_pairs(a, b)[:400]
    together = cost(lambda: depths(a, b, pairs))
    return cost(lambda: [depths(a, b, pair[None]) for pair in pairs], times=1) / together


def tools_at_once() -> float:
    """Return what 200 tools one by one cost, in costs of all at once."""
    rng = np.random.default_rng(2)
    tools, solids = _tools(rng, 200, 400.0), random_prisms(rng, 60, 400.0)
    together = cost(lambda: cylinders_meet(tools, solids))
    return cost(lambda: [cylinder_meets(tool, solids) for tool in tools], times=1) / together


def tools_far_away() -> float:
    """Return what tools among pieces cost, in costs of as many tools far from everything."""
    rng = np.random.default_rng(3)
    near, far = _tools(rng, 200, 50.0), _tools(rng, 200, 5000.0)
    solids = random_prisms(rng, 200, 50.0, smallest=20.0)
    return cost(lambda: cylinders_meet(near, solids)) / cost(lambda: cylinders_meet(far, solids))


def ways_past_everything() -> float:
    """Return what a piece beside a way costs, in costs of a piece that its box alone turns down."""
    rng = np.random.default_rng(4)
    post = boxes(((-20, -20, 0), (20, 20, 10)), ((-5, -5, 10), (5, 5, 20)))
    pieces = random_prisms(rng, 2000, 15.0, smallest=5.0)
    away = pieces.moved(Pose(rotation=np.eye(3), translation=np.array([5000.0, 0.0, 0.0])))
    along = cost(lambda: sweep_meets(post, away, Z[None]))
    corner = pieces.moved(Pose(rotation=np.eye(3), translation=np.array([60.0, 60.0, 400.0])))
    beside = corner.take(np.flatnonzero((corner.low[:, 0] < 20.0) & (corner.low[:, 1] < 20.0)))
    free = [k for k in range(len(beside)) if not sweep_meets(post, beside.take([k]), Z[None])[0]]
    exact = cost(lambda: sweep_meets(post, beside.take(free), Z[None]))
    return exact / len(free) / (along / len(pieces))


def long_rows() -> float:
    """Return what fitting 60 holes costs, in costs of fitting two."""

    def fit(count: int) -> Callable[[], object]:
        points: Array = np.array([[20.0 * k, 10.0, 0.0] for k in range(count)])
        axes = np.tile(Z, (count, 1))
        return lambda: [fit_lines(points, axes, points + 5.0, axes) for _ in range(20)]

    return cost(fit(60)) / cost(fit(2))


def main() -> None:
    """Print the ratios, each with what it was when it was written down."""
    print(f"400 pairs of pieces one by one: {pairs_at_once():.0f} times all at once (more than 4)")
    print(f"200 tools one by one: {tools_at_once():.0f} times all at once (more than 3)")
    print(f"tools among pieces: {tools_far_away():.0f} times tools far away (more than 10)")
    print(f"pieces beside a way: {ways_past_everything():.1f} times pieces far from it (more than 3)")
    print(f"a row of 60 holes: {long_rows():.1f} times a row of two (less than 4)")


if __name__ == "__main__":
    main()
