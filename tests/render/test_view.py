"""From points to pixels."""

import numpy as np

from seqviz.render.view import Margins, View, fitted_view

UP = np.array([0.0, 0.0, 1.0])
AFT = np.array([-1.0, 0.0, 0.0])  # from behind: right is -y


def test_project() -> None:
    view = View(towards=AFT, up=UP, centre=np.array([10.0, 0.0, 5.0]), scale=2.0, size=(400, 300))
    # 3 mm to the left (+y) is 6 pixels left of the middle, 4 mm up 8 above it, 7 mm forward is farther away.
    assert np.allclose(view.project(np.array([17.0, 3.0, 9.0])), [200 - 6, 150 - 8, -7.0])


def test_resized_view_shows_the_same() -> None:
    view = View(towards=AFT, up=UP, centre=np.zeros(3), scale=2.0, size=(400, 300))
    point = np.array([1.0, 2.0, 3.0])
    assert np.allclose(view.resized(4).project(point)[:2], view.project(point)[:2] * 4)
    assert view.resized(4).size == (1600, 1200)


def test_fitted_view_fills_the_room_between_the_margins() -> None:
    points = np.array([[0.0, 0.0, 0.0], [50.0, 100.0, 20.0]])
    margins = Margins(left=60, right=20, top=10, bottom=30)
    view = fitted_view(points, AFT, UP, (400, 300), margins)
    # 100 mm wide in 320 pixels, 20 high in 260: the width decides, 3.2 pixels a mm.
    assert np.isclose(view.scale, 3.2)
    seen = view.project(points)[:, :2]
    assert np.allclose(sorted(seen[:, 0]), [60, 380])
    assert np.isclose(seen[:, 1].mean(), (10 + 270) / 2)
