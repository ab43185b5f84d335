"""The view stays, and the side that is up is looked at."""

import numpy as np

from seqviz.scene.views import angle_between
from tests.render.drawn import NEEDS_GRAPHICS, shots


@NEEDS_GRAPHICS
def test_one_view_until_the_turn_and_one_after() -> None:
    towards = [shot.seen.view.towards for shot in shots()]
    # Steps 1 to 9 have the upper side up, 10 to 13 the lower one.
    assert max(angle_between(towards[0], other) for other in towards[:9]) < 1e-3
    assert max(angle_between(towards[9], other) for other in towards[9:]) < 1e-3


@NEEDS_GRAPHICS
def test_the_side_up_is_seen_from_above() -> None:
    for shot in shots():
        height = 90.0 - angle_between(shot.seen.view.towards, shot.scene.up)
        assert 25.0 < height < 65.0


@NEEDS_GRAPHICS
def test_ways_in_are_not_seen_end_on() -> None:
    for shot in shots():
        for arrow in shot.scene.arrows:
            angle = angle_between(arrow.way / np.linalg.norm(arrow.way), shot.seen.view.towards)
            assert 20.0 <= angle <= 160.0


@NEEDS_GRAPHICS
def test_scale_does_not_change_within_a_run() -> None:
    scales = [shot.seen.view.scale for shot in shots()]
    assert np.allclose(scales[:9], scales[0])


@NEEDS_GRAPHICS
def test_work_fills_the_picture() -> None:
    for shot in shots():
        rows, columns = np.nonzero(shot.seen.ids >= 0)
        height, width = shot.seen.ids.shape
        assert 0.5 <= max(np.ptp(rows) / height, np.ptp(columns) / width) <= 0.95
