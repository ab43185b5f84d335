"""A hole is filled before it is drilled.

What it means: a layer has no hole there yet, or only a pilot, and the step sets a fastener in it.

What to do: put the `drill` step before, at a time when the layer is on; or, where the maker has punched
the hole to its size, take `pilot` or `punched: no` out of its row.

Found, because the holes of the rail are drilled afterwards:

```yaml
steps:
  - place: rail left
  - rivet: rail left.foot
  - drill: rail left.foot
```

In order:

```yaml
steps:
  - place: rail left
  - drill: rail left.foot
  - rivet: rail left.foot
```

The rule: a hole with `punched: no`, a pilot, and a layer without a hole of its own are made by a `drill`
step that names the hole while the part is there, on the same work. A step with `to: pilot` makes the
pilot only.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import fills
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.places import hole_named, said_at
from seqviz.checks.sightings import seen_at_holes
from seqviz.checks.wording import listed, steps_named
from seqviz.findings import Finding
from seqviz.sequence.replay_types import NotDrilled

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step, row and layer that is not drilled."""
    for group in grouped(build, "not-drilled", _sightings(build)):
        late = sorted({number for hole in group.all for number in hole.comes if number is not None})
        related = [
            place
            for number in late
            for place in said_at(build, number, f"Step {number} drills {group.these('hole')}: too late.")
        ]
        yield group.finding(
            "not-drilled",
            "error",
            _words(build, group, late),
            steps=(group.first.step, *late),
            related=related,
        )


def _words(build: Build, group: Group[NotDrilled], late: list[int]) -> Words:
    step, holes = group.first.step, group.these("hole")
    blank = listed(dict.fromkeys(part for hole in group.all for part in hole.parts))
    them, they_are = group.them, "it is" if group.one else "they are"
    if late:
        drills = "drills" if len(late) == 1 else "drill"
        why = f"{steps_named(late).capitalize()} {drills} {them}: too late."
        fix = f"Move {steps_named(late)} before step {step}, or {_set(build, step)} {holes} afterwards."
    else:
        why = f"No step drills {them} to size while {blank} {'is' if ' and ' not in blank else 'are'} there."
        fix = f"Add a drill step for {holes} before step {step}."
    return Words(
        message=f"{group.named}: step {step} {fills(build, step)} {holes} before {they_are} "
        f"drilled in {blank}.",
        why=f"{why} A fastener wants a hole of its size in every layer.",
        fix=fix,
    )


def _set(build: Build, step: int) -> str:
    return fills(build, step).removesuffix("s")


def _sightings(build: Build) -> Iterator[Sighting[NotDrilled]]:
    """Yield the holes by the names that they have in the layer that is not drilled."""
    troubles = build.replay.not_drilled if build.replay else ()
    for sighting in seen_at_holes(build, troubles, lambda t: (t.stack,), lambda t: t.parts):
        hole = sighting.seen
        layers = build.assembly.stacks[hole.stack].layers
        own = [layer.hole for layer in layers if layer.part in hole.parts and layer.hole]
        if own:
            row = hole_named(build.assembly, own[0]).at
            yield replace(sighting, hole=own[0], key=(hole.step, row, hole.parts))
        else:
            yield sighting


CHECK = Check("not-drilled", "error", find)
