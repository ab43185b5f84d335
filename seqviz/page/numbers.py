"""Numbers and places as they stand in a page: short ones."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from seqviz.findings import At
from seqviz.geometry.pose import Array, Pose
from seqviz.page.contract import Place, Point, Span

__all__ = ["direction", "millimetres", "place", "pose_numbers", "spans_of"]


def millimetres(values: Array | Sequence[float]) -> Point:
    """Return ``(n,)`` mm to 0.001."""
    return _rounded(values, 3)


def direction(vector: Array) -> Point:
    """Return a unit vector to 1e-5."""
    return _rounded(vector, 5)


def pose_numbers(pose: Pose) -> list[float]:
    """Return a pose as the three rows of its 3 by 4 matrix."""
    rows = zip(pose.rotation, pose.translation.tolist(), strict=True)
    return [number for row, shift in rows for number in (*_rounded(row, 7), _short(shift, 3))]


def place(at: At) -> Place:
    """Return a place in a file."""
    return {"file": at.file, "line": at.line, "column": at.column}


def spans_of(numbers: Sequence[int]) -> list[Span]:
    """Return rising whole numbers as spans, first and last of each included."""
    spans: list[Span] = []
    for number in numbers:
        if spans and number == spans[-1][1] + 1:
            spans[-1][1] = number
        else:
            spans.append([number, number])
    return spans


def _rounded(values: Array | Sequence[float], decimals: int) -> list[float]:
    return [_short(value, decimals) for value in np.asarray(values, dtype=np.float64).tolist()]


def _short(value: float, decimals: int) -> float:
    """Return a number without needless digits; 0 without a sign, whole ones without a point."""
    short = round(value, decimals) + 0.0
    return int(short) if short.is_integer() else short
