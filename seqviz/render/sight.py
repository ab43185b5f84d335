"""From where the work on the bench is looked at, whichever way it lies there."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.render.view import Margins, View, fitted_view
from seqviz.scene.views import first_view

__all__ = ["Sight", "closer", "first_sight", "from_other_side", "shifted", "turned", "view_of"]
__all__ += ["whole_in_sight"]

_STEEPEST = 89.0  # degrees; straight from above there is no telling what is up in the picture
_AROUND = 0.08  # of the picture, kept free at its edges


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sight:
    """Where the eye is.

    Attributes
    ----------
    turn, tilt
        Degrees: about the bench's upright, from its x axis; and above the bench, below it where negative.
    centre
        ``(3,)`` mm, base frame: what stands in the middle of the picture.
    half
        mm, half the height of the picture.
    """

    turn: float
    tilt: float
    centre: Array
    half: float


def view_of(sight: Sight, lie: Array, size: tuple[int, int]) -> View:
    """Return the view in a picture of ``size`` pixels; ``lie``: ``(3, 3)``, base frame to the bench's."""
    scale = size[1] / 2.0 / sight.half
    return View(towards=_towards(sight, lie), up=lie[2], centre=sight.centre, scale=scale, size=size)


def first_sight(lie: Array) -> Sight:
    """Return the sight to begin with: as pictures have it, from behind, to one side, from above."""
    x, y, z = first_view(np.array([0.0, 0.0, 1.0]), np.array([0.0, 1.0, 0.0])).tolist()
    turn, tilt = np.degrees(np.arctan2(y, x)), np.degrees(np.arcsin(z))
    return Sight(turn=float(turn), tilt=float(tilt), centre=np.zeros(3) @ lie, half=100.0)


def whole_in_sight(sight: Sight, lie: Array, points: Array, size: tuple[int, int]) -> Sight:
    """Return the sight moved so that all ``(n, 3)`` ``points`` of the base frame fill the picture."""
    around = Margins(
        left=size[0] * _AROUND,
        right=size[0] * _AROUND,
        top=size[1] * _AROUND,
        bottom=size[1] * 2 * _AROUND,
    )
    view = fitted_view(points, _towards(sight, lie), lie[2], size, around)
    return replace(sight, centre=view.centre, half=size[1] / 2.0 / view.scale)


def turned(sight: Sight, pixels: tuple[float, float], height: int) -> Sight:
    """Return the sight after a drag by so many pixels to the right and up: the work goes with the hand."""
    across, upward = (180.0 * pixel / height for pixel in pixels)
    tilt = float(np.clip(sight.tilt - upward, -_STEEPEST, _STEEPEST))
    return replace(sight, turn=(sight.turn - across) % 360.0, tilt=tilt)


def shifted(sight: Sight, view: View, pixels: tuple[float, float]) -> Sight:
    """Return the sight after the work was shifted by so many pixels to the right and up."""
    right, top, _ = view.axes
    return replace(sight, centre=sight.centre - (right * pixels[0] + top * pixels[1]) / view.scale)


def closer(sight: Sight, factor: float) -> Sight:
    """Return the sight with everything ``factor`` times as large."""
    return replace(sight, half=float(np.clip(sight.half / factor, 1.0, 1e5)))


def from_other_side(sight: Sight) -> Sight:
    """Return the sight from under the bench, or from above again."""
    return replace(sight, tilt=-sight.tilt if abs(sight.tilt) > 5.0 else -40.0)


def _towards(sight: Sight, lie: Array) -> Array:
    turn, tilt = np.radians([sight.turn, sight.tilt])
    return np.array([np.cos(tilt) * np.cos(turn), np.cos(tilt) * np.sin(turn), np.sin(tilt)]) @ lie
