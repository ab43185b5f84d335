from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from seqviz.drawing.hatching import HATCHINGS, hatching


def test_lines_at_45_degrees_end_on_the_box() -> None:
    # Layer 0 rises to the right, its lines at x + y = k * 2.2: 2.2, 4.4, 6.6 and 8.8 cross the box.
    found = [(*start, *end) for start, end in hatching((0.0, 0.0, 6.0, 4.0), 0)]
    assert np.array(found) == pytest.approx(
        np.array([(0.0, 2.2, 2.2, 0.0), (0.4, 4.0, 4.4, 0.0), (2.6, 4.0, 6.0, 0.6), (4.8, 4.0, 6.0, 2.8)])
    )


def test_the_next_layer_falls_to_the_right() -> None:
    for start, end in hatching((10.0, 5.0, 20.0, 12.0), 1):
        assert end[0] - start[0] == pytest.approx(end[1] - start[1])
        assert 10.0 <= start[0] < end[0] <= 20.0
        assert 5.0 - 1e-9 <= start[1] < end[1] <= 12.0 + 1e-9


def test_neighbours_never_look_alike() -> None:
    ways = [HATCHINGS[k % len(HATCHINGS)][0] for k in range(13)]
    assert all(a != b for a, b in pairwise(ways))


def test_thin_layers_have_lines_nearer_together() -> None:
    # 2.2 * 0.6 = 1.32 apart in a box less than 3 high.
    starts = [start[0] for start, _ in hatching((0.0, 0.0, 30.0, 2.0), 0)]
    assert starts[5] - starts[4] == pytest.approx(1.32)
