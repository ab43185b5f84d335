"""A rigid motion of everything changes no answer."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from seqviz.geometry.access import Cylinder, cylinder_meets
from seqviz.geometry.pose import Pose
from seqviz.geometry.separation import close_pairs, deepest, depths
from seqviz.geometry.spans import line_spans
from seqviz.geometry.sweep import sweep_meets
from tests.geometry.prisms import random_axis, random_poses, random_prisms

ANY = st.integers(0, 2**32 - 1)


def _motion(rng: np.random.Generator) -> Pose:
    return random_poses(rng, 1, 5000.0)[0]


@settings(max_examples=60, deadline=None, derandomize=True)
@given(ANY)
def test_depths_and_sweeps(seed: int) -> None:
    rng = np.random.default_rng(seed)
    a, b = random_prisms(rng, 6, 150.0), random_prisms(rng, 8, 150.0)
    pose, ways = _motion(rng), np.array([random_axis(rng) for _ in range(5)])
    pairs = close_pairs(a, b, 10.0)
    np.testing.assert_allclose(depths(a.moved(pose), b.moved(pose), pairs), depths(a, b, pairs), atol=1e-8)
    if deepest(a, b) > 0.0:
        np.testing.assert_allclose(deepest(a.moved(pose), b.moved(pose)), deepest(a, b), atol=1e-8)
    np.testing.assert_array_equal(
        sweep_meets(a.moved(pose), b.moved(pose), pose.vectors(ways), 200.0), sweep_meets(a, b, ways, 200.0)
    )


@settings(max_examples=60, deadline=None, derandomize=True)
@given(ANY)
def test_tools_and_lines(seed: int) -> None:
    rng = np.random.default_rng(seed)
    solids, pose, axis = random_prisms(rng, 30, 150.0), _motion(rng), random_axis(rng)
    tool = Cylinder(start=-axis * 50.0, axis=axis, length=200.0, radius=40.0)
    moved = Cylinder(start=pose.points(tool.start), axis=pose.vectors(axis), length=200.0, radius=40.0)
    np.testing.assert_array_equal(cylinder_meets(moved, solids.moved(pose)), cylinder_meets(tool, solids))
    point = np.asarray(solids.vertices[0].mean(axis=0))
    spans = line_spans(point, axis, solids)
    assert not np.isnan(spans[0]).any()
    there = line_spans(pose.points(point), pose.vectors(axis), solids.moved(pose))
    np.testing.assert_allclose(there, spans, atol=1e-7)
