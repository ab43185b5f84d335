"""Triangles of an STL file, binary or text."""

from __future__ import annotations

import re

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.units import Slip

__all__ = ["stl_triangles"]

_HEAD, _EACH = 84, 50
_BINARY = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])
_VERTEX = re.compile(rb"vertex\s+(\S+)\s+(\S+)\s+(\S+)", re.IGNORECASE)
_WHY = "An STL file is a list of triangles: binary with their count in its head, or text with `facet` lines."


def stl_triangles(data: bytes) -> Array | Slip:
    """Return the ``(n, 3, 3)`` corners of an STL file's triangles in its own unit, or what is wrong."""
    text = data[:512].lstrip().lower().startswith(b"solid") and b"facet" in data[:4096].lower()
    if len(data) >= _HEAD and not text:
        count = int.from_bytes(data[80:84], "little")
        if _HEAD + _EACH * count <= len(data) <= _HEAD + _EACH * count + 2 * _EACH:
            return np.asarray(np.frombuffer(data, _BINARY, count, _HEAD)["corners"], dtype=np.float64)
        if not _readable(data):
            return _cut_off(count, (len(data) - _HEAD) // _EACH)
    if not text:
        return _no_stl()
    return _of_text(data)


def _of_text(data: bytes) -> Array | Slip:
    found = _VERTEX.findall(data)
    try:
        numbers = np.array(found, dtype="S").astype(np.float64)
    except ValueError:
        return _no_number(data)
    if len(found) % 3 or len(found) != data.lower().count(b"vertex"):
        return Slip(
            message="the last triangle has fewer than three corners",
            why=_WHY,
            fix="The file was cut off. Save or fetch it again.",
        )
    return numbers.reshape(-1, 3, 3)


def _no_number(data: bytes) -> Slip:
    for found in _VERTEX.finditer(data):
        for text in found.groups():
            try:
                float(text)
            except ValueError:
                line = data.count(b"\n", 0, found.start()) + 1
                shown = text[:20].decode("utf-8", "replace")
                return Slip(message=f"line {line}: `{shown}` is no number", why=_WHY, fix="Save it again.")
    return _no_stl()


def _readable(data: bytes) -> bool:
    """Say whether the file is text."""
    return not re.search(rb"[\x00-\x08\x0e-\x1f]", data[:2000])


def _no_stl() -> Slip:
    return Slip(
        message="this is no STL file, whatever its name says", why=_WHY, fix="Save the part as STL again."
    )


def _cut_off(count: int, there: int) -> Slip:
    if count > 100 * max(there, 1):
        return _no_stl()
    return Slip(
        message=f"its head says {count} triangles, but {max(there, 0)} are there",
        why=_WHY,
        fix="The file was cut off. Save or fetch it again.",
    )
