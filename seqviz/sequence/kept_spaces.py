"""What stands, in the finished structure, in a space that the model keeps clear."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial

import numpy as np

from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.geometry.access import Cylinder, cylinder_meets
from seqviz.geometry.rounds import prism_inside
from seqviz.geometry.separation import TOLERANCE
from seqviz.geometry.solids import Solids, solids_of
from seqviz.records.model import KeptSpace, Model
from seqviz.sequence.replay_types import Replay
from seqviz.sequence.set_heads import set_heads
from seqviz.sequence.tables import Fixing

__all__ = ["InSpace", "kept_spaces_met"]


@dataclass(frozen=True, slots=True, kw_only=True)
class InSpace:
    """A part, or a set head or tail, that stands in a kept space.

    Attributes
    ----------
    part
        The placed part; of a head or tail the part of its hole that is farthest from the base.
    stack
        The hole whose head or tail it is; None: the part itself.
    depth
        mm by which the space's radius would have to be less.
    """

    space: KeptSpace
    part: str
    stack: int | None
    depth: float


def kept_spaces_met(model: Model, assembly: Assembly, replay: Replay | None) -> Iterator[InSpace]:
    """Yield what stands in the spaces of ``keep clear``; of the heads of a part that does nothing more.

    Templates and parts without a place are not asked, nor fasteners without a sequence that sets them.
    """
    heads = tuple(set_heads(model, assembly, replay)) if replay and model.keep_clear else ()
    for space in model.keep_clear.values():
        met = set()
        for part in assembly.placed.values():
            if part.located and not part.part.tool and part.name not in assembly.muted:
                depth = _depth(space, partial(_meets_part, part))
                if depth is not None:
                    met.add(part.name)
                    yield InSpace(space=space, part=part.name, stack=None, depth=depth)
        yield from _heads(assembly, heads, space, frozenset(met))


def _heads(
    assembly: Assembly,
    heads: Iterable[tuple[Fixing, tuple[Cylinder, ...]]],
    space: KeptSpace,
    met: frozenset[str],
) -> Iterator[InSpace]:
    whole = _room(space, space.diameter / 2)
    for fixing, ends in heads:
        parts = assembly.stacks[fixing.stack].parts
        if met.isdisjoint(parts) and any(_is_near(whole, end) for end in ends):
            depth = _depth(space, partial(_meets, solids_of([prism_inside(end) for end in ends])))
            if depth is not None:
                far = assembly.stacks[fixing.stack].holes[0].split(".")[0]
                yield InSpace(space=space, part=far, stack=fixing.stack, depth=depth)


def _is_near(room: Cylinder, end: Cylinder) -> bool:
    """Say whether a ball round the head or tail reaches the space: most are far off, and need no more."""
    away = end.start + end.axis * end.length / 2 - room.start
    beside = away - room.axis * min(max(float(away @ room.axis), 0.0), room.length)
    return math.sqrt(beside @ beside) <= room.radius + math.hypot(end.length / 2, end.radius)


def _depth(space: KeptSpace, meets: Callable[[Cylinder], bool]) -> float | None:
    """Return by how much, mm, the space's radius is too large, to 0.01 mm; None where nothing is met."""
    if not meets(_room(space, space.diameter / 2)):
        return None
    free, met = 0.0, space.diameter / 2
    while met - free > 0.005:
        middle = (free + met) / 2
        free, met = (free, middle) if meets(_room(space, middle)) else (middle, met)
    # It is met only once it is in by the tolerance.
    return round(space.diameter / 2 - met + TOLERANCE, 2)


def _room(space: KeptSpace, radius: float) -> Cylinder:
    start, end = np.array(space.start), np.array(space.end)
    long = float(np.linalg.norm(end - start))
    return Cylinder(start=start, axis=(end - start) / long, length=long, radius=radius)


def _meets(solids: Solids, room: Cylinder) -> bool:
    return bool(cylinder_meets(room, solids).any())


def _meets_part(part: PlacedPart, room: Cylinder) -> bool:
    """Say whether the part is in the room; its own holes that let the room through count as empty."""
    return any(_meets(part.solids, piece) for piece in _between_holes(room, part))


def _between_holes(room: Cylinder, part: PlacedPart) -> Iterator[Cylinder]:
    """Yield the room without the lengths of it that go through holes of the part."""
    low = 0.0
    for bottom, top in sorted(_through(room, part)):
        if bottom > low:
            yield Cylinder(
                start=room.start + room.axis * low, axis=room.axis, length=bottom - low, radius=room.radius
            )
        low = max(low, top)
    if room.length > low:
        yield Cylinder(
            start=room.start + room.axis * low, axis=room.axis, length=room.length - low, radius=room.radius
        )


def _through(room: Cylinder, part: PlacedPart) -> Iterator[tuple[float, float]]:
    """Yield from where to where along the room a hole of the part lets it through, mm."""
    for hole in part.part.holes:
        away = part.pose.points(hole.centre) - room.start
        along = float(away @ room.axis)
        aside = float(np.linalg.norm(away - along * room.axis))
        parallel = abs(float(part.pose.vectors(hole.axis) @ room.axis)) >= PARALLEL
        if parallel and aside + room.radius <= hole.diameter / 2 + 1e-9:
            thick = part.part.thickness_at(hole)
            yield along - thick, along + thick
