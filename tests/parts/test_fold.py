from __future__ import annotations

import math

import numpy as np
import pytest

from seqviz.parts.fold import Fold, fold_of, folded
from seqviz.parts.hand import other_hand
from seqviz.parts.make import make_parts
from tests.parts.samples import angle, model, part


def fold(*, mirrored: bool = False) -> Fold:
    parts, _ = make_parts(model(part(angle())))
    return fold_of(other_hand(parts["p"]) if mirrored else parts["p"])


@pytest.mark.parametrize("sign", [1, -1])
def test_where_the_pattern_comes_to_lie(sign: int) -> None:
    pattern = fold(mirrored=sign < 0)
    on_leg_1 = pattern.unrolled("leg 1")(np.array([[50.0, sign * 10.0]]))
    on_leg_2 = pattern.unrolled("leg 2")(np.array([[50.0, sign * 10.0]]))
    # tangents 3.4 from the corner; between them the middle of the sheet, 90 degrees of 2.9 mm
    assert on_leg_1 == pytest.approx(np.array([[50, 3.4 - 10]]))
    assert on_leg_2 == pytest.approx(np.array([[50, math.pi / 2 * 2.9 + 10 - 3.4]]))
    assert np.allclose(folded(pattern, on_leg_1, 0.0), [[50, sign * 10, 0]])
    assert np.allclose(folded(pattern, on_leg_1, 1.0), [[50, sign * 10, 1]])
    assert np.allclose(folded(pattern, on_leg_2, 0.0), [[50, 0, 10]])
    assert np.allclose(folded(pattern, on_leg_2, 1.0), [[50, sign * 1, 10]])


def test_bend_lines_lie_on_the_true_surfaces() -> None:
    pattern = fold()
    middle = np.array([0, 3.4, 3.4])
    assert np.allclose(np.linalg.norm(pattern.outer - middle, axis=1), 3.4)
    assert np.allclose(np.linalg.norm(pattern.inner - middle, axis=1), 2.4)
    assert np.allclose(pattern.outer[[0, -1]], [[0, 3.4, 0], [0, 0, 3.4]])
