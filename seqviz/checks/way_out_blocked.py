"""A part cannot be taken off: something is in its way.

What it means: nothing holds the part but whichever way it is moved, it meets something that is there.

What to do: take it off before the part in its way comes, or take that one off first.

Found, because the lid shuts the block in:

```yaml
steps:
  - place: [rail left, rail right, block]
  - place: lid
  - take off: block
```

In order:

```yaml
steps:
  - place: [rail left, rail right, block]
  - place: lid
  - take off: [lid, block]
```

The rule: a part goes out as it comes in, by one straight move, or a short one and then a straight one,
without cutting into anything by more than 0.05 mm; parts are rigid. A sub-assembly goes out as one piece.
Where the bench is in the way that is `wrong-side-up`, where only pins are `pin-in-the-way`, and where the
part is still fastened `taken-off-when-set`.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.blocked import in_the_way, stopped_ways_out
from seqviz.checks.check import Check
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.places import placing, where_placed
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.sequence.replay_types import NoWayOut

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and entry that does not come out."""
    for group in grouped(build, "way-out-blocked", stopped_ways_out(build, "parts")):
        there = in_the_way(build, group.all)
        yield group.finding(
            "way-out-blocked",
            "error",
            _words(build, group),
            steps=(group.first.step,),
            related=where_placed(build, there.parts, group.first.step),
        )


def _words(build: Build, group: Group[NoWayOut]) -> Words:
    step, names = group.first.step, listed(way.part for way in group.all)
    there = in_the_way(build, group.all)
    came = {part: build.replay.came_at(part, step) for part in there.parts} if build.replay else {}
    since = max(came.values(), default=0)
    last = [part for part in there.parts if since and came[part] == since]
    if last:
        fix = (
            f"Take {listed(last)} off first, or take {names} off before step {since} places "
            f"{placing(build, since, last)}."
        )
    else:
        fix = f"Take off first what stands in the way, or leave {names} where it is."
    return Words(
        message=f"{names} cannot be taken off in step {step}: {there.named} {there.stand} in the way.",
        why="Every straight way out meets what is there.",
        fix=fix,
    )


CHECK = Check("way-out-blocked", "error", find)
