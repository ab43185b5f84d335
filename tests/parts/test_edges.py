from __future__ import annotations

import numpy as np
import pytest

from seqviz.findings import Finding
from seqviz.parts.edges import Edge, edge_facing
from tests.parts.samples import SQUARE, at

# A tapered skin: its left side rises by 40 over 200, its right side is straight with a corner in the middle.
TAPERED = np.array([[0, 0], [80, 0], [200, 0], [200, 100], [0, 60]], dtype=float)


@pytest.mark.parametrize(
    ("forward", "edge", "start", "along", "inward"),
    [
        ("+x", "left edge", [0, 360], [1, 0], [0, -1]),
        ("+x", "right edge", [0, 0], [1, 0], [0, 1]),
        ("+x", "forward edge", [620, 0], [0, 1], [-1, 0]),  # from right to left
        ("+x", "aft edge", [0, 0], [0, 1], [1, 0]),
        ("-x", "left edge", [620, 0], [-1, 0], [0, 1]),
        ("-x", "forward edge", [0, 360], [0, -1], [1, 0]),
        ("+y", "left edge", [0, 0], [0, 1], [1, 0]),
        ("+y", "forward edge", [620, 360], [-1, 0], [0, -1]),
        ("-y", "right edge", [0, 360], [0, -1], [1, 0]),
        ("-y", "aft edge", [0, 360], [1, 0], [0, -1]),
    ],
)
def test_edges_of_a_rectangle(
    forward: str, edge: str, start: list[float], along: list[float], inward: list[float]
) -> None:
    found = edge_facing(np.array(SQUARE), edge, forward, at())
    assert isinstance(found, Edge)
    assert np.allclose(found.start, start)
    assert np.allclose(found.along, along)
    assert np.allclose(found.inward, inward)
    assert found.length == pytest.approx(620 if abs(found.along[0]) else 360)


def test_neighbours_in_one_line_are_one_side() -> None:
    found = edge_facing(TAPERED, "right edge", "+x", at())
    assert isinstance(found, Edge)
    assert (found.start.tolist(), found.length) == ([0, 0], 200)


def test_a_sloping_side_is_measured_along_itself() -> None:
    found = edge_facing(TAPERED, "left edge", "+x", at())
    assert isinstance(found, Edge)
    assert found.start.tolist() == [0, 60]
    assert found.length == pytest.approx(203.960781)  # sqrt(200^2 + 40^2)
    assert np.allclose(found.inward, [0.196116, -0.980581], atol=1e-6)


def test_cut_corners_of_45_degrees_are_no_edges() -> None:
    outline = np.array([[10, 0], [90, 0], [100, 10], [100, 40], [90, 50], [10, 50], [0, 40], [0, 10]], float)
    found = edge_facing(outline, "left edge", "+x", at())
    assert isinstance(found, Edge)
    assert (found.start.tolist(), found.length) == ([10, 50], 80)


def test_but_a_triangle_has_its_long_side() -> None:
    triangle = np.array([[0, 0], [100, 0], [0, 100]], float)
    found = edge_facing(triangle, "forward edge", "+x", at())
    assert isinstance(found, Edge)
    assert found.length == pytest.approx(141.421356)


def test_two_sides_facing_one_way() -> None:
    stepped = np.array([[0, 0], [100, 0], [100, 50], [60, 50], [60, 80], [0, 80]], float)
    finding = edge_facing(stepped, "left edge", "+x", at(12))
    assert isinstance(finding, Finding)
    assert (finding.kind, finding.at) == ("bad-value", at(12))
    assert finding.message == "2 sides of the outline face as a left edge does."
    assert "from and to" in finding.fix


def test_no_side_facing_that_way() -> None:
    arrow = np.array([[0, 0], [100, 0], [50, 80]], float)  # both upper sides are 58 degrees steep
    finding = edge_facing(arrow, "left edge", "+x", at())
    assert isinstance(finding, Finding)
    assert finding.message == "No side of the outline faces as a left edge does."
    # Left of -y is +x: the message says so, whatever way the part lies in the structure.
    turned = np.array([[0, 0], [0, -100], [80, -50]], float)
    other = edge_facing(turned, "left edge", "-y", at())
    assert isinstance(other, Finding)
    assert other.why.endswith("With forward: -y a left edge looks to +x of the outline, of every part.")
