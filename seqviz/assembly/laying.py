"""Lay-up without numbers: parts, holes and stacks that are known by ``rows`` only."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from seqviz.assembly.directions import UP
from seqviz.assembly.fastening import fastener_of_size, supply_named
from seqviz.assembly.structure import Layer, PlacedPart, Stack
from seqviz.findings import At
from seqviz.geometry.pose import IDENTITY, frozen
from seqviz.parts.part import Hole, Part
from seqviz.parts.sizes import hole_sizes
from seqviz.records.model import LaidRow, Model, SketchShape

__all__ = ["laid_stacks", "with_laid_holes", "without_place"]

_NOWHERE = frozen(np.zeros(3))


def without_place(name: str, part: Part, at: At) -> PlacedPart:
    """Return ``part`` as a placed part of which nobody said where it stands.

    It keeps its name and its holes' numbers. Flats and pieces would meet others where it does not stand.
    """
    bare = replace(part, flats={}, pieces=(), piece_flats=(), holes=())
    return PlacedPart(
        name=name,
        part=bare,
        pose=IDENTITY,
        depth=1,
        side=UP,
        free=False,
        at=at,
        located=False,
        laid=part.holes,
    )


def with_laid_holes(placed: PlacedPart, described: Part, model: Model) -> PlacedPart:
    """Return the part with the holes that ``rows`` give it, beside the rows of its own."""
    own = {hole.row for hole in placed.holes}
    laid = [hole for row in model.rows.values() if row.name not in own for hole in _holes(row, placed, model)]
    if not laid and placed.located:
        return placed
    return replace(placed, laid=(*placed.laid, *laid), sheet=_sheet(described, model))


def _sheet(part: Part, model: Model) -> float:
    """Return the thickness, mm: of a sketch as written, else of the part's first flat."""
    record = model.parts.get(part.name)
    if record is not None and isinstance(record.shape, SketchShape):
        return record.shape.thickness
    return next((flat.thickness for flat in part.flats.values()), 0.0)


def _holes(row: LaidRow, placed: PlacedPart, model: Model) -> Iterator[Hole]:
    sizes = hole_sizes(row, row.count, model.sizes, model.broken)
    for number, size in sorted(sizes.holes.items()):
        if placed.name in row.layers_at(number):
            yield Hole(
                row=row.name,
                number=number,
                flat="",
                centre=_NOWHERE,
                axis=UP,
                diameter=size.diameter,
                size=size.name,
                at=row.at,
                countersunk=size.countersunk,
            )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Named:
    """The structure by the names of its holes: each hole, and the stack in which it stands, if it does."""

    placed: Mapping[str, PlacedPart]
    holes: Mapping[str, Hole]
    standing: Mapping[str, Stack]


def laid_stacks(placed: Mapping[str, PlacedPart], stacks: Iterable[Stack], model: Model) -> list[Stack]:
    """Return ``stacks`` with those that ``rows`` make; their ``index`` is still to be given.

    Where all layers of a row have a place, the geometry stands. Where some have, and stand as the row says,
    the row's layers take the place of that stack. Where they stand otherwise no stack is made, which is told
    as ``lay-up-differs``.
    """
    given = list(stacks)
    named = _Named(
        placed=placed,
        holes={f"{part.name}.{hole.name}": hole for part in placed.values() for hole in part.holes},
        standing={name: stack for stack in given for name in stack.holes},
    )
    made = [stack for row in model.rows.values() for stack in _of_row(row, named, model)]
    covered = {name for stack in made for name in stack.holes}
    made += [
        _stack(((part, f"{part}.{hole.name}", None),), named, model)
        for part, one in placed.items()
        for hole in one.laid
        if not one.located and hole.row not in model.rows
    ]
    return [stack for stack in given if covered.isdisjoint(stack.holes)] + made


_Laid = tuple[tuple[str, str, Layer | None], ...]
"""The layers from the head side: placed part, its hole, its layer where it stands in a stack already."""


def _of_row(row: LaidRow, named: _Named, model: Model) -> Iterator[Stack]:
    for number in range(1, row.count + 1):
        parts = row.layers_at(number)
        holes = [f"{part}.{row.name}.{number}" for part in parts]
        if any(hole not in named.holes for hole in holes) or all(hole in named.standing for hole in holes):
            continue
        there = {named.standing[hole].index: named.standing[hole] for hole in holes if hole in named.standing}
        laid = _joined(parts, holes, list(there.values()))
        if laid is not None:
            yield _stack(laid, named, model)


def _joined(parts: tuple[str, ...], holes: list[str], there: list[Stack]) -> _Laid | None:
    """Return the row's layers with what stands there already; None where that contradicts them."""
    standing = {layer.part: layer for stack in there for layer in stack.layers}
    in_order = [part for part in parts if part in standing]
    if len(there) > 1 or in_order != [part for stack in there for part in stack.parts]:
        return None
    return tuple((part, hole, standing.get(part)) for part, hole in zip(parts, holes, strict=True))


def _stack(laid: _Laid, named: _Named, model: Model) -> Stack:
    level = 0.0
    layers: list[Layer] = []
    for part, hole, layer in reversed(laid):
        thickness = layer.thickness if layer else named.placed[part].sheet
        layers.insert(0, Layer(part=part, hole=_first_name(hole, layer), top=level + thickness, bottom=level))
        level += thickness
    names = tuple(
        dict.fromkeys(name for entry in _by_depth(laid, named) for name in _all_names(entry, named))
    )
    holes = [named.holes[name] for name in names]
    sizes = [hole.size for hole in holes if hole.size]
    fasteners = [found for size in sizes if (found := fastener_of_size(model, size))]
    diameter = min(hole.diameter for hole in holes)
    return Stack(
        index=-1,
        point=_NOWHERE,
        axis=UP,
        layers=tuple(layers),
        holes=names,
        diameter=diameter,
        size=sizes[0] if sizes else None,
        fastener=fasteners[0] if fasteners else None,
        pin=diameter,
        located=False,
        supply=supply_named(model, fasteners[0] if fasteners else None),
        countersunk=any(hole.countersunk for hole in holes),
    )


def _by_depth(laid: _Laid, named: _Named) -> list[tuple[str, str, Layer | None]]:
    """Return the layers, those farthest from the base first; of equals the one nearer to the head."""
    return sorted(laid, key=lambda entry: -named.placed[entry[0]].depth)


def _first_name(hole: str, layer: Layer | None) -> str:
    return layer.hole if layer is not None and layer.hole is not None else hole


def _all_names(entry: tuple[str, str, Layer | None], named: _Named) -> Iterator[str]:
    """Yield the names of one layer's hole: those that it has where it stands, then the row's."""
    part, hole, layer = entry
    if layer is not None and layer.hole is not None:
        yield from (name for name in named.standing[layer.hole].holes if name.split(".")[0] == part)
    yield hole
