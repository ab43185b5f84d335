"""Holes that lie on each other have different diameters.

What it means: one fastener goes through both, so one of them is wrong: too wide, and the rivet
fills it badly; or too narrow, and it does not go in. Often a `size` was forgotten where a row has
an exception for a few holes.

What to do: give both rows the same `size`. Look at exceptions such as `1-3: big`: the partner needs
them too, and twin rows count from the same end.

Found, because the skin's first three holes are bigger than the rail's:

```yaml
parts:
  shelf skin:
    holes:
      rail: {from: [20, 10], to: [600, 10], count: 30, size: small, 1-3: big}
  rail:
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [600, 10], count: 30, size: small}
```

Goes through:

```yaml
parts:
  shelf skin:
    holes:
      rail: {from: [20, 10], to: [600, 10], count: 30, size: small, 1-3: big}
  rail:
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [600, 10], count: 30, size: small, 1-3: big}
```

The rule: the holes of one stack may differ by 0.05 mm, the spread of a drill (project choice). Of
three or more layers the first that differs, counted from the base outwards, is the one reported.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.structure import Assembly, Stack
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import by_distance, hole_named, sound_stacks
from seqviz.checks.wording import length
from seqviz.findings import Finding

__all__ = ["CHECK", "odd_hole"]

SPREAD = 0.05 + 1e-6
"""mm."""


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row and partner."""
    for group in grouped(build, "hole-size-differs", _sightings(build)):
        far, near = group.first
        one, other = (hole_named(build.assembly, name).diameter for name in (far, near))
        near_row = near.rpartition(".")[0]
        words = Words(
            message=f"{group.named}: {length(build, one)} wide, and {length(build, other)} in {near_row}.",
            why="One fastener goes through both. It fills the wide one badly, or does not enter the other.",
            fix=f"Give {far.rpartition('.')[0]} and {near_row} the same size there. "
            "Look at the exceptions for single holes.",
        )
        yield group.finding("hole-size-differs", "error", words)


def _sightings(build: Build) -> Iterator[Sighting[tuple[str, str]]]:
    assembly = build.assembly
    for stack in sound_stacks(assembly):
        pair = odd_hole(assembly, stack)
        if pair is None:
            continue
        far, near = (hole_named(assembly, name) for name in pair)
        yield Sighting(
            key=(near.at, round(far.diameter, 3), round(near.diameter, 3)),
            seen=pair,
            at=far.at,
            parts=(pair[0].split(".")[0], pair[1].split(".")[0]),
            stack=stack.index,
            figure=abs(far.diameter - near.diameter),
        )


def odd_hole(assembly: Assembly, stack: Stack) -> tuple[str, str] | None:
    """Return the first hole from the base outwards that differs, and a nearer one that it differs from."""
    holes = {layer.part: layer.hole for layer in stack.layers if layer.hole}
    names = [holes[part] for part in by_distance(assembly, holes)]
    wide = {name: hole_named(assembly, name).diameter for name in names}
    pairs = ((far, near) for j, far in enumerate(names) for near in names[:j])
    return next((pair for pair in pairs if abs(wide[pair[0]] - wide[pair[1]]) > SPREAD), None)


CHECK = Check("hole-size-differs", "error", find)
