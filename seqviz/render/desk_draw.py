"""Draws one state of the window: few layers, each made again only when other things are in it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.render.desk_show import Show
from seqviz.render.desk_state import Shading, State
from seqviz.render.desk_stock import Lot
from seqviz.render.ink import AMBER, BLUE_LINE, FIT_GREY, GREY_LINE, PIN_GREY, QUIET, VERMILLION
from seqviz.render.meshes import Body
from seqviz.render.view import View
from seqviz.render.window import Window
from seqviz.scene.playing import Instant

__all__ = ["Painter"]

_OLD, _NEW, _PICKED = 1.5, 2.5, 4.0  # pixels
_NEARER = 0.25  # mm by which edges are moved to the eye, so that faces do not eat them
_GLASS = 0.12
_NOTHING = np.zeros(3)

Names = Sequence[str]
Content = tuple[object, ...]
Colour = tuple[int, int, int]


@dataclass(slots=True)
class _Layer:
    """What a layer of the window holds, how far it is off its place, and whether it is of lines."""

    content: Content
    offset: Array
    lines: bool


@dataclass(frozen=True, slots=True, eq=False)
class _Chosen:
    """Some bodies of a lot, not joined before they are drawn."""

    lot: Lot
    numbers: Sequence[int]

    def body(self) -> Body:
        return self.lot.some(self.numbers)


@dataclass(slots=True)
class Painter:
    """Brings the layers of a window in line with a state."""

    window: Window
    show: Show
    kept: dict[str, _Layer] = field(default_factory=dict)
    wanted: set[str] = field(default_factory=set)

    def paint(self, state: State, now: Instant, view: View) -> None:
        """Set all layers and the camera; nothing is drawn yet."""
        self.wanted = set()
        glass = [name for name in now.offsets if name in state.ghosts]
        seen = [name for name in now.offsets if name not in state.hidden and name not in state.ghosts]
        for place, (names, offset) in enumerate(_lots(seen, now)):
            self._parts(f"lot {place}", names, offset, state)
            on, marked = frozenset(names), self._marked(state)
            self._fixed(f"lot {place}", [k for k in now.fixed if self._stands(k, on, marked)], offset)
        if glass:
            self._glass(glass)
        self._picked(state, now)
        for name in self.kept.keys() - self.wanted:
            self.window.drop(name)
            del self.kept[name]
        self._look(view)

    def forget(self, show: Show) -> None:
        """Take everything away: another build is shown from now on."""
        self.window.clear()
        self.kept.clear()
        self.show = show

    def _marked(self, state: State) -> frozenset[int]:
        """Return the stacks whose marks stand for what is in them, as in pictures, while nothing moves."""
        if state.time < 1.0:
            return frozenset()
        return frozenset(mark.stack for mark in self.show.film.moments[state.step].scene.marks)

    def _stands(self, number: int, on: frozenset[str], marked: frozenset[int]) -> bool:
        one = self.show.film.fixed[number]
        return one.part in on and one.stack not in marked

    def _numbers(self, names: Names) -> list[int]:
        return [self.show.stock.number[name] for name in names]

    def _parts(self, layer: str, names: Names, offset: Array, state: State) -> None:
        """Set the layers of parts that stand or move together: what is there, and what is new."""
        scene, lot = self.show.film.moments[state.step].scene, self.show.stock.parts
        new = frozenset(scene.new)
        for role, some, line, width in (
            ("there", [name for name in names if name not in new], GREY_LINE, _OLD),
            ("new", [name for name in names if name in new], BLUE_LINE, _NEW),
        ):
            if some:
                self._solid(f"{layer} {role}", some, offset, state.shading, new)
                self._lines(f"{layer} {role} lines", _Chosen(lot, self._numbers(some)), (line, width), offset)

    def _solid(self, layer: str, names: Names, offset: Array, shading: Shading, new: frozenset[str]) -> None:
        lot, numbers = self.show.stock.parts, self._numbers(names)
        colours = np.zeros((len(lot.low), 3), dtype=np.uint8)
        colours[numbers] = self.show.shades.colours(names, new, shading)

        def make(name: str) -> None:
            self.window.faces(name, lot.some(numbers), colours[lot.faces_of(numbers)])

        self._set(layer, (shading, *names, colours[numbers].tobytes()), offset, make)

    def _fixed(self, layer: str, numbers: Sequence[int], offset: Array) -> None:
        """Set the layers of heads and tails, and of pins."""
        lot, fixed = self.show.stock.fixed, self.show.film.fixed
        for kind, some, colour in (
            ("heads", [k for k in numbers if fixed[k].kind != "pin"], FIT_GREY),
            ("pins", [k for k in numbers if fixed[k].kind == "pin"], PIN_GREY),
        ):
            if some:
                chosen = _Chosen(lot, some)
                self._set(f"{layer} {kind}", tuple(some), offset, self._faces_of(chosen, colour))
                self._lines(f"{layer} {kind} lines", chosen, (GREY_LINE, 1.0), offset)

    def _glass(self, names: Names) -> None:
        chosen = _Chosen(self.show.stock.parts, self._numbers(names))
        self._set("glass", tuple(names), _NOTHING, self._faces_of(chosen, QUIET, _GLASS))
        self._lines("glass lines", chosen, (GREY_LINE, 1.0), _NOTHING)

    def _faces_of(self, chosen: _Chosen, colour: Colour, opacity: float = 1.0) -> Callable[[str], None]:
        return lambda name: self.window.faces(name, chosen.body(), colour, opacity)

    def _picked(self, state: State, now: Instant) -> None:
        """Outline the part that was picked."""
        picked = state.picked
        if picked is None or picked.part not in now.offsets or picked.part in state.hidden:
            return
        chosen = _Chosen(self.show.stock.parts, self._numbers([picked.part]))
        line = (VERMILLION, _PICKED) if picked.stack is None else (AMBER, _NEW)
        self._lines("picked", chosen, line, now.offsets[picked.part])

    def _lines(self, layer: str, chosen: _Chosen, line: tuple[Colour, float], offset: Array) -> None:
        def make(name: str) -> None:
            self.window.lines(name, chosen.body(), *line, _NOTHING)

        self._set(layer, (*chosen.numbers, *line), offset, make, lines=True)

    def _set(
        self, layer: str, content: Content, offset: Array, make: Callable[[str], None], *, lines: bool = False
    ) -> None:
        """Keep a layer that holds this content already, else make it."""
        self.wanted.add(layer)
        known = self.kept.get(layer)
        if known is None or known.content != content:
            self.window.drop(layer)
            make(layer)
        self.kept[layer] = _Layer(content=content, offset=offset, lines=lines)

    def _look(self, view: View) -> None:
        corners = self.show.stock.parts
        middle = (corners.low.min(axis=0) + corners.high.max(axis=0)) / 2 if len(corners.low) else view.centre
        away = float(np.linalg.norm(middle - view.centre))
        for name, layer in self.kept.items():
            self.window.shift(name, layer.offset + view.towards * _NEARER * layer.lines)
        self.window.look(view, self.show.reach + away)


def _lots(names: Names, now: Instant) -> list[tuple[list[str], Array]]:
    """Return the parts that stand or move together, with their offset; those in their places first."""
    lots: dict[tuple[float, ...], list[str]] = {(0.0, 0.0, 0.0): []}
    for name in names:
        lots.setdefault(tuple(now.offsets[name].tolist()), []).append(name)
    return [(some, np.array(offset)) for offset, some in lots.items()]
