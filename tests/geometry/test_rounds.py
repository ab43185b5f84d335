"""Prisms a little inside round bodies, and a little around them."""

from __future__ import annotations

import numpy as np
import pytest

from seqviz.geometry.access import Cylinder
from seqviz.geometry.pose import frozen, unit
from seqviz.geometry.rounds import prism_around, prism_inside

AXIS = frozen(unit(np.array([1.0, 2.0, 2.0])))
ROUND = Cylinder(start=frozen([5.0, 6.0, 7.0]), axis=AXIS, length=40.0, radius=10.0)


@pytest.mark.parametrize("make", [prism_inside, prism_around])
def test_they_stand_where_it_stands(make) -> None:  # type: ignore[no-untyped-def]
    prism = make(ROUND)
    assert prism.height == 40.0
    assert np.allclose(prism.frame.translation, [5.0, 6.0, 7.0])
    assert np.allclose(prism.frame.rotation[:, 2], AXIS)
    assert np.isclose(np.linalg.det(prism.frame.rotation), 1.0)


def test_corners_inside_and_faces_around() -> None:
    inside, around = prism_inside(ROUND).polygon, prism_around(ROUND).polygon
    assert (len(inside), len(around)) == (8, 24)
    assert np.allclose(np.linalg.norm(inside, axis=1), 10.0)
    # The middle of each face lies on the circle.
    middles = (around + np.roll(around, -1, axis=0)) / 2
    assert np.allclose(np.linalg.norm(middles, axis=1), 10.0)
