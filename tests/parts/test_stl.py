from __future__ import annotations

import numpy as np
import pytest

from seqviz.parts.stl import stl_triangles
from seqviz.units import Slip
from tests.parts.surfaces import box, stl

TEXT = """solid part
 facet normal 0 0 1
  outer loop
   vertex 0 0 0
   vertex 1.5 0 0
   vertex 0 2e0 0
  endloop
 endfacet
endsolid
"""


def said(data: bytes) -> str:
    slip = stl_triangles(data)
    assert isinstance(slip, Slip)
    return slip.message


def test_binary() -> None:
    found = stl_triangles(stl(box((10, 20, 30))))
    assert isinstance(found, np.ndarray)
    assert found.shape == (12, 3, 3)
    assert found.max(axis=(0, 1)).tolist() == [10, 20, 30]


def test_binary_whose_head_begins_as_a_text_would() -> None:
    data = b"solid thing".ljust(80) + stl(box((10, 20, 30)))[80:]
    found = stl_triangles(data)
    assert isinstance(found, np.ndarray)
    assert len(found) == 12


def test_text() -> None:
    found = stl_triangles(TEXT.encode())
    assert isinstance(found, np.ndarray)
    assert found.tolist() == [[[0, 0, 0], [1.5, 0, 0], [0, 2, 0]]]


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"Dear reader, this is a letter.", "this is no STL file, whatever its name says"),
        (b"Dear reader, " * 20, "this is no STL file, whatever its name says"),
        (bytes(range(256)) * 3, "this is no STL file, whatever its name says"),
        (stl(box((1, 2, 3)))[:-60], "its head says 12 triangles, but 10 are there"),
        (TEXT.replace("1.5 0 0", "1,5 0 0").encode(), "line 5: `1,5` is no number"),
        (TEXT.replace("   vertex 0 2e0 0\n", "").encode(), "the last triangle has fewer than three corners"),
        (TEXT.replace("2e0 0", "2e0").encode(), "line 6: `endloop` is no number"),
    ],
)
def test_what_is_wrong(data: bytes, message: str) -> None:
    assert said(data) == message
