"""Colours of the parts in the window: plain, by their layer, or by the step that brings them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seqviz.build import Build
from seqviz.render.desk_state import Shading
from seqviz.render.ink import BLUE, GREY

__all__ = ["Shades", "shades_of"]

Colour = tuple[int, int, int]

# Okabe and Ito's colours, brought up with white so that dark lines and numbers stand out.
_LAYERS: tuple[Colour, ...] = (
    (247, 224, 130),
    (150, 205, 240),
    (245, 178, 110),
    (128, 205, 178),
    (228, 178, 208),
    (190, 190, 215),
)
_EARLY, _LATE = np.array([250.0, 250.0, 238.0]), np.array([58.0, 132.0, 186.0])
_UNSAID: Colour = (225, 225, 225)
_BANDS = 6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shades:
    """What parts are coloured by: placed part -> its layer, from 1; and the step that brings it."""

    layers: Mapping[str, int]
    steps: Mapping[str, int]
    last: int

    def colours(self, names: Iterable[str], new: frozenset[str], shading: Shading) -> NDArray[np.uint8]:
        """Return ``(n, 3)``, the colours of parts; those that are ``new`` stand out where all is plain."""
        return np.array([self._colour(name, new, shading) for name in names], dtype=np.uint8).reshape(-1, 3)

    def numbers(self, shading: Shading) -> Mapping[str, int]:
        """Return what is written on the parts."""
        return {"plain": {}, "by layer": self.layers, "by step": self.steps}[shading]

    def key(self, names: Iterable[str], shading: Shading) -> tuple[tuple[Colour, str], ...]:
        """Return the colours of the parts that are there, with words."""
        there = {self.numbers(shading).get(name) for name in names} if shading != "plain" else set()
        told = sorted(number for number in there if number is not None)
        if shading == "by layer":
            rows = [(self._layer(number), _layer_words(number)) for number in told]
        else:
            picked = (
                [told[k] for k in sorted({*np.linspace(0, len(told) - 1, _BANDS).astype(int)})]
                if told
                else []
            )
            rows = [
                (self._step(number), f"came in step {number}" if number else "there from the start")
                for number in picked
            ]
        return (*rows, (_UNSAID, "no number")) if None in there else tuple(rows)

    def _colour(self, name: str, new: frozenset[str], shading: Shading) -> Colour:
        if shading == "plain":
            return BLUE if name in new else GREY
        number = self.numbers(shading).get(name)
        if number is None:
            return _UNSAID
        return self._layer(number) if shading == "by layer" else self._step(number)

    def _layer(self, number: int) -> Colour:
        return _LAYERS[min(number, len(_LAYERS)) - 1]

    def _step(self, number: int) -> Colour:
        red, green, blue = (_EARLY + (_LATE - _EARLY) * (number / max(self.last, 1))).round().tolist()
        return int(red), int(green), int(blue)


def shades_of(build: Build) -> Shades:
    """Return the layers and steps of a build's parts; a layer is the one of most of its stacks."""
    assembly = build.assembly
    counts: dict[str, Counter[int]] = {name: Counter() for name in assembly.placed}
    for stack in assembly.stacks:
        if stack.joins:
            for number, part in enumerate(stack.parts, start=1):
                counts[part][number] += 1
    steps = build.replay.placed_at if build.replay else {}
    return Shades(
        layers={name: max(sorted(count), key=count.__getitem__) for name, count in counts.items() if count},
        steps=steps,
        last=max(steps.values(), default=1),
    )


def _layer_words(number: int) -> str:
    return "mostly layer 1, under the heads" if number == 1 else f"mostly layer {number}"
