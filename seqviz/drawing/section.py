"""What a section through a hole stack shows, as plain facts: layers, holes, gaps, what goes in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Literal

import numpy as np

from seqviz.assembly.fastening import sunk_in
from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import Assembly, Layer, Stack
from seqviz.build import Build
from seqviz.geometry.pose import Array, frames_along
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.parts.part import Column, Hole, Part
from seqviz.scene.fasteners import choice_in, fastener_of
from seqviz.scene.sides import side_up
from seqviz.scene.stack import Shut, drawn_shut
from seqviz.sequence.hardware import fastener_in
from seqviz.sequence.replay_types import Replay
from seqviz.trade.choice import LengthChoice
from seqviz.trade.choice_words import take_words
from seqviz.trade.fasteners import BOLT, SOLID_RIVET, Fastener
from seqviz.trade.heads import tail_size

__all__ = ["Bench", "Section", "SectionFastener", "SectionLayer", "section_of"]

Bench = Literal["top", "bottom", "level"]
"""Which end of the drawing faces up on the bench; ``level``: neither."""

_FACES = 0.7  # cosine: less than about 45 degrees away
_SAME_AXIS = 0.005  # mm: holes that lie nearer are drawn on one axis


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionLayer:
    """One layer, mm.

    Attributes
    ----------
    number, name, thickness
        From 1 at the top; the placed part.
    hole
        Diameter; None: undrilled.
    aside
        How far the middle of the hole lies to the right of the middle of the drawing.
    gap
        Clear space below it; 0 where it touches the next one, and under the last.
    shut
        Whether the fastener draws that gap shut; None: nobody can tell.
    inside
        Of another model as one piece: its layers here, (placed part, thickness), the upper first.
    """

    number: int
    name: str
    thickness: float
    hole: float | None
    aside: float = 0.0
    gap: float = 0.0
    shut: bool | None = None
    inside: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionFastener:
    """What goes in, as it is once it is set, mm.

    Attributes
    ----------
    kind, name, diameter
        As in `seqviz.trade.fasteners.Fastener`; what the model calls it.
    length
        What is taken for this grip; None: nothing fits, nobody knows, or the table gives a number only.
    take
        What is taken, as its standard writes it: ``4-5``, ``number 42``, ``AN3-5, 1 washer``; else empty.
    made
        Whether lengths are known and none of them fits.
    head, tail
        (diameter, height) of the manufactured head; of the formed head, bulb, or nut with its washer.
    washers
        How thick each washer under a bolt's nut is, the one at the sheet first; part of its tail.
    end
        How far a bolt stands out of its nut; 0 where its length is not known.
    head_on_top
        Where the manufactured head is.
    sunk
        How deep a flush head sits, its height above the sheet is 0; 0: the head stands out.
    """

    kind: str
    name: str
    diameter: float
    length: float | None
    made: bool
    head: tuple[float, float]
    tail: tuple[float, float]
    washers: tuple[float, ...] = ()
    take: str = ""
    end: float = 0.0
    head_on_top: bool = True
    sunk: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A section through a stack. Two that differ in ``holes`` alone are equal: they look the same.

    Attributes
    ----------
    holes
        All names of the hole.
    layers
        Layer 1 first; it is drawn on top.
    grip, diameter, pin
        mm, as of `seqviz.assembly.structure.Stack`.
    joins
        Whether a fastener holds anything together there.
    fastener
        None: nobody said which, or there is nothing to join.
    top, bottom
        What lies above and below, in words: ``upper side``, ``outside, to the left``; empty: not known.
    bench
        What faces up when the hole is filled; None: no step fills it.
    """

    holes: tuple[str, ...] = field(compare=False)
    layers: tuple[SectionLayer, ...]
    grip: float
    diameter: float
    size: str | None
    pin: float
    joins: bool
    fastener: SectionFastener | None
    top: str
    bottom: str
    bench: Bench | None
    units: str

    @property
    def goes_in(self) -> bool:
        """Say whether the fastener goes through all layers."""
        drilled = all(layer.hole is not None for layer in self.layers)
        return self.fastener is not None and drilled and self.fastener.diameter <= self.pin + GUARD


