"""A part cannot be brought to its place any more.

What it means: whichever way the part is brought in, it meets something that is already there. It
would have to pass through metal, or through a rivet.

What to do: place the part before those that shut it in, or leave out the rivets that close its way.
Where a thin sheet can be sprung apart by hand far enough, settle it under `known` with the reason
and `sure: yes`.

Found, because the block between the two rails comes when the lid is on:

```yaml
steps:
  - place: [rail left, rail right, lid]
  - place: block
```

In order:

```yaml
steps:
  - place: [rail left, rail right, block]
  - place: lid
```

The rule: a part comes in along one straight move from outside, or along one and then a short second
move, turned as it lies in the end, without cutting into anything by more than 0.05 mm. A sub-assembly
comes in as one piece. Parts are rigid in this sum. Where the part
itself, or every part in its way, is a skin or plate of at most 1.0 mm, it could be sprung apart,
and this is a warning that says so (project choice).
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.blocked import in_the_way, stopped_ways
from seqviz.checks.check import Check
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.places import where_placed
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.sequence.replay_types import NoWay

__all__ = ["CHECK"]

SPRINGS = 1.0 + 1e-6
"""mm."""


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and entry."""
    for group in grouped(build, "no-way-in", stopped_ways(build, "parts")):
        sprung = all(_could_be_sprung(build, way) for way in group.all)
        yield group.finding(
            "no-way-in",
            "warning" if sprung else "error",
            _words(build, group, sprung=sprung),
            steps=(group.first.step,),
            related=where_placed(build, in_the_way(build, group.all).parts, group.first.step),
        )


def _words(build: Build, group: Group[NoWay], *, sprung: bool) -> Words:
    step, names = group.first.step, listed(way.part for way in group.all)
    there = in_the_way(build, group.all)
    spring = (
        " A sheet as thin as this may be sprung apart by hand; seqviz does not bend it." if sprung else ""
    )
    first = (
        f"Place {names} before {listed(there.parts)}"
        if there.parts
        else f"Place {names} before those holes are filled"
    )
    return Words(
        message=f"{names} cannot be brought in at step {step}: {there.named} {there.stand} in the way.",
        why=f"Every straight way to its place meets what is already there.{spring}",
        fix=f"Try it by hand first, or place {names} earlier." if sprung else f"{first}.",
    )


def _could_be_sprung(build: Build, way: NoWay) -> bool:
    """Tell whether the part itself, or everything in its way, is a thin sheet."""
    return _thin(build, way.part) or (bool(way.blockers) and all(_thin(build, name) for name in way.blockers))


def _thin(build: Build, name: str) -> bool:
    placed = build.assembly.placed.get(name)
    return (
        placed is not None
        and placed.part.shape in ("skin", "plate")
        and all(flat.thickness <= SPRINGS for flat in placed.part.flats.values())
    )


CHECK = Check("no-way-in", "error", find)
