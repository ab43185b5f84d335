"""Points and directions in the frame of a part, and frames made of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from seqviz.geometry.pose import Array, Pose, cross, frozen, unit
from seqviz.records.kinds import Choice, Number
from seqviz.records.lists import Numbers
from seqviz.records.nodes import Items, Node
from seqviz.records.reading import Reading

__all__ = ["SPOT", "Direction", "Vector", "frame_of"]

Vector = tuple[float, float, float]

SPOT = Numbers(count=3, label="a point [x, y, z]")

_AXES: dict[str, Vector] = {
    "+x": (1.0, 0.0, 0.0),
    "-x": (-1.0, 0.0, 0.0),
    "+y": (0.0, 1.0, 0.0),
    "-y": (0.0, -1.0, 0.0),
    "+z": (0.0, 0.0, 1.0),
    "-z": (0.0, 0.0, -1.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}
_WORD = Choice(words=tuple(_AXES), label="a direction", exact=True)
_THREE = Numbers(count=3, each=Number(low=-1e6), label="a direction [x, y, z]")

SQUARE = 1e-3
"""Cosine: directions that are this close to square are square."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Direction:
    """A direction in the part's own frame: ``+x``, ``up``, or three numbers of any length."""

    label: str = "a direction: up, down, +x, -y, .. or [x, y, z]"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> Vector | None:
        """Return the unit vector."""
        if not isinstance(node, Items):
            word = _WORD.read(reading, node)
            return None if word is None else _AXES[word]
        numbers = _THREE.read(reading, node)
        if numbers is None:
            return None
        long = float(np.linalg.norm(numbers))
        if long < 1e-9:
            reading.bad(node, "This direction is zero.", "It points nowhere.", "Write one such as [0, 0, 1].")
            return None
        x, y, z = (float(number) / long for number in numbers)
        return (x, y, z)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [_WORD.schema(), _THREE.schema()]}


def frame_of(point: Vector, x_along: Vector, y_along: Vector) -> Pose | None:
    """Return the frame at ``point`` (mm) with these axes, None where they are not square to each other."""
    x, y = np.array(x_along), np.array(y_along)
    if abs(float(x @ y)) > SQUARE:
        return None
    y = unit(y - x * (x @ y))
    return Pose(rotation=frozen(_columns(x, y, cross(x, y))), translation=frozen(point))


def _columns(x: Array, y: Array, z: Array) -> Array:
    return np.column_stack([x, y, z])
