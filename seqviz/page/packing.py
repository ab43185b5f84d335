"""Few bytes: gzip as base64; corners as whole numbers on a grid, rows as differences to those before."""

from __future__ import annotations

import base64
import gzip
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.page.contract import MeshesData, ShapeData
from seqviz.page.numbers import millimetres
from seqviz.render.meshes import Body

__all__ = ["Packed", "packed", "packed_bytes"]

_STEPS = 65535
"""Of the grid, along each axis: 0.08 mm on a part of 5 m, less than the wall of any sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """All shapes: what is told of each, where the arrays stand, and the text that holds them."""

    shapes: list[ShapeData]
    meshes: MeshesData
    text: str


def packed(bodies: Sequence[Body]) -> Packed:
    """Return ``bodies`` packed, in the same order, each in its own frame."""
    shapes: list[ShapeData] = []
    corners: list[NDArray[np.uint16]] = []
    starts = [0, 0, 0]
    for body in bodies:
        low, grain, whole = _on_grid(body.vertices)
        corners.append(whole)
        counts = (len(body.vertices), len(body.faces), len(body.edges))
        spans = [[start, count] for start, count in zip(starts, counts, strict=True)]
        starts = [start + count for start, count in zip(starts, counts, strict=True)]
        shapes.append(
            {
                "low": millimetres(low),
                "grain": [float(f"{step:.9g}") for step in grain.tolist()],
                "vertices": spans[0],
                "faces": spans[1],
                "edges": spans[2],
            }
        )
    arrays = (
        _joined(corners, "<u2", 3),
        _joined([body.faces for body in bodies], "<u4", 3),
        _joined([body.edges for body in bodies], "<u4", 2),
    )
    return Packed(
        shapes=shapes, meshes=_places(arrays), text=packed_bytes(b"".join(_padded(one) for one in arrays))
    )


def packed_bytes(data: bytes) -> str:
    """Return ``data`` as base64 of gzip."""
    # No time in it: the same structure gives the same page.
    return base64.b64encode(gzip.compress(data, compresslevel=9, mtime=0)).decode("ascii")


def _on_grid(vertices: Array) -> tuple[Array, Array, NDArray[np.uint16]]:
    """Return the low corner, the grid's steps, and each corner as whole steps from the low one."""
    low = np.round(vertices.min(axis=0, initial=np.inf), 3) if len(vertices) else np.zeros(3)
    size = (vertices - low).max(axis=0) if len(vertices) else np.zeros(3)
    grain = np.maximum(size, 1e-3) / _STEPS
    whole = np.clip(np.round((vertices - low) / grain), 0, _STEPS).astype(np.uint16)
    return low, grain, whole


def _joined(parts: Sequence[NDArray[np.generic]], kind: str, wide: int) -> bytes:
    """Return the rows one under the other, each as its difference to the row before, which packs well."""
    rows = np.concatenate([np.zeros((1, wide), dtype=kind), *(part.astype(kind) for part in parts)])
    return np.diff(rows, axis=0).astype(kind).tobytes()


def _padded(data: bytes) -> bytes:
    """Return ``data`` up to a whole number of four bytes, so that the next array may stand behind it."""
    return data + b"\0" * (-len(data) % 4)


def _places(arrays: tuple[bytes, bytes, bytes]) -> MeshesData:
    corners, faces, edges = arrays
    after = len(_padded(corners))
    return {
        "vertices": [0, len(corners)],
        "faces": [after, len(faces)],
        "edges": [after + len(faces), len(edges)],
    }
