"""A row is riveted with too few pins in it.

What it means: while the row is set, more holes than one should leave lie between one pin and the next.
Every rivet pulls the sheets a little; without a pin nearby the holes walk, and the last ones do not meet.

What to do: put pins closer before the row is set, or set a rivet here and there first and then the rest.

Found, because twenty-eight holes lie between the two pins:

```yaml
steps:
  - place: rail left
    pins: [rail left.foot.1, rail left.foot.30]
  - rivet: rail left.foot
```

In order:

```yaml
steps:
  - place: rail left
    pins: ends and every 4th
  - rivet: rail left.foot
```

The rule: no more than 10 holes of a row lie between neighbouring pins or set fasteners while it is being
set, nor between the last of them and the row's end (project choice). Asked only of parts that are pinned to
each other at all: who holds them otherwise, with clamps, need not count.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import fills
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.sightings import seen_at_holes
from seqviz.findings import Finding
from seqviz.sequence.pin_gaps import MOST_BETWEEN
from seqviz.sequence.replay_types import PinsFarApart

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and row."""
    troubles = build.replay.pins_far_apart if build.replay else ()
    seen = seen_at_holes(build, troubles, lambda t: (t.stack,), lambda _: ())
    for group in grouped(build, "pins-too-far-apart", seen):
        step = group.first.step
        row = group.holes[0].rpartition(".")[0]
        words = Words(
            message=f"{row}: step {step} {fills(build, step)} with no pin in {_where(build, group)}.",
            why=f"More than {MOST_BETWEEN} holes between neighbouring pins let the sheets creep "
            "(project choice).",
            fix=f"Put more pins into {row} before step {step}: ends and every {MOST_BETWEEN // 2}th, say.",
        )
        yield group.finding("pins-too-far-apart", "warning", words, steps=(step,))


def _where(build: Build, group: Group[PinsFarApart]) -> str:
    widest = max(group.all, key=lambda gap: gap.holes)
    before, after = (None if k is None else build.assembly.stacks[k].holes[0] for k in widest.between)
    if before and after:
        place = f"between {before} and {after}"
    elif before or after:
        place = f"between {before or after} and the end of the row"
    else:
        return f"any of its {widest.holes} holes"
    return f"the {widest.holes} holes {place}"


CHECK = Check("pins-too-far-apart", "warning", find)
