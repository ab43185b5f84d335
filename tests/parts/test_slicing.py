from __future__ import annotations

import numpy as np
import pytest
import shapely

from seqviz.geometry.pose import Array
from seqviz.parts.slicing import Filled, Slices
from seqviz.parts.welding import bodies_of, surface_of
from tests.parts.surfaces import ball, box, drilled_foot, pulled


def slices(triangles: Array, filled: tuple[Filled, ...] = ()) -> Slices:
    surface = surface_of(triangles)
    return Slices.of(surface, bodies_of(surface), np.eye(3), filled)


def test_a_section_has_the_openings_of_the_solid() -> None:
    ring = shapely.box(0, 0, 40, 30).difference(shapely.box(10, 10, 20, 20))
    section = slices(pulled(ring, 12.0)).at(5.0)
    assert section.equals(ring)


def test_corners_on_the_level_itself() -> None:
    """Two boxes on each other, 5 high each: at 5 there are corners of both, which count as above it."""
    section = slices(np.concatenate([box((10, 10, 5)), box((4, 4, 5), (0, 0, 5))])).at(5.0)
    assert section.area == pytest.approx(100.0)


def test_bodies_that_overlap_are_one_region() -> None:
    both = np.concatenate([box((10, 10, 10)), box((10, 10, 10), (5, 5, 0))])
    # 2 x 100 - 5 x 5
    assert slices(both).at(4.0).area == pytest.approx(175.0)


def test_a_gap_is_closed_straight_across() -> None:
    # Each wall of a box has two triangles; without one the section has a gap.
    open_box = box((10, 20, 30))
    for missing in range(12):
        left = np.delete(open_box, missing, axis=0)
        assert slices(left).at(11.0).area == pytest.approx(200.0, rel=0.4)


def test_a_ball_is_round() -> None:
    # At 30 of 50 the radius is 40; 100 corners: 50 sin(3.6) 40^2 = 5023.3 - less: the walls are chords too
    assert slices(ball(50.0, 100)).at(30.0).area == pytest.approx(np.pi * 40**2, rel=2e-3)


def test_holes_of_the_part_are_filled() -> None:
    filled = tuple(
        Filled(centre=np.array([x, 20.0, 1.5]), axis=np.array([0.0, 0.0, 1.0]), radius=2.6, half=1.5)
        for x in (20.0, 50.0)
    )
    assert slices(drilled_foot()).at(1.0).area == pytest.approx(60 * 50 - 2 * np.pi * 2.5**2, abs=0.5)
    assert slices(drilled_foot(), filled).at(1.0).area == pytest.approx(60 * 50)
    # Seen from the side a hole is a slot through the foot, from face to face.
    surface = surface_of(drilled_foot())
    side = Slices.of(surface, bodies_of(surface), np.array([[0.0, 1, 0], [0, 0, 1], [1, 0, 0]]), filled)
    assert side.at(20.0).area == pytest.approx(60 * 3 + 3 * 37)
