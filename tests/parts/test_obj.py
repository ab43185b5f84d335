from __future__ import annotations

import numpy as np
import pytest

from seqviz.parts.obj import obj_triangles
from seqviz.units import Slip

SQUARE = "# a square\nmtllib other.mtl\nv 0 0 0\nv 2 0 0 1.0\nv 2 2 0\nv 0 2 0\nvn 0 0 1\n"


def read(text: str) -> list[list[list[float]]]:
    found = obj_triangles((SQUARE + text).encode())
    assert isinstance(found, np.ndarray)
    triangles: list[list[list[float]]] = found.tolist()
    return triangles


def test_a_face_of_four_corners_is_two_triangles() -> None:
    one, two, three, four = [0, 0, 0], [2, 0, 0], [2, 2, 0], [0, 2, 0]
    assert read("f 1 2 3 4\n") == [[one, two, three], [one, three, four]]
    assert read("f 1//1 2//1 3//1\n") == [[one, two, three]]
    assert read("f -4/7/1 -3/7/1 \\\n -2/7/1\n") == [[one, two, three]]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "there are no faces in it"),
        ("f 1 2\n", "line 8: `f 1 2` is no face"),
        ("f 1 2 three\n", "line 8: `f 1 2 three` is no face"),
        ("f 0 1 2\n", "line 8: `f 0 1 2` is no face"),
        ("f 1 2 -5\n", "line 8: `f 1 2 -5` is no face"),
        ("v 1 2\n", "line 8: `v 1 2` is no corner"),
        ("f 1 2 9\n", "a face names corner 9, but there are 4"),
    ],
)
def test_what_is_wrong(text: str, message: str) -> None:
    slip = obj_triangles((SQUARE + text).encode())
    assert isinstance(slip, Slip)
    assert slip.message == message
