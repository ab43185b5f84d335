"""Names of parts beside the drawing, each with a line to its part; never on a new part or a mark."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from PIL import ImageDraw

from seqviz.geometry.pose import Array
from seqviz.render.captions import wrapped
from seqviz.render.ink import BLACK, PAPER, QUIET, SCALE, font

__all__ = ["LABEL_CAP", "Page", "Placed", "Wish", "deepest_pixel", "draw_label", "place_labels"]

LABEL_CAP = 24.0
_WIDEST = 330.0
_LINE = 42.0
_PAD = 8.0
_NEAREST = 5.0  # cells between a label and its part's point, so that a line is seen
_TRIES = 4000
Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Wish:
    """A label to be placed: its lines, the point (column, row) in cells that it names, must it be."""

    lines: tuple[str, ...]
    anchor: Array
    wanted: bool

    def size(self, cell: float) -> tuple[int, int]:
        """Return (width, height) in cells of ``cell`` pixels."""
        face = font(LABEL_CAP, bold=self.wanted)
        width = max(face.getlength(line) for line in self.lines) + 2 * _PAD
        return int(np.ceil(width / cell)), int(np.ceil((len(self.lines) * _LINE + _PAD) / cell))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Placed:
    """A label that found its place: top left ``corner`` (column, row), ``box`` (width, height), cells."""

    wish: Wish
    corner: tuple[int, int]
    box: tuple[int, int]

    @property
    def near(self) -> Array:
        """The point of its box that is nearest to the anchor, where its line ends."""
        low = np.array(self.corner, dtype=np.float64)
        return np.clip(self.wish.anchor, low, low + np.array(self.box))


def lines_of(name: str, *, wanted: bool) -> tuple[str, ...]:
    """Return a name in lines short enough for a label."""
    return tuple(wrapped(name, LABEL_CAP, _WIDEST, bold=wanted))


def deepest_pixel(mask: Mask) -> Array | None:
    """Return (column, row) of the middle of the pixel deepest inside ``mask``, None where it is empty."""
    if not mask.any():
        return None
    inner = mask
    while inner.any():
        last = inner
        padded = np.pad(inner, 1)
        inner = inner & padded[:-2, 1:-1] & padded[2:, 1:-1] & padded[1:-1, :-2] & padded[1:-1, 2:]
    rows, columns = np.nonzero(last)
    away = np.hypot(columns - columns.mean(), rows - rows.mean())
    best = int(np.argmin(away))
    return np.array([columns[best] + 0.5, rows[best] + 0.5])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Page:
    """The small picture as labels see it: masks of ``(rows, columns)`` cells of ``cell`` pixels.

    Attributes
    ----------
    drawn
        Something is drawn there.
    taken
        No label may be there.
    shunned
        No label's line may go there.
    """

    drawn: Mask
    taken: Mask
    shunned: Mask
    cell: float


def place_labels(wishes: Sequence[Wish], page: Page) -> list[Placed]:
    """Place labels one after the other, each as near to its point as it can be.

    Those that must be placed come first. One that need not be is left out where no white paper is near;
    others may cover grey parts.
    """
    placed: list[Placed] = []
    taken = page.taken.copy()
    for wish in wishes:
        free = replace(page, taken=taken)
        found = _place(wish, free, placed)
        if found is None and wish.wanted:
            # Ringed by marks and arrows: better a line across one than a part without its name.
            found = _place(wish, replace(free, shunned=np.zeros_like(page.shunned)), placed)
        if found is not None:
            placed.append(found)
            (column, row), (width, height) = found.corner, found.box
            taken[max(row - 1, 0) : row + height + 1, max(column - 2, 0) : column + width + 2] = True
    return placed


def _place(wish: Wish, page: Page, others: Sequence[Placed]) -> Placed | None:
    box = wish.size(page.cell)
    if box[1] + 2 >= page.taken.shape[0] or box[0] + 2 >= page.taken.shape[1]:
        return None
    cost = _costs(wish, page, box)
    for place in np.argsort(cost, axis=None, kind="stable")[:_TRIES]:
        row, column = divmod(int(place), cost.shape[1])
        if not np.isfinite(cost[row, column]):
            return None
        candidate = Placed(wish=wish, corner=(column, row), box=box)
        if not _over(candidate, page.shunned) and not any(_in_the_way(candidate, other) for other in others):
            return candidate
    return None


def _costs(wish: Wish, page: Page, box: tuple[int, int]) -> Array:
    """Return what a label costs at each top left corner: its distance and what it covers; inf: not there."""
    width, height = box
    covered, free = _sums(page.drawn, box), _sums(page.taken, box) == 0
    row, column = np.mgrid[0 : free.shape[0], 0 : free.shape[1]]
    away = np.hypot(
        wish.anchor[0] - np.clip(wish.anchor[0], column, column + width),
        wish.anchor[1] - np.clip(wish.anchor[1], row, row + height),
    )
    free &= (away >= _NEAREST) & (row > 0) & (column > 0)
    if not wish.wanted:
        # White paper with an edge of it left around the label.
        free &= (_sums(_grown(page.drawn), box) == 0) & (away < 0.3 * page.drawn.shape[1])
    return np.asarray(np.where(free, away + 0.25 * covered / height, np.inf))


def _over(label: Placed, shunned: Mask) -> bool:
    """Say whether a label's line goes over cells that it must not."""
    points = label.wish.anchor + np.linspace(0, 1, 60)[:, np.newaxis] * (label.near - label.wish.anchor)
    column, row = points.astype(int).T
    rows, columns = shunned.shape
    return bool(shunned[np.clip(row, 0, rows - 1), np.clip(column, 0, columns - 1)].any())


