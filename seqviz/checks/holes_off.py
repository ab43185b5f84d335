"""Holes do not line up, so the fastener does not go through.

What it means: at these holes the layers are shifted so far that the largest round pin through all
of them is thinner than the fastener. At the bench you would reach for a reamer, and an oval hole
holds nothing. Nearly always a number in the file is wrong, or two rows that should lie on each
other are counted from different ends. So look at the file first; drill only when the metal itself
is wrong.

What to do: compare `from`, `to`, `in`, `first`, `last in` and `count` of both rows with the drawing
or the part. Where a part was matched on the wrong holes, correct its `match`. A fit that does not
work out stands at `match` and says nothing more about that part; a single row that is off stands at
the row of the part farther from the base.

Found, because the rail's second hole row is counted with another pitch than the skin's:

```yaml
parts:
  shelf skin:
    holes:
      rail: {from: [20, 10], to: [600, 10], count: 30, size: small}
  rail:
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [600, 10], count: 29, size: small}
```

Goes through:

```yaml
parts:
  shelf skin:
    holes:
      rail: {from: [20, 10], to: [600, 10], count: 30, size: small}
  rail:
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [600, 10], count: 30, size: small}
```

The rule: the largest round pin through the layers must be at least as thick as the fastener. Where
no fastener is named, or the named one is thicker than the hole, the hole less 0.1 mm stands in for
it. Where a part was `measured to` so many mm, its holes may be off by as much besides. Holes that
are more than half a diameter apart, up to one diameter, are still one stack with a
shift (project choice). Rows that share two or more holes belong together number by number: where
holes further on lie beside their partners, the message says from which one, and by how much.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from seqviz.assembly.fastening import PLAY, thickness_of
from seqviz.assembly.row_pairs import RowPair, Suspicion, row_pairs, strays, suspicion
from seqviz.assembly.structure import Assembly, Stack
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.noticed import noticed
from seqviz.checks.places import by_distance, hole_named, measured_stacks
from seqviz.checks.wording import length
from seqviz.findings import Finding

__all__ = ["CHECK"]

GUARD = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shift:
    """``far`` is ``off`` mm beside ``near`` (hole names); a pin of ``pin`` mm goes, ``needed`` mm should."""

    far: str
    near: str
    off: float
    pin: float
    needed: float
    fastener: str | None


def find(build: Build) -> Iterator[Finding]:
    """Yield the bad fits noticed while placing, then the rows that are off."""
    yield from noticed("holes-off")(build)
    pairs = row_pairs(build.assembly, measured_stacks(build.assembly))
    sightings = [*_sightings(build), *_strays(build, pairs)]
    for group in grouped(build, "holes-off", sightings):
        worst = max(group.all, key=lambda shift: shift.off)
        far, near = worst.far.rpartition(".")[0], worst.near.rpartition(".")[0]
        what = worst.fastener or "a fastener"
        suspect = _suspicion(pairs, far, near)
        words = Words(
            message=f"{group.named}: up to {length(build, worst.off)} off the holes of {near}; "
            f"{what} does not go through. {suspect.says if suspect else ''}".rstrip(),
            why=f"The largest round pin through all layers is {length(build, max(worst.pin, 0.0))}, "
            f"{length(build, worst.needed)} is needed. A reamed hole is oval and holds nothing.",
            fix=f"{suspect.asks + ' ' if suspect else ''}"
            f"Compare the rows {far} and {near} with the drawing: ends, count and pitch. "
            "Drill only when the metal itself is wrong.",
        )
        yield group.finding("holes-off", "error", words)


def _suspicion(pairs: list[RowPair], far: str, near: str) -> Suspicion | None:
    pair = next((pair for pair in pairs if (pair.far, pair.near) == (far, near)), None)
    return suspicion((far, near), pair.numbers, pair.offsets) if pair else None


def _sightings(build: Build) -> Iterator[Sighting[_Shift]]:
    assembly = build.assembly
    for stack in measured_stacks(assembly):
        needed = thickness_of(build.model, stack.fastener, stack.diameter)
        if needed > stack.diameter + GUARD:
            needed = stack.diameter - PLAY
        slack = assembly.measured_to(stack.parts)
        if stack.pin >= needed - slack - GUARD or _made_in_place(build, stack):
            continue
        yield _sighting(assembly, stack, _shift(assembly, stack, needed, slack))


def _made_in_place(build: Build, stack: Stack) -> bool:
    """Say whether a step drills a hole that is not there before: it comes where the others are."""
    drilled = build.replay.drilled.get(stack.index, frozenset()) if build.replay else frozenset()
    holes = (layer.hole for layer in stack.layers if layer.hole is not None and layer.part in drilled)
    return any(not hole_named(build.assembly, name).punched for name in holes)


def _strays(build: Build, pairs: list[RowPair]) -> Iterator[Sighting[_Shift]]:
    """Yield the holes that are off by more than a diameter, so that they share no stack any more."""
    assembly = build.assembly
    for stray in strays(assembly, pairs):
        if stray.off <= assembly.measured_to(name.split(".")[0] for name in (stray.far, stray.near)):
            continue
        stack = assembly.stacks[assembly.stack_of[stray.far]]
        needed = min(thickness_of(build.model, stack.fastener, stack.diameter), stack.diameter)
        shift = _Shift(
            far=stray.far, near=stray.near, off=stray.off, pin=0.0, needed=needed, fastener=stack.fastener
        )
        yield _sighting(assembly, stack, shift)


def _sighting(assembly: Assembly, stack: Stack, shift: _Shift) -> Sighting[_Shift]:
    far, near = shift.far.split(".")[0], shift.near.split(".")[0]
    return Sighting(
        key=(hole_named(assembly, shift.near).at, assembly.placed[near].at),
        seen=shift,
        at=hole_named(assembly, shift.far).at,
        parts=(far, near),
        stack=stack.index,
        hole=shift.far,
        figure=shift.off,
    )


def _shift(assembly: Assembly, stack: Stack, needed: float, slack: float) -> _Shift:
    """Return the first hole, seen from the base, that a nearer one closes; else the two farthest apart."""
    holes = {layer.part: layer.hole for layer in stack.layers if layer.hole}
    names = [holes[part] for part in by_distance(assembly, holes)]
    pairs = [(names[j], names[i]) for j in range(len(names)) for i in range(j)]
    offs = {pair: _apart(assembly, stack, *pair) for pair in pairs}
    tight = [pair for pair in pairs if _pin(assembly, *pair, offs[pair]) < needed - slack - GUARD]
    far, near = tight[0] if tight else max(pairs, key=lambda pair: offs[pair])
    return _Shift(
        far=far, near=near, off=offs[far, near], pin=stack.pin, needed=needed, fastener=stack.fastener
    )


def _apart(assembly: Assembly, stack: Stack, one: str, other: str) -> float:
    """Return how far apart the two holes are across the stack's axis, mm."""
    a, b = (
        assembly.placed[name.split(".")[0]].pose.points(hole_named(assembly, name).centre)
        for name in (one, other)
    )
    return float(np.linalg.norm(np.cross(b - a, stack.axis)))


def _pin(assembly: Assembly, one: str, other: str, off: float) -> float:
    """Return the diameter, mm, of the largest round pin through two holes ``off`` mm apart."""
    a, b = hole_named(assembly, one).diameter, hole_named(assembly, other).diameter
    return min(a, b, (a + b) / 2 - off)


CHECK = Check("holes-off", "error", find)
