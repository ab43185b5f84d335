"""A whole structure as one piece of another: its parts, flats, solids and open holes in its base's frame."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from seqviz.assembly.entries import entries
from seqviz.assembly.structure import Assembly, Layer, PlacedPart, Stack
from seqviz.geometry.pose import Array, frozen
from seqviz.geometry.prism import Piece as Solid
from seqviz.geometry.prism import Prism
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.parts.fitting import moved_flat, standing
from seqviz.parts.part import ANOTHER_MODEL, Column, Flat, Hole, Member, Part
from seqviz.records.model import Model

__all__ = ["Piece", "SetInside", "adopted", "one_piece", "set_there"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Piece:
    """Another structure as one piece; ``sound`` False: a finding in it spoils what is asked of the piece."""

    part: Part
    sound: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SetInside:
    """What the sequence of a piece has done to it.

    Attributes
    ----------
    file
        The sequence.
    filled
        Stacks in which a fastener is set at its end.
    drilled
        Stack -> the parts through which it drills it.
    heads
        Heads and tails of those fasteners, base frame.
    """

    file: str
    filled: frozenset[int]
    drilled: Mapping[int, frozenset[str]]
    heads: tuple[Prism, ...] = field(default=())


def one_piece(
    model: Model, assembly: Assembly, done: SetInside | None, later: frozenset[int] = frozenset()
) -> Piece:
    """Return the structure as one piece; ``done`` None: no sequence tells what is set in it already.

    ``later``: the stacks that its model names there.

    Its flats are called ``PLACED FLAT`` and its rows ``PLACED.ROW``. Templates and what has no place are not
    of it, nor holes in which a fastener is set.
    """
    members = tuple(
        Member(
            name=name,
            part=placed.part,
            pose=placed.pose,
            flats={f"{name} {flat}": flat for flat in placed.part.flats},
        )
        for name, placed in assembly.placed.items()
        if placed.located and not placed.part.tool
    )
    solid = [pair for member in members for pair in _pieces(member, heads=False)]
    heads = [piece for member in members for piece, _ in _pieces(member, heads=True)]
    heads += done.heads if done else ()
    holes = tuple(_holes(assembly, done, later))
    part = Part(
        name=os.path.basename(done.file if done else model.path),
        shape=ANOTHER_MODEL,
        flats={flat.name: flat for member in members for flat in _flats(member, member.part.flats.values())},
        pieces=(*(piece for piece, _ in solid), *heads),
        piece_flats=(*(flat for _, flat in solid), *(None for _ in heads)),
        holes=holes,
        twins=_twins(model, assembly, {hole.row for hole in holes}),
        at=model.at,
        measured_to=max((member.part.measured_to for member in members), default=0.0),
        members=members,
        facets=_facets(members),
        heads=len(heads),
        filled=_filled(members, assembly, done),
    )
    sound = not assembly.muted and set(entries(model)) <= set(assembly.placed)
    return Piece(part=part, sound=sound)


def adopted(part: Part, model: Model) -> Part:
    """Return a piece as ``model`` sees it: sizes count where it has one of that name and diameter."""
    sizes = {size.name: size.diameter for size in model.sizes.values()}
    strange = any(hole.size and sizes.get(hole.size) != hole.diameter for hole in part.holes)
    if not strange:
        return part
    holes = (
        hole if hole.size is None or sizes.get(hole.size) == hole.diameter else replace(hole, size=None)
        for hole in part.holes
    )
    return replace(part, holes=tuple(holes))


def _flats(member: Member, flats: Iterable[Flat]) -> Iterator[Flat]:
    for flat in flats:
        whole = f"{member.name} {flat.stretch_of}" if flat.stretch_of else None
        yield replace(moved_flat(flat, member.pose, f"{member.name} {flat.name}"), stretch_of=whole)


def _facets(members: Iterable[Member]) -> tuple[Flat, ...]:
    """Return all flats where they lie, if there is a rolled one among them."""
    if not any(member.part.facets for member in members):
        return ()
    return tuple(
        flat
        for member in members
        for flat in _flats(member, member.part.facets or member.part.flats.values())
    )


def _pieces(member: Member, *, heads: bool) -> Iterator[tuple[Solid, str | None]]:
    """Yield the member's solids where they stand, each with its flat: what is set in it, or the rest."""
    part = member.part
    first = len(part.pieces) - part.heads
    chosen = slice(first, None) if heads else slice(first)
    for piece, flat in zip(part.pieces[chosen], part.piece_flats[chosen], strict=True):
        yield standing(piece, member.pose), None if flat is None else f"{member.name} {flat}"


