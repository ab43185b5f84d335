"""How the geometry's cost grows, as ratios. Run: ``python -m tests.bench.geometry_speed``."""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np

from seqviz.geometry.access import Cylinder, cylinder_meets, cylinders_meet
from seqviz.geometry.lines import fit_lines
from seqviz.geometry.separation import close_pairs, depths
from seqviz.geometry.sweep import sweep_meets
from tests.geometry.prisms import random_poses, random_prisms

SIX = np.concatenate([np.eye(3), -np.eye(3)])


def cost(work: Callable[[], object]) -> float:
    """Return the least processor time of three runs, s."""
    costs = []
    for _ in range(3):
        begin = time.process_time()
        work()
        costs.append(time.process_time() - begin)
    return min(costs)


def contact(rng: np.random.Generator) -> str:
    """Tell what pairs cost at once and one by one."""
    a, b = random_prisms(rng, 400, 300.0), random_prisms(rng, 400, 300.0)
    pairs = close_pairs(a, b)
    together = cost(lambda: depths(a, b, pairs))
    alone = cost(lambda: [depths(a, b, pair[None]) for pair in pairs[:200]]) / 200 * len(pairs)
    each = together / len(pairs) * 1e6
    return f"contact: {each:.1f} us a pair at once, one by one {alone / together:.0f} times as much"


def tools(rng: np.random.Generator) -> str:
    """Tell what tools cost at once, one by one, and far from everything."""
    solids = random_prisms(rng, 60, 400.0)
    near, far = (
        [
            Cylinder(start=pose.translation, axis=pose.rotation[0], length=90.0, radius=12.0)
            for pose in random_poses(rng, 200, spread)
        ]
        for spread in (400.0, 20_000.0)
    )
    together = cost(lambda: cylinders_meet(near, solids))
    alone = cost(lambda: [cylinder_meets(tool, solids) for tool in near])
    away = cost(lambda: cylinders_meet(far, solids))
    return (
        f"tools: {together / 200 * 1e6:.0f} us each against 60 pieces, one by one "
        f"{alone / together:.1f} times as much, far away {away / together:.2f}"
    )


def ways(rng: np.random.Generator) -> str:
    """Tell what six ways cost against what one costs, and what ten times the pieces cost."""
    moving, few, many = (random_prisms(rng, count, 1500.0) for count in (20, 300, 3000))
    one, six = cost(lambda: sweep_meets(moving, few, SIX[:1])), cost(lambda: sweep_meets(moving, few, SIX))
    more = cost(lambda: sweep_meets(moving, many, SIX))
    return f"ways: six cost {six / one:.1f} times as much as one, ten times the pieces {more / six:.1f} times"


def fits() -> str:
    """Tell what a fit of 2 and of 60 holes costs."""

    def fit(count: int) -> float:
        points = np.array([[20.0 * k, 10.0, 0.0] for k in range(count)])
        axes = np.tile(np.array([0.0, 0.0, 1.0]), (count, 1))
        return cost(lambda: [fit_lines(points, axes, points + 5.0, axes) for _ in range(20)]) / 20

    return f"fits: 2 holes {fit(2) * 1e3:.1f} ms, 60 holes {fit(60) * 1e3:.1f} ms"


def main() -> None:
    """Print all of them."""
    rng = np.random.default_rng(1)
    for line in (contact(rng), tools(rng), ways(rng), fits()):
        print(line)


if __name__ == "__main__":
    main()
