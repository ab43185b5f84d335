from __future__ import annotations

import numpy as np
import pytest

from seqviz.findings import Finding
from seqviz.records.directions import Direction, Vector, frame_of
from seqviz.records.nodes import Items, Node, Scalar
from seqviz.records.reading import Reading


def read(node: Node) -> tuple[Vector | None, list[Finding]]:
    reading = Reading(file="m.yaml")
    return Direction().read(reading, node), reading.findings


def three(*numbers: str) -> Items:
    return Items([Scalar(number, 1, 1) for number in numbers], 1, 1)


@pytest.mark.parametrize(
    ("node", "way"),
    [
        (Scalar("up", 1, 1), (0, 0, 1)),
        (Scalar("-x", 1, 1), (-1, 0, 0)),
        (three("0", "-3", "4"), (0.0, -0.6, 0.8)),
    ],
)
def test_directions(node: Node, way: Vector) -> None:
    assert read(node) == (way, [])


@pytest.mark.parametrize(
    ("node", "kind"),
    [
        (Scalar("x", 1, 1), "unknown-word"),
        (three("0", "0", "0"), "bad-value"),
        (three("1", "0"), "bad-value"),
        (three("1", "0", "up"), "bad-value"),
    ],
)
def test_what_is_no_direction(node: Node, kind: str) -> None:
    way, findings = read(node)
    assert way is None
    assert [finding.kind for finding in findings] == [kind]


def test_a_frame_is_right_handed() -> None:
    frame = frame_of((1.0, 2.0, 3.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    assert frame is not None
    assert frame.rotation[:, 2].tolist() == [1, 0, 0]
    assert frame.translation.tolist() == [1, 2, 3]
    assert np.linalg.det(frame.rotation) == pytest.approx(1.0)
    assert frame_of((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.6, 0.8, 0.0)) is None
