"""Puts the marks of a step on the holes that are seen."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from seqviz.geometry.pose import Array
from seqviz.render.seen import rims_of
from seqviz.render.symbols import draw_dashed_ring, draw_symbol
from seqviz.render.view import View
from seqviz.render.window import Depths
from seqviz.scene.picture import Mark, Scene

__all__ = ["Spot", "draw_marks", "spots_of", "symbol_radius"]

_LARGEST, _SMALLEST = 30.0, 11.0  # pixels of the large picture


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spot:
    """A mark's place in the picture, (2,) pixels.

    ``at``: None where its hole is not seen; then ``behind`` is where it would be, but for what hides it.
    """

    mark: Mark
    at: Array | None
    behind: Array | None = None


def spots_of(scene: Scene, view: View, depth: Depths) -> list[Spot]:
    """Return where each mark of a scene stands in a view with these depths."""
    ends = rims_of(scene.marks).seen(view, depth)
    return [
        Spot(mark=mark, at=None, behind=view.project(mark.ends[0].point)[:2])
        if end is None
        else Spot(mark=mark, at=view.project(end.point)[:2])
        for mark, end in zip(scene.marks, ends, strict=True)
    ]


def symbol_radius(spots: list[Spot]) -> float:
    """Return half the width of the symbols: neighbours do not touch, and they stay legible."""
    places = np.array([spot.at for spot in spots if spot.at is not None])
    if len(places) < 2:
        return _LARGEST
    away = np.linalg.norm(places[:, np.newaxis] - places, axis=2)
    away[np.diag_indices(len(places))] = np.inf
    return float(np.clip(np.percentile(away.min(axis=1), 10) * 0.42, _SMALLEST, _LARGEST))


def draw_marks(picture: Image.Image, spots: list[Spot]) -> None:
    """Draw all marks that are seen, far ones first; under them a dashed ring for each that is hidden."""
    draw = ImageDraw.Draw(picture)
    radius = symbol_radius(spots)
    for spot in spots:
        if spot.behind is not None and spot.mark.kind != "still open":
            draw_dashed_ring(draw, (float(spot.behind[0]), float(spot.behind[1])), radius)
    seen = [(spot.at, spot.mark) for spot in spots if spot.at is not None]
    for at, mark in sorted(seen, key=lambda pair: float(pair[0][1])):
        draw_symbol(draw, mark.kind, (float(at[0]), float(at[1])), radius)
