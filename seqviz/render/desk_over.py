"""What is drawn over the work in the window while nothing moves: marks, numbers of parts, forward."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from PIL import Image, ImageDraw

from seqviz.assembly.structure import Stack
from seqviz.geometry.pose import Array
from seqviz.render.desk_stock import Stock
from seqviz.render.ink import BLACK, PAPER, SCALE, VERMILLION, font
from seqviz.render.legend import draw_forward
from seqviz.render.marks import Spot, draw_marks, spots_of
from seqviz.render.seen import points_seen
from seqviz.render.view import View
from seqviz.render.window import Depths
from seqviz.scene.picture import Mark, Scene

__all__ = ["Over", "draw_over", "marks_in_place"]

_CAP = 9.0
_TRIED = 40
_APART = 22.0  # pixels
_RING = 13.0
_FORWARD = (520, 400)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Over:
    """What may be drawn over the work.

    Attributes
    ----------
    scene
        The step, with its marks where the parts are now.
    numbers
        Placed part that is drawn -> the number to write on it.
    picked
        The hole stack that was picked.
    """

    scene: Scene
    stock: Stock
    numbers: Mapping[str, int]
    picked: Stack | None


def draw_over(over: Over, view: View, depth: Depths) -> Image.Image:
    """Return an RGBA picture of the size of ``view``; ``depth`` as it was drawn."""
    width, height = view.size
    sheet = Image.new("RGBA", (width * SCALE, height * SCALE), (*PAPER, 0))
    spots = [_larger(spot) for spot in spots_of(over.scene, view, depth)]
    draw_marks(sheet, spots)
    draw = ImageDraw.Draw(sheet)
    taken: list[Array] = []
    for name, number in over.numbers.items():
        at = _seen_place(over.stock, name, view, depth, taken)
        if at is not None:
            taken.append(at)
            _write(draw, str(number), at * SCALE)
    if over.picked is not None and over.picked.located:
        x, y, _ = (view.project(over.picked.point) * SCALE).tolist()
        for radius, colour in ((_RING + 2.5, PAPER), (_RING + 1.5, VERMILLION)):
            reach = radius * SCALE
            line = round((4 if colour == PAPER else 2.5) * SCALE)
            draw.ellipse((x - reach, y - reach, x + reach, y + reach), outline=colour, width=line)
    small = sheet.reduce(SCALE)
    small.alpha_composite(_forward(over.scene, view), (10, height - _FORWARD[1] // (2 * SCALE) - 70))
    return small


def marks_in_place(scene: Scene, offsets: Mapping[str, Array]) -> Scene:
    """Return the scene with its marks where the parts are now; none on parts that are gone."""
    shifts = {item.name: item.shift for item in scene.items}
    return replace(scene, marks=tuple(_moved(scene.marks, shifts, offsets)))


def _moved(
    marks: tuple[Mark, ...], shifts: Mapping[str, Array], offsets: Mapping[str, Array]
) -> Iterator[Mark]:
    for mark in marks:
        if any(end.part in offsets for end in mark.ends):
            one, other = (
                replace(end, point=end.point - shifts[end.part] + offsets.get(end.part, 0.0))
                for end in mark.ends
            )
            yield replace(mark, ends=(one, other))


def _larger(spot: Spot) -> Spot:
    return Spot(mark=spot.mark, at=None if spot.at is None else spot.at * SCALE)


def _seen_place(stock: Stock, name: str, view: View, depth: Depths, taken: Sequence[Array]) -> Array | None:
    """Return the pixels of the middle of one of the part's larger triangles that nothing hides.

    Places too near those ``taken`` are left free.
    """
    lot = stock.parts
    corners = lot.body.vertices[lot.body.faces[lot.faces == stock.number[name]]]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    largest = np.argsort(-(normals @ view.towards), kind="stable")[:_TRIED]
    middles = corners[largest].mean(axis=1)
    places = view.project(middles[points_seen(view, depth, middles + view.towards)])[:, :2]
    free = (at for at in places if all(np.abs(at - other).max() > _APART for other in taken))
    return next(free, None)


def _write(draw: ImageDraw.ImageDraw, text: str, at: Array) -> None:
    face = font(_CAP * SCALE, bold=True)
    half = (face.getlength(text) / 2 + 4 * SCALE, (_CAP * 0.5 + 4) * SCALE)
    box = (at[0] - half[0], at[1] - half[1], at[0] + half[0], at[1] + half[1])
    draw.rounded_rectangle(box, radius=4 * SCALE, fill=(*PAPER, 215), outline=BLACK, width=1)
    draw.text((at[0], at[1]), text, fill=BLACK, font=face, anchor="mm")


def _forward(scene: Scene, view: View) -> Image.Image:
    """Return the arrow forward, at half the size that pictures have it."""
    drawn = Image.new("RGBA", _FORWARD, (*PAPER, 0))
    draw_forward(ImageDraw.Draw(drawn), scene, replace(view, size=_FORWARD))
    return drawn.reduce(2 * SCALE)
