"""The drill comes out close in front of a part.

What it means: a drill that breaks through runs on by some millimetres before one can hold it. Behind this
hole a part stands so near that the drill would mark it, or go into it.

What to do: place that part after the drilling, drill from the other side, or hold a block of wood behind
the hole and put a stop on the drill; then settle it under `known` with that reason.

Found, because the channel's web stands 6 mm behind the rail's leg:

```yaml
steps:
  - place: [rail left, channel]
  - drill: rail left.side
```

In order:

```yaml
steps:
  - place: rail left
  - drill: rail left.side
  - place: channel
```

The rule: nothing stands within 15 mm behind the breakthrough (project choice). The drill goes in from the
side that is up, or from the template's side; a part with a hole there that lets the drill through is not
met.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Words, grouped
from seqviz.checks.places import where_placed
from seqviz.checks.sightings import seen_at_holes
from seqviz.checks.wording import length, listed
from seqviz.findings import Finding
from seqviz.sequence.strikes import BREAKTHROUGH

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step, row and part behind."""
    troubles = build.replay.drill_hits if build.replay else ()
    for group in grouped(
        build, "drill-hits", seen_at_holes(build, troubles, lambda t: (t.stack,), lambda t: t.parts)
    ):
        step, near = group.first.step, min(hit.behind for hit in group.all)
        struck = tuple(dict.fromkeys(part for hit in group.all for part in hit.parts))
        names, stand = listed(struck), "stands" if len(struck) == 1 else "stand"
        far = f"{length(build, near)} behind" if near else "right behind"
        words = Words(
            message=f"{group.named}: {names} {stand} {far} {group.these('hole')} where the drill of step "
            f"{step} comes out.",
            why=f"A drill runs on when it is through: {length(build, BREAKTHROUGH)} behind it must be free "
            "(project choice).",
            fix=f"Drill before {names} {'comes' if len(struck) == 1 else 'come'}, drill from the other side, "
            "or hold a block of wood behind the hole and put a stop on the drill.",
        )
        related = where_placed(build, struck, step)
        yield group.finding("drill-hits", "warning", words, steps=(step,), related=related)


CHECK = Check("drill-hits", "warning", find)
