"""Round bodies as prisms: a little inside them to ask, a little around them to show."""

from __future__ import annotations

import numpy as np

from seqviz.geometry.access import Cylinder
from seqviz.geometry.pose import Pose, any_across, cross, frozen
from seqviz.geometry.prism import Prism

__all__ = ["prism_around", "prism_inside"]

_INSIDE, _AROUND = 8, 24
"""Corners of the two prisms; that around it is 0.9 % too wide at its corners (project choice)."""


def prism_inside(round_one: Cylinder) -> Prism:
    """Return a prism with its corners on the cylinder: never says that something is met that is not."""
    return _prism(round_one, _INSIDE, round_one.radius)


def prism_around(round_one: Cylinder) -> Prism:
    """Return a prism with its faces on the cylinder: what the cylinder meets is met in the picture too."""
    return _prism(round_one, _AROUND, round_one.radius / float(np.cos(np.pi / _AROUND)))


def _prism(round_one: Cylinder, corners: int, radius: float) -> Prism:
    angles = np.arange(corners) * 2.0 * np.pi / corners
    first = any_across(round_one.axis)
    rotation = np.column_stack([first, cross(round_one.axis, first), round_one.axis])
    return Prism(
        polygon=frozen(radius * np.column_stack([np.cos(angles), np.sin(angles)])),
        height=round_one.length,
        frame=Pose(rotation=frozen(rotation), translation=frozen(round_one.start)),
    )
