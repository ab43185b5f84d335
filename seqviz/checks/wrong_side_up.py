"""The side that is needed lies on the bench.

What it means: there is room for the tool, or a way in for the part, but from below only, and there
is the bench. The work must be turned over first.

What to do: put a `turn over` step before this one. Where the work stands high on trestles, say so
with `bench: trestles`: then nothing is closed from below. A rivet can also be set from the other
side with `head`.

Found, because the rail's free side lies on the bench:

```yaml
up: upper
bench: flat
steps:
  - place: rail left
  - rivet: rail left.foot
    head: lower
```

In order:

```yaml
up: upper
bench: flat
steps:
  - place: rail left
  - turn over: sideways
  - rivet: rail left.foot
    head: lower
```

The rule: on a flat bench no tool and no part comes from more than 15 degrees below level (project
choice).
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.blocked import stopped_tools, stopped_ways
from seqviz.checks.check import Check
from seqviz.checks.grouping import Words, grouped
from seqviz.checks.wording import listed
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and row, or step and part, that the bench stops."""
    for tools in grouped(build, "wrong-side-up", stopped_tools(build, "bench")):
        step = tools.first.step
        rivets = f"{tools.these('rivet')} {'is' if tools.one else 'are'}"
        message = f"{tools.named}: the side from which {rivets} set lies on the bench in step {step}."
        yield tools.finding("wrong-side-up", "error", _words(message, step), steps=(step,))
    for ways in grouped(build, "wrong-side-up", stopped_ways(build, "bench")):
        step, names = ways.first.step, listed(way.part for way in ways.all)
        message = f"{names}: the only way in is from below, and the work lies on the bench in step {step}."
        yield ways.finding("wrong-side-up", "error", _words(message, step), steps=(step,))


def _words(message: str, step: int) -> Words:
    return Words(
        message=message,
        why="On a flat bench nothing comes from more than 15 degrees below level (project choice).",
        fix=f"Turn the work over before step {step}, or say bench: trestles if it stands free.",
    )


CHECK = Check("wrong-side-up", "error", find)
