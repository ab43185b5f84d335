"""All that a build gives the window to show: film, meshes, how it lies in each step, colours, words."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seqviz.build import Build
from seqviz.geometry.pose import Array
from seqviz.render.desk_shades import Shades, shades_of
from seqviz.render.desk_stock import Stock, stock_of
from seqviz.render.desk_words import Teller
from seqviz.render.meshes import Meshes
from seqviz.scene.film import film_of
from seqviz.scene.film_types import Film, Moment
from seqviz.scene.playing import Lie, benches_of, lies_of
from seqviz.scene.whole import whole_film

__all__ = ["Show", "show_of"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Show:
    """What can be shown of a build.

    Attributes
    ----------
    lies, benches
        For each step how the work lies, and a number that is the same for steps of the same work.
    reach
        mm, how far from the middle of everything anything is ever drawn.
    """

    build: Build
    film: Film
    stock: Stock
    lies: tuple[Lie, ...]
    benches: tuple[int, ...]
    shades: Shades
    teller: Teller
    reach: float

    def corners(self, step: int) -> Array:
        """Return ``(n, 3)`` mm, corners of the boxes around all that is ever in the work of a step."""
        same = (self.film.moments[k] for k, bench in enumerate(self.benches) if bench == self.benches[step])
        names = dict.fromkeys(item.name for moment in same for item in moment.scene.items)
        return self._boxes([self.stock.number[name] for name in names])

    def _boxes(self, numbers: list[int]) -> Array:
        if not numbers:
            return np.array([[-50.0, -50.0, 0.0], [50.0, 50.0, 10.0]])
        low, high = self.stock.parts.low[numbers], self.stock.parts.high[numbers]
        return np.concatenate([np.where([k & 1, k & 2, k & 4], high, low) for k in range(8)])


def show_of(build: Build) -> Show:
    """Return what can be shown of a build: its steps, or of a model alone the whole structure."""
    film = film_of(build) if build.replay is not None and build.replay.states else whole_film(build)
    stock = stock_of(film, Meshes())
    return Show(
        build=build,
        film=film,
        stock=stock,
        lies=tuple(lies_of(film)),
        benches=tuple(benches_of(film)),
        shades=shades_of(build),
        teller=Teller(build=build),
        reach=_reach(film.moments, stock),
    )


def _reach(moments: tuple[Moment, ...], stock: Stock) -> float:
    paths = (np.linalg.norm(move.path, axis=1).max() for moment in moments for move in moment.moves)
    corners = np.concatenate([stock.parts.low, stock.parts.high])
    size = float(np.linalg.norm(np.ptp(corners, axis=0))) if len(corners) else 100.0
    return size + float(max(paths, default=0.0)) + 50.0
