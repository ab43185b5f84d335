"""No step places a part.

What it means: the sequence says `finished: yes`, and this part is still on the shelf. Either its
step was forgotten, or it belongs to work that comes later.

What to do: add a `place` step where the part goes in, in time before the rivets that go through it.
Where it comes in other work, list it under `later` in the model.

Found, because the strap is under `placed` in the model:

```yaml
finished: yes
steps:
  - place: [rail left, rail right]
  - rivet: everything ready
```

Placed:

```yaml
finished: yes
steps:
  - place: [rail left, rail right, strap]
  - rivet: everything ready
```

The rule: a finished sequence places every part of the model but the base, which is there from the
start, and what `later` names. While the sequence is not finished this is a count in the summary, no
finding.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.ending import to_be_placed
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.wording import listed
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each entry of ``placed`` that no step places."""
    for group in grouped(build, "part-unplaced", _sightings(build)):
        names = listed(group.all)
        words = Words(
            message=f"No step places {names}.",
            why="The sequence says that it is finished, so every part must have its step.",
            fix=f"Add a step that places {names}, or name the part under later.",
        )
        yield group.finding("part-unplaced", "error", words)


def _sightings(build: Build) -> Iterator[Sighting[str]]:
    missing = to_be_placed(build)
    for name, placed in build.assembly.placed.items():
        if name in missing:
            yield Sighting(key=(), seen=name, at=placed.at, parts=(name,))


CHECK = Check("part-unplaced", "error", find)
