"""The turned work stands on the edge of a thin sheet.

What it means: after the turn nothing but the edges of thin sheets touches the bench. Under the weight of
the work, and of your hands, they bend.

What to do: set it on blocks or trestles under something strong and say so with `bench`, turn it so that it
lies on a face or a leg, or place the part that stiffens the edge first.

Found, because only the edge of the skin touches the bench then:

```yaml
steps:
  - place: rail left
  - turn over: {up: left side}
```

In order:

```yaml
steps:
  - place: rail left
  - turn over: {up: left side, bench: blocks}
```

The rule: what is within 1 mm of the lowest point stands on the bench. A skin or plate thinner than 1 mm
that stands there on its edge is weak; one that lies on its face is not, nor anything with a leg or a
flange (project choice).
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Words, grouped
from seqviz.checks.sightings import seen_at_parts
from seqviz.checks.wording import length, listed
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each turn."""
    troubles = build.replay.stands_on_weak if build.replay else ()
    for group in grouped(build, "stands-on-weak", seen_at_parts(build, troubles, lambda t: t.parts)):
        step, names = group.first.step, listed(group.parts)
        edges = f"the edge of {names}" if len(group.parts) == 1 else f"the edges of {names}"
        words = Words(
            message=f"After the turn in step {step} the work stands on {edges} alone.",
            why=f"A sheet thinner than {length(build, 1.0)} bends on its edge under the work "
            "(project choice).",
            fix=f"Support the work and say bench: blocks or bench: trestles in step {step}, "
            "or turn another side up.",
        )
        yield group.finding("stands-on-weak", "warning", words, steps=(step,))


CHECK = Check("stands-on-weak", "warning", find)
