from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy.spatial import ConvexHull

from seqviz.geometry.prism import Piece, Prismoid
from seqviz.geometry.volume import corners_of, volume_of
from tests.geometry.prisms import box, random_poses, random_prism, random_prismoid


def test_a_box_and_a_pyramid() -> None:
    assert volume_of(box((1, 2, 3), (3, 5, 7))) == pytest.approx(2 * 3 * 4)
    square = np.array([[0.0, 0, 0], [6, 0, 0], [6, 6, 0], [0, 6, 0]])
    # 36 x 5 / 3
    assert volume_of(Prismoid(bottom=square, top=np.tile([1.0, 2.0, 5.0], (4, 1)))) == pytest.approx(60)


@pytest.mark.parametrize("make", [random_prism, random_prismoid])
def test_volumes_are_those_of_the_hulls(make: Callable[..., Piece]) -> None:
    rng = np.random.default_rng(5)
    for pose in random_poses(rng, 200, 100.0):
        piece = make(rng, pose)
        hull = ConvexHull(np.unique(np.round(np.concatenate(corners_of(piece)), 9), axis=0))
        assert volume_of(piece) == pytest.approx(hull.volume, rel=1e-6)
