"""All meshes of a film, made once and joined; what is drawn at a time is chosen out of them by numbers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.pose import Array
from seqviz.render.meshes import Body, Meshes, joined_bodies, round_body
from seqviz.scene.film_types import Film, Fixed
from seqviz.scene.picture import Fitted, Item

__all__ = ["Lot", "Stock", "lot_of", "stock_of"]

_MANY = 4000
"""Heads, tails and pins from which on they have fewer sides: their triangles are most of what is drawn."""

Numbers = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lot:
    """Many bodies as one.

    Attributes
    ----------
    body
        All of them joined.
    faces, edges
        For each triangle and edge the number of the body that it is of.
    low, high
        ``(n, 3)`` mm, the boxes around the bodies.
    """

    body: Body
    faces: Numbers
    edges: Numbers
    low: Array
    high: Array

    def some(self, numbers: Iterable[int]) -> Body:
        """Return the bodies with these ``numbers``, joined; the vertices of all are kept."""
        wanted = np.zeros(len(self.low), dtype=bool)
        wanted[list(numbers)] = True
        faces, edges = self.body.faces[wanted[self.faces]], self.body.edges[wanted[self.edges]]
        return Body(vertices=self.body.vertices, faces=faces, edges=edges)

    def faces_of(self, numbers: Iterable[int]) -> Numbers:
        """Return for each triangle of `some` the number of its body."""
        wanted = np.zeros(len(self.low), dtype=bool)
        wanted[list(numbers)] = True
        return self.faces[wanted[self.faces]]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stock:
    """What a film is drawn with.

    Attributes
    ----------
    number
        Placed part -> its number in ``parts``.
    parts
        The placed parts in their places, base frame.
    fixed
        What stands in holes, numbered as `Film.fixed` is.
    """

    number: dict[str, int]
    parts: Lot
    fixed: Lot

    @property
    def names(self) -> tuple[str, ...]:
        """The placed parts by their numbers."""
        return tuple(self.number)


def stock_of(film: Film, meshes: Meshes) -> Stock:
    """Return the stock of a film; ``meshes`` keeps what was meshed before."""
    items: dict[str, Item] = {}
    for moment in film.moments:
        for item in moment.scene.items:
            items.setdefault(item.name, item)
    bodies = [_in_place(meshes, item) for item in items.values()]
    sides = 12 if len(film.fixed) < _MANY else 6
    return Stock(
        number={name: k for k, name in enumerate(items)},
        parts=lot_of(bodies),
        fixed=lot_of([round_body(_as_fitted(one), sides) for one in film.fixed]),
    )


def lot_of(bodies: Sequence[Body]) -> Lot:
    """Return bodies as one lot."""
    numbers = np.arange(len(bodies))
    low = [body.vertices.min(axis=0) for body in bodies]
    high = [body.vertices.max(axis=0) for body in bodies]
    return Lot(
        body=joined_bodies(bodies),
        faces=np.repeat(numbers, [len(body.faces) for body in bodies]),
        edges=np.repeat(numbers, [len(body.edges) for body in bodies]),
        low=np.array(low).reshape(-1, 3),
        high=np.array(high).reshape(-1, 3),
    )


def _in_place(meshes: Meshes, item: Item) -> Body:
    drawn = meshes.body(item)
    return Body(vertices=drawn.vertices - item.shift, faces=drawn.faces, edges=drawn.edges)


def _as_fitted(one: Fixed) -> Fitted:
    return Fitted(
        stack=one.stack,
        point=one.point,
        outward=one.outward,
        diameter=one.diameter,
        height=one.height,
        pin=one.kind == "pin",
    )
