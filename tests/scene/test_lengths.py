from __future__ import annotations

import pytest

from seqviz.scene.lengths import area_text, length_text


@pytest.mark.parametrize(
    ("millimetres", "units", "text"),
    [
        (2.4, "mm", "2.4"),
        (0.8 + 1.6, "mm", "2.4"),  # 2.4000000000000004
        (1.0, "mm", "1"),
        (10.0, "mm", "10"),
        (0.125, "mm", "0.12"),
        (0.004, "mm", "0"),
        (-0.001, "mm", "0"),
        (1.6256, "in", "0.064 in"),  # 0.064 x 25.4
        (1.5875, "in", "0.0625 in"),  # 1/16
        (25.4, "in", "1 in"),
        (-1e-9, "in", "0 in"),
    ],
)
def test_lengths(millimetres: float, units: str, text: str) -> None:
    assert length_text(millimetres, units) == text


@pytest.mark.parametrize(
    ("area", "units", "text"),
    [(1240.4, "mm", "1240 mm2"), (645.16, "in", "1 in2"), (1000.0, "in", "1.55 in2")],  # 25.4 x 25.4 = 645.16
)
def test_areas(area: float, units: str, text: str) -> None:
    assert area_text(area, units) == text
