from __future__ import annotations

from typing import Any

import numpy as np

from seqviz.page.packing import packed, packed_bytes
from seqviz.render.meshes import Body
from tests.page.trial import unpacked

SHEET = Body(
    vertices=np.array([[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [300.0, 120.0, 0.0], [0.0, 120.0, 0.8]]),
    faces=np.array([[0, 1, 2], [0, 2, 3]]),
    edges=np.array([[0, 1], [2, 3]]),
)
STRIP = Body(
    vertices=np.array([[-10.0, 5.0, 1.0], [-9.0, 5.0, 1.0], [-9.0, 6.0, 1.0]]),
    faces=np.array([[0, 1, 2]]),
    edges=np.array([[0, 2]]),
)


def arrays(text: str, span: list[int], kind: str, wide: int) -> Any:
    """Return an array of the page, its differences summed up as the browser does."""
    start, length = span
    rows = np.frombuffer(unpacked(text)[start : start + length], dtype=kind).reshape(-1, wide)
    return np.cumsum(rows, axis=0, dtype=kind)


def test_corners_faces_and_edges_come_back() -> None:
    packing = packed([SHEET, STRIP])
    places = packing.meshes
    corners = arrays(packing.text, places["vertices"], "<u2", 3)
    faces = arrays(packing.text, places["faces"], "<u4", 3)
    edges = arrays(packing.text, places["edges"], "<u4", 2)
    assert [shape["vertices"] for shape in packing.shapes] == [[0, 4], [4, 3]]
    assert [shape["faces"] for shape in packing.shapes] == [[0, 2], [2, 1]]
    assert [shape["edges"] for shape in packing.shapes] == [[0, 2], [2, 1]]
    for shape, body in zip(packing.shapes, (SHEET, STRIP), strict=True):
        first, count = shape["vertices"]
        found = np.array(shape["low"]) + np.array(shape["grain"]) * corners[first : first + count]
        # Half a step of the grid: 300 / 65535 / 2 mm.
        assert np.abs(found - body.vertices).max() < 0.0024
        first, count = shape["faces"]
        assert faces[first : first + count].tolist() == body.faces.tolist()
        first, count = shape["edges"]
        assert edges[first : first + count].tolist() == body.edges.tolist()


def test_arrays_begin_where_a_browser_may_read_them() -> None:
    # 3 corners of 6 bytes are 18: the faces begin at 20, a whole number of 4 bytes.
    packing = packed([STRIP])
    assert packing.meshes == {"vertices": [0, 18], "faces": [20, 12], "edges": [32, 8]}
    assert len(unpacked(packing.text)) == 40


def test_nothing_packs_as_well() -> None:
    packing = packed([])
    assert packing.shapes == []
    assert packing.meshes == {"vertices": [0, 0], "faces": [0, 0], "edges": [0, 0]}
    assert unpacked(packing.text) == b""


def test_the_same_bytes_pack_the_same_at_any_time() -> None:
    # Bytes 4 to 7 of gzip are the time.
    assert packed_bytes(b"rail") == packed_bytes(b"rail")
    assert gzip_time(packed_bytes(b"rail")) == 0


def gzip_time(text: str) -> int:
    import base64

    return int.from_bytes(base64.b64decode(text)[4:8], "little")
