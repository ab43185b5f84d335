"""A bolt is run on finger tight and never tightened.

What it means: the sequence says `finished: yes`, and the nut of this bolt was only run on by hand. It
comes loose.

What to do: add a `bolt` step without `finger tight` when everything is lined up; `bolt: everything ready`
tightens all that are still loose.

Found:

```yaml
finished: yes
steps:
  - place: [rail left, foot block]
  - bolt: foot block.feet
    finger tight: yes
```

Tightened:

```yaml
finished: yes
steps:
  - place: [rail left, foot block]
  - bolt: foot block.feet
    finger tight: yes
  - check: the block is square
  - bolt: foot block.feet
```

The rule: at the end of a finished sequence every bolt is tight (project choice). To what torque is said by
the drawings and the maker of the bolt, not here.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.ending import finished
from seqviz.checks.grouping import Words, grouped
from seqviz.checks.sightings import seen_at_holes
from seqviz.checks.targets import later_stacks
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and row of bolts left loose."""
    if build.replay is None or not finished(build):
        return
    later = later_stacks(build)
    troubles = [loose for loose in build.replay.still_finger_tight if loose.stack not in later]
    for group in grouped(
        build, "still-finger-tight", seen_at_holes(build, troubles, lambda t: (t.stack,), lambda _: ())
    ):
        step, bolts = group.first.step, group.these("bolt")
        words = Words(
            message=f"{group.named}: step {step} runs {bolts} on finger tight, and no step tightens "
            f"{group.them}.",
            why="The sequence says that it is finished. A nut that is only run on by hand comes loose.",
            fix=f"Add a bolt step for {bolts} after step {step}, without finger tight.",
        )
        yield group.finding("still-finger-tight", "error", words, steps=(step,))


CHECK = Check("still-finger-tight", "error", find)
