"""Parts cut from stock: length and holes come from the row beneath."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.pose import Array
from seqviz.parts.body import Body
from seqviz.parts.drilling import holes_on
from seqviz.parts.formed import FORMED, formed_body
from seqviz.parts.mistakes import bad_value, plain
from seqviz.parts.part import Flat, Part
from seqviz.parts.sizes import HoleSize
from seqviz.parts.solid import solid_body
from seqviz.records.model import BarShape, Points, Row, Stock

__all__ = ["part_from_stock", "row_of_points", "stock_mistake"]

_TRIAL_LENGTH = 1000.0  # mm; stock has no length of its own, so its other sizes are tried with this one


@lru_cache(maxsize=64)
def stock_mistake(stock: Stock) -> Finding | None:
    """Return the mistake in a piece of stock, or None; asked again for each part that is cut from it."""
    body = _body(stock, stock.name, _TRIAL_LENGTH, stock.at)
    if isinstance(body, Finding):
        return body
    y = _flat(stock, body).outline[:, 1]
    low, high = float(y.min()), float(y.max())
    if not low < stock.row_in < high:
        return bad_value(
            stock.at,
            f"{stock.name}: a row {plain(stock.row_in)} in lies off the flat, which reaches "
            f"from {plain(low)} to {plain(high)}.",
            "Row in is measured from the outer corner of a bent part, from the right edge of a bar.",
            "Correct row in, the widths or the bend radius.",
        )
    if not stock.ends > 0:
        return bad_value(
            stock.at,
            f"{stock.name}: the ends must reach beyond the first and the last hole.",
            "Ends is the distance from the first or last hole to the end of the piece.",
            "Write ends above 0.",
        )
    return None


def part_from_stock(
    stock: Stock, name: str, row: str, at: At, distances: Array, sizes: Sequence[HoleSize]
) -> Part | None:
    """Return the piece of ``stock`` that lies along a row; None where the stock has a mistake.

    Parameters
    ----------
    stock
        Its mistakes are reported once, by `seqviz.parts.make.make_parts`.
    name, row, at
        Of the part made, of its one row of holes, and the place in the file that asks for it.
    distances
        ``(n,)``, mm, of holes 1 to n along the piece from its first hole; may run backwards from the last.
    sizes
        Of holes 1 to n.

    Notes
    -----
    The part is ``ends`` longer than the row at either end. The holes lie on the flat that the stock's ``row
    on`` says, or on its first, ``row in`` from the outer corner; of a bar on ``top``, ``row in`` from its
    right edge (y = 0).
    """
    body = _body(stock, name, float(np.max(distances)) + 2 * stock.ends, at)
    if isinstance(body, Finding) or stock_mistake(stock):
        return None
    places = np.column_stack([stock.ends + distances, np.full(len(distances), stock.row_in)])
    record = row_of_points(row, places, at)
    each = dict(enumerate(sizes, start=1))
    return Part(
        name=name,
        shape="bar" if isinstance(stock.shape, BarShape) else FORMED[type(stock.shape)],
        flats=body.flats,
        pieces=body.pieces,
        piece_flats=body.piece_flats,
        holes=tuple(holes_on(record, row, _flat(stock, body), places, each)),
        twins={},
        at=at,
    )


def _body(stock: Stock, name: str, length: float, at: At) -> Body | Finding:
    shape = replace(stock.shape, length=length)
    return solid_body(name, shape, at) if isinstance(shape, BarShape) else formed_body(name, shape, at)


def _flat(stock: Stock, body: Body) -> Flat:
    return body.flats[stock.row_on] if stock.row_on else next(iter(body.flats.values()))


def row_of_points(name: str, places: Array, at: At) -> Row:
    """Return the record of a row with holes at ``places`` (n, 2), mm."""
    return Row(
        name=name,
        flat=None,
        layout=Points(points=tuple((float(x), float(y)) for x, y in places)),
        size=None,
        diameter=None,
        exceptions=(),
        skip=(),
        crosses=(),
        both_sides=False,
        at=at,
    )