def _sums(mask: Mask, box: tuple[int, int]) -> NDArray[np.int64]:
    """Return for each top left corner how many cells of ``mask`` a box there covers."""
    width, height = box
    total = np.pad(mask.astype(np.int64).cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    return np.asarray(
        total[height:, width:] - total[:-height, width:] - total[height:, :-width] + total[:-height, :-width]
    )


def _grown(mask: Mask) -> Mask:
    """Return ``mask`` let out by two cells."""
    grown = np.pad(mask, 2)
    shifted = [np.roll(grown, (r, c), (0, 1)) for r in (-2, 0, 2) for c in (-2, 0, 2)]
    return np.asarray(np.any(shifted, axis=0)[2:-2, 2:-2])


def _in_the_way(one: Placed, other: Placed) -> bool:
    lines = ((one.wish.anchor, one.near), (other.wish.anchor, other.near))
    return _cross(*lines[0], *lines[1]) or _line_meets_box(lines[0], other) or _line_meets_box(lines[1], one)


def _line_meets_box(line: tuple[Array, Array], label: Placed) -> bool:
    points = line[0] + np.linspace(0, 1, 40)[:, np.newaxis] * (line[1] - line[0])
    low = np.array(label.corner) - 1.0
    return bool(((points > low) & (points < low + np.array(label.box) + 2.0)).all(axis=1).any())


def _cross(a: Array, b: Array, c: Array, d: Array) -> bool:
    def side(p: Array, q: Array, r: Array) -> float:
        return float((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]))

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def draw_label(draw: ImageDraw.ImageDraw, label: Placed, cell: float) -> None:
    """Draw a label with its line on a picture drawn at `SCALE`; ``cell``: final pixels a cell."""
    factor = cell * SCALE
    anchor, near = label.wish.anchor * factor, label.near * factor
    for width, colour in ((10, PAPER), (4, BLACK)):
        draw.line((*anchor, *near), fill=colour, width=width)
    for radius, colour in ((11, PAPER), (8, BLACK)):
        draw.ellipse((*(anchor - radius), *(anchor + radius)), fill=colour)
    low = np.array(label.corner) * factor
    high = low + np.array(label.box) * factor
    draw.rectangle((*low, *high), fill=PAPER)
    x = (low[0] + high[0]) / 2
    y = (low[1] + high[1]) / 2 - (len(label.wish.lines) - 1) * _LINE * SCALE / 2
    face = font(LABEL_CAP * SCALE, bold=label.wish.wanted)
    for line in label.wish.lines:
        draw.text((x, y), line, fill=BLACK if label.wish.wanted else QUIET, font=face, anchor="mm")
        y += _LINE * SCALE
