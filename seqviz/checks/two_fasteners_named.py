"""Two different fasteners are named for one hole.

What it means: the holes of one stack have sizes with different `with`; or the holes are for one fastener
and a step sets another by `use`. One fastener goes through all layers, so one of the two is wrong, and
lengths, tools and totals are reckoned for the wrong one.

What to do: give the rows the same size. Or let the step `use` what the holes are made for, or leave `use`
out. Where another fastener is meant to go in, settle it under `known`, or give those holes a size of their
own.

Found, because rail and floor have holes for different rivets:

```yaml
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  tight: {diameter: 3.3, with: solid rivet 1/8}
parts:
  floor:
    holes: {mid: {from: [20, 50], to: [180, 50], count: 5, size: small}}
  rail:
    holes: {foot: {from: [10, 10], to: [170, 10], count: 5, size: tight}}
```

Goes through:

```yaml
parts:
  floor:
    holes: {mid: {from: [20, 50], to: [180, 50], count: 5, size: tight}}
  rail:
    holes: {foot: {from: [10, 10], to: [170, 10], count: 5, size: tight}}
```

The rule: one hole takes one fastener (project choice). Sizes disagree where they name different entries of
`hardware`, or table names of another kind or thickness. `use` may name another maker's, or another
length: it disagrees where its kind is another or its thickness differs by more than 0.05 mm. Where holes
differ in diameter too, that is `hole-size-differs`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seqviz.assembly.fastening import fastener_named
from seqviz.assembly.structure import Stack
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import used_at
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.hole_size_differs import odd_hole
from seqviz.checks.places import by_distance, hole_named, row_of, sound_stacks
from seqviz.findings import Finding
from seqviz.parts.part import Hole
from seqviz.records.named import Name

__all__ = ["CHECK", "told_there"]

_ALIKE = 0.05 + 1e-6
"""mm: 4.0 mm and 5/32 in are one thickness."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Two:
    """Two fasteners, each with who names it: rows with their sizes, or the step (``use``)."""

    one: str
    other: str
    named_by: tuple[str, str]
    use: Name | None = None


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row and partner, or for each step and row."""
    for group in grouped(build, "two-fasteners-named", _sightings(build)):
        two = group.first
        steps = _steps(build, two.use)
        yield group.finding("two-fasteners-named", "error", _words(group), steps=steps)


def told_there(build: Build) -> frozenset[int]:
    """Return the stacks for which two fasteners are named."""
    return frozenset(s.stack for s in _sightings(build) if s.stack is not None)


def _words(group: Group[_Two]) -> Words:
    two = group.first
    first, second = two.named_by
    if two.use is not None:
        fix = f"Use {two.other}, or leave `use` out; or give these holes a size that names {two.one}."
    else:
        fix = "Give both rows the same size there. Look at the exceptions for single holes."
    return Words(
        message=f"{group.named}: {first} {two.one}, {second} {two.other}.",
        why="One fastener goes through all layers of a hole; which of the two it is cannot be told.",
        fix=fix,
    )


def _sightings(build: Build) -> Iterator[Sighting[_Two]]:
    assembly, used = build.assembly, used_at(build)
    for stack in sound_stacks(assembly):
        if odd_hole(assembly, stack):
            continue
        pair = _pair(build, stack)
        if pair is not None:
            yield _of_rows(pair, stack)
        elif stack.index in used:
            yield from _of_step(build, stack, used[stack.index])


def _pair(build: Build, stack: Stack) -> tuple[tuple[str, Hole, str], tuple[str, Hole, str]] | None:
    """Return a hole and a nearer one, each with its name and fastener, where these differ."""
    holes = {layer.part: layer.hole for layer in stack.layers if layer.hole}
    named: list[tuple[str, Hole, str]] = []
    for part in by_distance(build.assembly, holes):
        hole = hole_named(build.assembly, holes[part])
        size = build.model.sizes.get(hole.size) if hole.size else None
        if size is not None and size.fastener is not None:
            named.append((holes[part], hole, size.fastener.text))
    return next(
        ((far, near) for j, far in enumerate(named) for near in named[:j] if _differ(build, far[2], near[2])),
        None,
    )


def _of_rows(pair: tuple[tuple[str, Hole, str], tuple[str, Hole, str]], stack: Stack) -> Sighting[_Two]:
    (far, far_hole, one), (near, near_hole, other) = pair
    near_row = near.rpartition(".")[0]
    two = _Two(
        one=one,
        other=other,
        named_by=(f"its size {far_hole.size} is for", f"size {near_hole.size} in {near_row} is for"),
    )
    return Sighting(
        key=(near_hole.at, one, other),
        seen=two,
        at=far_hole.at,
        parts=(far.split(".")[0], near.split(".")[0]),
        stack=stack.index,
        hole=far,
    )


def _of_step(build: Build, stack: Stack, use: Name) -> Iterator[Sighting[_Two]]:
    if stack.fastener is None or not _unlike(build, use.text, stack.fastener):
        return
    size = f"size {stack.size}" if stack.size else "their size"
    yield Sighting(
        key=(row_of(build.assembly, stack), use.text, stack.fastener),
        seen=_Two(one=use.text, other=stack.fastener, named_by=("the step uses", f"{size} is for"), use=use),
        at=use.at,
        parts=tuple(dict.fromkeys(stack.parts)),
        stack=stack.index,
    )


def _differ(build: Build, one: str, other: str) -> bool:
    """Say whether two names are two fasteners: entries of ``hardware`` by name, others by what they are."""
    if one == other:
        return False
    own = {one, other} & build.model.hardware.keys()
    return bool(own) or _unlike(build, one, other)


def _unlike(build: Build, one: str, other: str) -> bool:
    """Say whether two fasteners are of different kinds, or differ in thickness."""
    a, b = (fastener_named(build.model, name) for name in (one, other))
    if a is None or b is None or one == other:
        return False
    return a.kind != b.kind or abs(a.diameter - b.diameter) > _ALIKE


def _steps(build: Build, use: Name | None) -> tuple[int, ...]:
    """Return the step that says ``use`` there."""
    steps = build.sequence.steps if build.sequence and use else ()
    return tuple(step.number for step in steps if getattr(step.action, "use", None) == use)


CHECK = Check("two-fasteners-named", "error", find)
