"""Where in the structure a finding is: the place to look at, from the holes or the parts that it names."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from seqviz.assembly.entries import entries
from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.build import Build
from seqviz.findings import Finding
from seqviz.geometry.pose import Array, frozen
from seqviz.geometry.separation import close_pairs, depths
from seqviz.records.model import KeptSpace
from seqviz.scene.shifts import box_of
from seqviz.sequence.choose import Chooser

__all__ = ["hole_spot", "middle_of", "spot_of", "wanted_stacks"]

_NEAR = 1.0
"""mm: parts that come so near are looked at where they do."""


def spot_of(build: Build, finding: Finding) -> Array | None:
    """Return the ``(3,)`` place, mm, base frame, that a finding is about; None: it is about no place."""
    assembly = build.assembly
    holes = (hole_spot(assembly, hole) for hole in finding.holes)
    found = next((spot for spot in holes if spot is not None), None)
    if found is not None:
        return found
    parts = [assembly.placed[name] for name in finding.parts if _stands(assembly, name)]
    if not parts:
        return next((spot for name in finding.parts for spot in _wanted(build, name)), None)
    if finding.kind == "in-kept-space":
        return _in_space(parts[0], build.model.keep_clear.values())
    meeting = (_where_met(parts[0], other) for other in parts[1:])
    met = next((spot for spot in meeting if spot is not None), None)
    return middle_of(assembly, [parts[0].name]) if met is None else met


def hole_spot(assembly: Assembly, hole: str) -> Array | None:
    """Return the middle of the stack of ``hole``, mm, of one without a stack its own; None: no place."""
    index = assembly.stack_of.get(hole)
    if index is not None:
        stack = assembly.stacks[index]
        level = (stack.layers[0].top + stack.layers[-1].bottom) / 2
        return frozen(stack.point + stack.axis * level) if stack.located else None
    part, _, name = hole.partition(".")
    if not _stands(assembly, part):
        return None
    placed = assembly.placed[part]
    centres = (one.centre for one in placed.part.holes if one.name == name)
    return next((frozen(placed.pose.points(centre)) for centre in centres), None)


def middle_of(assembly: Assembly, parts: list[str]) -> Array:
    """Return the middle of the box around placed parts, mm."""
    low, high = box_of(assembly, parts)
    return frozen((low + high) / 2)


def _stands(assembly: Assembly, name: str) -> bool:
    return name in assembly.placed and assembly.placed[name].located


def _where_met(one: PlacedPart, other: PlacedPart) -> Array | None:
    """Return the middle of where two parts meet the deepest, mm; None where they are apart."""
    a, b = one.solids, other.solids
    pairs = close_pairs(a, b, _NEAR)
    if not len(pairs):
        return None
    mine, theirs = pairs[int(np.argmax(depths(a, b, pairs)))]
    low, high = np.maximum(a.low[mine], b.low[theirs]), np.minimum(a.high[mine], b.high[theirs])
    return frozen((low + high) / 2)


def _in_space(part: PlacedPart, spaces: Iterable[KeptSpace]) -> Array:
    """Return the place of a part's box that is nearest to the middle line of a kept space, mm."""
    low, high = part.box
    middle, found = (low + high) / 2, []
    for space in spaces:
        start, way = np.array(space.start), np.array(space.end) - np.array(space.start)
        line = start + way * np.clip((middle - start) @ way / (way @ way), 0.0, 1.0)
        spot = np.clip(line, low, high)
        found.append((float(np.linalg.norm(spot - line)) - space.diameter / 2, spot))
    return frozen(min(found, key=lambda each: each[0])[1] if found else middle)


def wanted_stacks(build: Build, name: str) -> list[int]:
    """Return the stacks on which a part without a pose should lie, as its entry says."""
    entry = entries(build.model).get(name)
    if entry is None:
        return []
    along = (entry.record.along,) if entry.record.along is not None else ()
    targets = [*(match.target for match in entry.record.match), *along]
    return list(Chooser(build.model, build.assembly).stacks(targets))


def _wanted(build: Build, name: str) -> Iterator[Array]:
    stacks = build.assembly.stacks
    spots = (hole_spot(build.assembly, stacks[index].holes[0]) for index in wanted_stacks(build, name))
    return (spot for spot in spots if spot is not None)