def _holes(assembly: Assembly, done: SetInside | None, later: frozenset[int]) -> Iterator[Hole]:
    number = 0
    for stack in assembly.stacks:
        if not stack.located or (done and stack.index in done.filled):
            continue
        made = done.drilled.get(stack.index, frozenset()) if done else frozenset()
        for k, layers in enumerate(_touching(stack.layers)):
            # Nobody tells that layers of a model alone are not held together yet.
            loose = sum(layer.loose for layer in layers) if done else int(k == 0)
            held = any(layer.column.held for layer in layers if layer.column)
            held = held or (done is None and stack.joins)
            yield from _of_column(
                assembly,
                stack,
                layers,
                _Told(number=number, loose=loose, later=stack.index in later, held=held, made=made),
            )
            number += 1


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """What `Column` says besides its layers, and the parts through which its hole is drilled already."""

    number: int
    loose: int
    later: bool
    held: bool
    made: frozenset[str]


def _touching(layers: Iterable[Layer]) -> list[list[Layer]]:
    """Return the layers, layer 1 first, those that touch each other together."""
    groups: list[list[Layer]] = []
    for layer in layers:
        if groups and min(one.bottom for one in groups[-1]) - layer.top <= TOLERANCE + GUARD:
            groups[-1].append(layer)
        else:
            groups.append([layer])
    return groups


def _of_column(assembly: Assembly, stack: Stack, layers: list[Layer], told: _Told) -> Iterator[Hole]:
    """Yield the holes of layers that touch, under all their names."""
    top, bottom = max(layer.top for layer in layers), min(layer.bottom for layer in layers)
    named: list[tuple[str, Hole, float]] = []
    for name in stack.holes:
        part, _, own = name.partition(".")
        hole = next(one for one in assembly.placed[part].part.holes if one.name == own)
        level = float((assembly.placed[part].pose.points(hole.centre) - stack.point) @ stack.axis)
        if bottom - TOLERANCE <= level <= top + TOLERANCE:
            named.append((part, hole, level))
    undrilled = [hole for part, hole, _ in named if part not in told.made]
    column = Column(
        number=told.number,
        thickness=top - bottom,
        layers=tuple((layer.part, layer.thickness) for layer in layers),
        flats=tuple(dict.fromkeys(_all_flats(named))),
        loose=told.loose,
        later=told.later,
        held=told.held,
    )
    for part, hole, level in named:
        here = assembly.placed[part]
        middle = here.pose.points(hole.centre) + stack.axis * ((top + bottom) / 2 - level)
        yield Hole(
            row=f"{part}.{hole.row}",
            number=hole.number,
            flat=f"{part} {hole.flat}",
            centre=frozen(middle),
            axis=frozen(here.pose.vectors(hole.axis)),
            diameter=min(one.diameter for _, one, _ in named),
            size=hole.size or stack.size,
            at=hole.at,
            pilot=min((one.pilot for one in undrilled if one.pilot is not None), default=None),
            punched=all(one.punched for one in undrilled),
            column=column,
            countersunk=stack.countersunk,
        )


def _all_flats(named: Iterable[tuple[str, Hole, float]]) -> Iterator[str]:
    for part, hole, _ in named:
        for flat in hole.column.flats if hole.column else (hole.flat,):
            yield f"{part} {flat}"


def _filled(members: Iterable[Member], assembly: Assembly, done: SetInside | None) -> dict[str, str]:
    found = {f"{member.name}.{hole}": file for member in members for hole, file in member.part.filled.items()}
    for index in sorted(done.filled) if done else ():
        found.update(dict.fromkeys(assembly.stacks[index].holes, done.file if done else ""))
    return found


def _twins(model: Model, assembly: Assembly, rows: set[str]) -> dict[str, tuple[str, str]]:
    """Return the bare names of twin rows, and of the rows of twin parts, as rows of the piece."""
    found: dict[str, tuple[str, str]] = {}
    for name, placed in assembly.placed.items():
        for row, (one, other) in placed.part.twins.items():
            found[f"{name}.{row}"] = (f"{name}.{one}", f"{name}.{other}")
    for entry in entries(model).values():
        if entry.twin not in ("left", "forward") or entry.twin_of is None:
            continue
        first, second = entry.twin_of
        for row in (row.partition(".")[2] for row in sorted(rows) if row.partition(".")[0] == first):
            found.setdefault(f"{entry.record.name}.{row}", (f"{first}.{row}", f"{second}.{row}"))
    return found


def set_there(placed: PlacedPart, stack: Stack) -> str | None:
    """Return the file that sets a fastener on the axis of ``stack`` in another model as one piece."""
    for hole, file in placed.part.filled.items():
        away = placed.pose.points(_inner_spot(placed.part, hole)) - stack.point
        if np.linalg.norm(away - (away @ stack.axis) * stack.axis) < stack.diameter:
            return file
    return None


def _inner_spot(part: Part, name: str) -> Array:
    """Return the ``(3,)`` centre of the hole ``PLACED.ROW.N`` within the piece, filled or not."""
    inside, _, own = name.partition(".")
    member = next(one for one in part.members if one.name == inside)
    if own in member.part.filled:
        return member.pose.points(_inner_spot(member.part, own))
    return member.pose.points(next(hole.centre for hole in member.part.holes if hole.name == own))
