"""A step places a part that is there already.

What it means: two steps place the same part, and none between them takes it off. One of the two is wrong,
or a `take off` is missing.

What to do: take the name out of one of the steps, or take the part off before it is placed again.

Found:

```yaml
finished: yes
steps:
  - place: [rail left, strap]
  - rivet: everything ready
  - place: strap
```

In order:

```yaml
finished: yes
steps:
  - place: [rail left, strap]
  - take off: strap
  - place: strap
  - rivet: everything ready
```

The rule: a part is in one place at a time. Told of a finished sequence only; while it is not finished the
second step changes nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.ending import finished
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import members_of, said_at, sound
from seqviz.checks.wording import listed, steps_named
from seqviz.findings import Finding
from seqviz.sequence.replay_types import PlacedTwice

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and the step that placed the same before."""
    for group in grouped(build, "placed-twice", _sightings(build)):
        step, since = group.first.step, group.first.since
        names = listed(twice.part for twice in group.all)
        them, is_ = ("it", "is") if len(group.all) == 1 else ("them", "are")
        words = Words(
            message=f"Step {step} places {names}, and {'it' if them == 'it' else 'they'} {is_} there since "
            f"{steps_named([since])}.",
            why=f"No step between takes {them} off, and the sequence says that it is finished.",
            fix=f"Leave {names} out of step {step}{f' or step {since}' if since else ''}, "
            f"or take {them} off before step {step}.",
        )
        related = said_at(build, since, f"Step {since} places {names}.")
        steps = [number for number in (since, step) if number]
        yield group.finding("placed-twice", "error", words, steps=steps, related=related)


def _sightings(build: Build) -> Iterator[Sighting[PlacedTwice]]:
    if build.replay is None or not finished(build):
        return
    for twice in build.replay.placed_twice:
        parts = members_of(build, twice.part)
        if sound(build.assembly, parts):
            yield Sighting(key=(twice.step, twice.since), seen=twice, at=twice.at, parts=parts)


CHECK = Check("placed-twice", "error", find)
