"""Directions to look from."""

import numpy as np

from seqviz.scene.views import angle_between, first_view, right_and_top, views

UP, FORWARD = np.array([0.0, 0.0, 1.0]), np.array([1.0, 0.0, 0.0])


def test_all_look_down_on_the_side_that_is_up() -> None:
    for up in (UP, -UP):
        found = views(up, FORWARD)
        assert np.allclose(np.linalg.norm(found, axis=1), 1.0)
        heights = np.degrees(np.arcsin(found @ up))
        assert heights.min() > 25
        assert heights.max() < 65


def test_none_looks_along_a_side_of_the_work() -> None:
    level = views(UP, FORWARD)[:, :2]
    level = level / np.linalg.norm(level, axis=1, keepdims=True)
    # Within 20 degrees of an axis a leg along it would be a line: cos 20 = 0.94.
    assert np.abs(level).max() < 0.94


def test_first_view_is_from_behind() -> None:
    first = first_view(UP, FORWARD)
    assert first @ FORWARD < -0.5
    assert np.isclose(np.degrees(np.arcsin(first @ UP)), 40.0)


def test_forward_that_faces_up_has_a_stand_in() -> None:
    found = views(UP, UP)
    assert np.isfinite(found).all()
    assert (found @ UP > 0.4).all()


def test_up_goes_up_in_the_picture() -> None:
    towards = first_view(UP, FORWARD)
    right, top = right_and_top(towards, UP)
    assert top @ UP > 0
    assert abs(right @ UP) < 1e-12
    assert np.allclose(np.cross(right, top), towards)


def test_angle_between() -> None:
    assert np.isclose(angle_between(UP, FORWARD), 90.0)
