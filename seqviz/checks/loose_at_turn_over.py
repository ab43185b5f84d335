"""A part is loose when the work is turned over.

What it means: fewer than two pins or fasteners hold the part. It slides or swings round the one it has, or
falls out, when the work goes over.

What to do: pin it before the turn, in two holes at least, or place it afterwards.

Found, because nothing holds the strap:

```yaml
steps:
  - place: [rail left, strap]
  - turn over: sideways
```

In order:

```yaml
steps:
  - place: [rail left, strap]
    pins: ends and every 4th
  - turn over: sideways
```

The rule: every part of the work that is turned has two pins or fasteners through it and another part, or
one where it has no more holes than that. The base itself, and a part without a hole in common with
another, are held otherwise. (Project choice.)
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.sightings import seen_at_parts
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.sequence.replay_types import LooseAtTurn

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each turn."""
    troubles = build.replay.loose_at_turn if build.replay else ()
    for group in grouped(build, "loose-at-turn-over", seen_at_parts(build, troubles, lambda t: (t.part,))):
        step = group.first.step
        names, one = listed(group.parts), len(group.parts) == 1
        words = Words(
            message=f"{names} {'is' if one else 'are'} loose when step {step} turns the work over: "
            f"{_held(build, group)}.",
            why="A part held in fewer than two holes slides or swings when the work goes over "
            "(project choice).",
            fix=f"Pin {'it' if one else 'them'} in two holes at least before step {step}, or place "
            f"{names} afterwards.",
        )
        yield group.finding("loose-at-turn-over", "warning", words, steps=(step,))


def _held(build: Build, group: Group[LooseAtTurn]) -> str:
    """Return what holds them: nothing, or single holes."""
    stacks = dict.fromkeys(stack for loose in group.all for stack in loose.held)
    holes = [build.assembly.stacks[stack].holes[0] for stack in stacks]
    bare = [loose.part for loose in group.all if not loose.held]
    if not holes:
        return f"no pin and no fastener holds {'it' if len(bare) == 1 else 'them'}"
    held = f"only the hole {holes[0]} holds" if len(holes) == 1 else f"only the holes {listed(holes)} hold"
    return f"{held} {'it' if len(group.all) == 1 else 'them'}"


CHECK = Check("loose-at-turn-over", "warning", find)