def section_of(build: Build, stack_index: int) -> Section:
    """Return the section through the stack ``stack_index``, as it is once everything is set.

    What all stacks share is computed once for a build, so that asking for thousands is quick.
    """
    known = _known(build)
    stack = build.assembly.stacks[stack_index]
    x, y, z = stack.axis.round(9).tolist()
    top, bottom = _sides(build.assembly, (x, y, z)) if stack.located else ("", "")
    in_it = known.set_in.get(stack_index)
    return Section(
        holes=stack.holes,
        layers=_layers(build, stack, known),
        grip=_rounded(stack.grip),
        diameter=_rounded(stack.diameter),
        size=stack.size,
        pin=_rounded(stack.pin),
        joins=stack.joins,
        fastener=_fastener(build, stack, in_it),
        top=top,
        bottom=bottom,
        bench=_bench(stack, in_it.up) if in_it else None,
        units=build.model.units,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _SetIn:
    """What fills a hole at the end: what faced up then, the head's side (+1: layer 1's), another fastener."""

    up: Array
    side: int
    use: str | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Known:
    """What all stacks of a build share."""

    holes: Mapping[str, Hole]
    placeless: frozenset[str]
    shut: Shut
    set_in: Mapping[int, _SetIn]


@lru_cache(maxsize=2)
def _known(build: Build) -> _Known:
    placed = build.assembly.placed
    return _Known(
        holes={f"{name}.{hole.name}": hole for name, part in placed.items() for hole in part.holes},
        placeless=frozenset(f"{name}.{hole.name}" for name, part in placed.items() for hole in part.laid),
        shut=drawn_shut(build.assembly),
        set_in=_set_in(build.replay),
    )


def _set_in(replay: Replay | None) -> dict[int, _SetIn]:
    found: dict[int, _SetIn] = {}
    for state in replay.states if replay else ():
        use = getattr(state.step.action, "use", None)
        for stack in state.filled:
            side = state.head_sides.get(stack, 1)
            found[stack] = _SetIn(up=state.up, side=side, use=use.text if use else None)
    return {stack: one for stack, one in found.items() if replay and stack in replay.filled_at}


def _layers(build: Build, stack: Stack, known: _Known) -> tuple[SectionLayer, ...]:
    made = build.replay.drilled.get(stack.index, frozenset()) if build.replay else frozenset()
    asides = _asides(build.assembly, stack, known)
    gaps = (*stack.gaps, 0.0)
    found = []
    for number, (layer, gap) in enumerate(zip(stack.layers, gaps, strict=True), start=1):
        hole = known.holes[layer.hole].diameter if layer.hole else None
        drilled = hole is None and layer.part in made
        open_gap = gap > TOLERANCE + GUARD
        found.append(
            SectionLayer(
                number=number,
                name=layer.part,
                thickness=_rounded(layer.thickness),
                hole=_rounded(stack.diameter) if drilled else None if hole is None else _rounded(hole),
                aside=asides[number - 1],
                gap=_rounded(gap) if open_gap else 0.0,
                shut=known.shut.get((stack.index, layer.part)) if open_gap else None,
                inside=_inside(build.assembly, stack, layer, known),
            )
        )
    return tuple(found)


def _asides(assembly: Assembly, stack: Stack, known: _Known) -> list[float]:
    """Return how far the holes lie aside in the plane in which they lie farthest apart, mm; 0 without one."""
    spots: dict[int, Array] = {}
    across = frames_along(stack.axis[None])[0][:2]
    for k, layer in enumerate(stack.layers):
        if stack.located and layer.hole and layer.hole not in known.placeless:
            centre = assembly.placed[layer.part].pose.points(known.holes[layer.hole].centre)
            spots[k] = across @ (centre - stack.point)
    found = [0.0] * len(stack.layers)
    if len(spots) < 2:
        return found
    points = np.array(list(spots.values()))
    apart = np.linalg.norm(points[:, None] - points[None], axis=-1)
    one, other = np.unravel_index(int(apart.argmax()), apart.shape)
    if apart[one, other] < _SAME_AXIS:
        return found
    way = (points[other] - points[one]) / apart[one, other]
    middle = (points[one] + points[other]) / 2
    for k, point in spots.items():
        found[k] = _rounded(float((point - middle) @ way))
    return found


def _inside(assembly: Assembly, stack: Stack, layer: Layer, known: _Known) -> tuple[tuple[str, float], ...]:
    """Return what lies inside another model, the upper first: it may stand upside down here."""
    column: Column | None = layer.column
    if column is None or layer.hole is None:
        return ()
    listed = tuple((name, _rounded(thickness)) for name, thickness in column.layers)
    placed, number = assembly.placed[layer.part], column.number
    own = [hole.name for hole in placed.part.holes if hole.column and hole.column.number == number]
    middle = placed.pose.points(known.holes[layer.hole].centre)
    agreement, depth = 0.0, column.thickness / 2
    for name, thickness in column.layers:
        for centre in _inner_centres(placed.part, name, own):
            above = float((placed.pose.points(centre) - middle) @ stack.axis)
            agreement += above * (depth - thickness / 2)
        depth -= thickness
    return listed if agreement >= 0 else listed[::-1]


def _inner_centres(part: Part, name: str, own: Iterable[str]) -> Iterator[Array]:
    """Yield the centres, frame of the whole, of the holes of the member ``name`` among ``own``."""
    for member in part.members:
        if member.name == name:
            for hole in member.part.holes:
                if f"{name}.{hole.name}" in own:
                    yield member.pose.points(hole.centre)


def _fastener(build: Build, stack: Stack, in_it: _SetIn | None) -> SectionFastener | None:
    name = (in_it.use if in_it else None) or stack.fastener
    if name is None or not (stack.joins or in_it):
        return None
    one = fastener_of(build.model, stack, name)
    sizes = fastener_in(build.model, stack, name)
    choice = choice_in(build.model, stack, name)
    length = choice.length if choice else None
    out = _out(one, choice)
    bolt = one.kind == BOLT
    return SectionFastener(
        kind=one.kind,
        name=name,
        diameter=_rounded(one.diameter),
        length=length,
        take=take_words(choice, build.model.units) if choice and choice.number and length else "",
        made=choice is not None and choice.verdict == "out of range",
        head=_pair(sizes.head),
        tail=_pair((sizes.tail[0], out)),
        washers=tuple(_rounded(washer.thickness) for washer in choice.washers) if choice else (),
        end=_rounded(max(0.0, length - stack.clamped - out)) if bolt and length else 0.0,
        head_on_top=(in_it.side if in_it else stack.head_end or 1) > 0,
        sunk=_sunk(build, stack, name),
    )


def _sunk(build: Build, stack: Stack, name: str) -> float:
    head = sunk_in(build.model, name, stack.diameter, countersunk=stack.countersunk)
    return _rounded(min(head.height, stack.grip)) if head else 0.0


def _out(one: Fastener, choice: LengthChoice | None) -> float:
    """Return how far the tail stands out, mm: of a bolt up to the end of its nut."""
    usual = tail_size(one.kind, one.diameter).height
    if choice is None:
        return usual
    if one.kind == BOLT and choice.nut is not None:
        return choice.nut.height + sum(washer.thickness for washer in choice.washers)
    pulled = one.kind not in (BOLT, SOLID_RIVET) and choice.length is not None
    return choice.length - choice.grip if pulled and choice.length is not None else usual


@lru_cache(maxsize=1024)
def _sides(assembly: Assembly, towards_1: tuple[float, float, float]) -> tuple[str, str]:
    """Return what lies at layer 1's end and at the other, in words; most axes go one of a few ways."""
    axis = np.array(towards_1)
    along = float(axis @ assembly.up)
    if abs(along) >= PARALLEL:
        names = ("upper side", "lower side")
        return names if along > 0 else names[::-1]
    return f"outside{_towards(assembly, axis)}", f"inside{_towards(assembly, -axis)}"


def _towards(assembly: Assembly, way: Array) -> str:
    """Return ``, to the left``, ``, forward``: where a side looks, if near enough to one of the six."""
    words = {
        "upper side": "up",
        "lower side": "down",
        "left side": "to the left",
        "right side": "to the right",
        "forward end": "forward",
        "aft end": "aft",
    }
    return f", {words[side_up(assembly, way)]}"


def _bench(stack: Stack, up: Array) -> Bench:
    along = float(stack.axis @ up)
    return "top" if along > _FACES else "bottom" if along < -_FACES else "level"


def _pair(size: tuple[float, float]) -> tuple[float, float]:
    return _rounded(size[0]), _rounded(size[1])


def _rounded(millimetres: float) -> float:
    """Return a length to 0.001 mm: holes that look the same are the same."""
    return round(millimetres + 1e-7, 3) + 0.0
