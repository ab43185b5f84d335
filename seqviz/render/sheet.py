"""Puts a picture together: the drawn work, what is written over it, the words above and the key below."""

from __future__ import annotations

from collections import Counter

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from seqviz.render.captions import draw_caption
from seqviz.render.closeup import corner_for, paste_closeup
from seqviz.render.draw import Drawing
from seqviz.render.ink import PAPER, SCALE
from seqviz.render.labels import Page, Placed, Wish, deepest_pixel, draw_label, lines_of, place_labels
from seqviz.render.legend import LEGEND, draw_forward, draw_legend, draw_turn
from seqviz.render.marks import Spot, draw_marks, spots_of, symbol_radius
from seqviz.render.seen import Seen
from seqviz.render.shots import Shot
from seqviz.render.strokes import draw_arrow, draw_guides, draw_through
from seqviz.scene.picture import Scene

__all__ = ["compose", "labels_of"]

Mask = NDArray[np.bool_]
_LEAST_SEEN = 40  # cells
_HIDDEN = 0.3  # a new part less seen is drawn through what hides it


def compose(shot: Shot, drawing: Drawing, close: Drawing | None, size: tuple[int, int]) -> Image.Image:
    """Return the finished picture of ``size`` pixels.

    Parameters
    ----------
    shot
        The scene, its caption and what is seen of it.
    drawing, close
        The drawn work at `SCALE` times the picture's size, and a close-up of it where one is needed.
    """
    scene, view = shot.scene, drawing.view
    factor = view.size[0] / shot.seen.view.size[0]
    work, spots, strokes = _inked(shot, drawing)
    if close is not None:
        left, top = corner_for(shot, view, close.view.size)
        paste_closeup(work, view, _inked(shot, close)[0], close.view, np.array([left, top]))
        strokes[top : top + close.view.size[1], left : left + close.view.size[0]] = True
    draw = ImageDraw.Draw(work)
    for label in labels_of(shot, spots, strokes, factor):
        draw_label(draw, label, factor / SCALE)
    draw_forward(draw, scene, view)
    if scene.turn is not None:
        draw_turn(draw, scene.turn, view)
    sheet = Image.new("RGB", (size[0] * SCALE, size[1] * SCALE), PAPER)
    sheet.paste(work, (0, (size[1] - LEGEND) * SCALE - work.height))
    over = ImageDraw.Draw(sheet)
    draw_caption(over, shot.caption)
    draw_legend(over, scene, Counter(spot.mark.kind for spot in spots if spot.at is None), size)
    return sheet.resize(size, Image.Resampling.LANCZOS)


def _inked(shot: Shot, drawing: Drawing) -> tuple[Image.Image, list[Spot], Mask]:
    """Return a drawing with guides, arrows and marks, the marks' places, and where arrows stand."""
    scene, view, depth = shot.scene, drawing.view, drawing.depth
    picture = Image.fromarray(np.ascontiguousarray(drawing.pixels))
    spots = spots_of(scene, view, depth)
    strokes = np.zeros(depth.shape, dtype=bool)
    for arrow in scene.arrows:
        draw_guides(picture, view, depth, arrow)
        strokes |= draw_arrow(picture, view, depth, arrow, spots)
    for k in _hidden(shot.seen):
        draw_through(picture, view, shot.bodies[k])
    draw_marks(picture, spots)
    return picture, spots, strokes


def labels_of(shot: Shot, spots: list[Spot], strokes: Mask, factor: float) -> list[Placed]:
    """Return the labels that found a place; ``factor``: pixels of the drawing to one of the small picture."""
    scene, seen = shot.scene, shot.seen
    marks = _mark_cells(spots, seen, factor)
    step = round(factor)
    rows, columns = seen.ids.shape
    arrows = strokes[: rows * step, : columns * step].reshape(rows, step, columns, step).any(axis=(1, 3))
    new = np.isin(seen.ids, list(seen.alone))
    index = {item.name: k for k, item in enumerate(scene.items)}
    wishes = []
    for label in scene.labels:
        own = (seen.ids == index[label.part]) & ~marks & ~arrows
        anchor = deepest_pixel(own)
        # What shows through a hole is no place to point at.
        if anchor is None and label.wanted:
            anchor = seen.view.project(shot.bodies[index[label.part]].vertices.mean(axis=0))[:2]
        if anchor is not None and (label.wanted or own.sum() >= _LEAST_SEEN):
            lines = lines_of(label.part, wanted=label.wanted)
            wishes.append(Wish(lines=lines, anchor=anchor, wanted=label.wanted))
    taken = marks | arrows | new | _corners_taken(scene, seen) | _drawn_through(shot)
    page = Page(drawn=seen.ids >= 0, taken=taken, shunned=marks | arrows, cell=factor / SCALE)
    return place_labels(wishes, page)


def _mark_cells(spots: list[Spot], seen: Seen, factor: float) -> Mask:
    """Return the small picture's cells that marks cover; a mark reaches up as far as the tallest symbol."""
    cells = np.zeros(seen.ids.shape, dtype=bool)
    radius = symbol_radius(spots) / factor + 1.0
    for at in (spot.at for spot in spots if spot.at is not None):
        left, right = at[0] / factor - 1.3 * radius, at[0] / factor + 1.3 * radius
        top, bottom = at[1] / factor - 2.6 * radius, at[1] / factor + 1.3 * radius
        cells[max(round(top), 0) : round(bottom) + 1, max(round(left), 0) : round(right) + 1] = True
    return cells


def _corners_taken(scene: Scene, seen: Seen) -> Mask:
    """Keep the corners of the forward arrow and of the turn symbol free of labels."""
    cells = np.zeros(seen.ids.shape, dtype=bool)
    rows, columns = seen.ids.shape
    cells[rows - 32 :, :64] = True
    if scene.turn is not None:
        cells[:68, columns - 72 :] = True
    return cells


def _hidden(seen: Seen) -> list[int]:
    return [k for k in seen.alone if seen.share(k) < _HIDDEN]


def _drawn_through(shot: Shot) -> Mask:
    """Return the boxes of cells around new parts that are drawn through what hides them."""
    cells = np.zeros(shot.seen.ids.shape, dtype=bool)
    for k in _hidden(shot.seen):
        places = shot.seen.view.project(shot.bodies[k].vertices)[:, :2]
        (left, top), (right, bottom) = places.min(axis=0), places.max(axis=0)
        cells[max(int(top), 0) : int(bottom) + 2, max(int(left), 0) : int(right) + 2] = True
    return cells
