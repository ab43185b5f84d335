"""Triangles of an OBJ file: its corners (v) and faces (f); everything else in it is passed over."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.units import Slip

__all__ = ["obj_triangles"]

_WHY = "An OBJ file has lines `v x y z` for corners, and lines `f 1 2 3` for faces that count the corners."


@dataclass(slots=True, eq=False)
class _Read:
    """Corners, and three corner numbers for each triangle, as far as the file was read."""

    corners: list[tuple[float, float, float]] = field(default_factory=list)
    triangles: list[tuple[int, int, int]] = field(default_factory=list)


def obj_triangles(data: bytes) -> Array | Slip:
    """Return the ``(n, 3, 3)`` corners of an OBJ file's triangles in its own unit, or what is wrong with it.

    A face of more than three corners is cut into triangles from its first corner.
    """
    read = _Read()
    for number, line in enumerate(data.replace(b"\\\n", b" ").decode("latin-1").splitlines(), start=1):
        words = line.split()
        if not words or words[0] not in ("v", "f"):
            continue
        mistake = (_corner if words[0] == "v" else _face)(read, words[1:])
        if mistake:
            return Slip(message=f"line {number}: {mistake}", why=_WHY, fix="Save the part as OBJ again.")
    if not read.triangles:
        return Slip(message="there are no faces in it", why=_WHY, fix="Save the part's surface as OBJ.")
    faces = np.array(read.triangles)
    if faces.max() >= len(read.corners):
        # Corners may stand behind the faces that name them; a line number would not help.
        return Slip(
            message=f"a face names corner {faces.max() + 1}, but there are {len(read.corners)}",
            why=_WHY,
            fix="The file was cut off. Save or fetch it again.",
        )
    return np.asarray(np.array(read.corners)[faces], dtype=np.float64)


def _corner(read: _Read, words: list[str]) -> str | None:
    try:
        x, y, z = (float(word) for word in words[:3])
    except ValueError:
        return f"`v {' '.join(words)[:40]}` is no corner"
    read.corners.append((x, y, z))
    return None


def _face(read: _Read, words: list[str]) -> str | None:
    try:
        named = [int(word.partition("/")[0]) for word in words]
    except ValueError:
        return f"`f {' '.join(words)[:40]}` is no face"
    # Negative numbers count back from the corner read last.
    ring = [one - 1 if one > 0 else len(read.corners) + one for one in named]
    if len(ring) < 3 or 0 in named or min(ring) < 0:
        return f"`f {' '.join(words)[:40]}` is no face"
    read.triangles += [(ring[0], a, b) for a, b in pairwise(ring[1:])]
    return None
