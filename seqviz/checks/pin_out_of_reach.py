"""A pin has no room where it is to go in.

What it means: the body of the pin, which stands on the side from which it comes, would stand in a part
that is there, or in the bench.

What to do: choose other holes, let the pin come from the other side with `pins from`, or pin before the
part in its way comes. An edge clamp may do where there is a free edge.

Found, because the flange stands over the row:

```yaml
steps:
  - place: [rail left, channel]
  - place: strap
    pins: all
```

In order:

```yaml
steps:
  - place: [rail left, channel]
  - place: strap
    pins: [strap.eye.1, strap.eye.3]
```

The rule: a pin's body is taken as 12 mm thick and 30 mm long (common practice, no source); it meets a part
when it would penetrate it by more than 0.05 mm, and it is closed by a flat bench that lies on its side.
Where no tool reaches the hole either, `tool-blocked` or `wrong-side-up` tells, and this is silent.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.blocked import unreached_stacks
from seqviz.checks.check import Check
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.places import where_placed
from seqviz.checks.sightings import seen_at_holes
from seqviz.checks.wording import length, listed
from seqviz.findings import Finding
from seqviz.sequence.fixings import PIN_BODY
from seqviz.sequence.replay_types import PinOutOfReach

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step, row and what is in the way."""
    troubles = build.replay.pin_out_of_reach if build.replay else ()
    unreached = unreached_stacks(build)
    for cause in ("parts", "bench"):
        stopped = [
            trouble for trouble in troubles if trouble.cause == cause and trouble.stack not in unreached
        ]
        seen = seen_at_holes(build, stopped, lambda t: (t.stack,), lambda t: t.blockers)
        for group in grouped(build, "pin-out-of-reach", seen):
            met = tuple(dict.fromkeys(part for pin in group.all for part in pin.blockers))
            yield group.finding(
                "pin-out-of-reach",
                "warning",
                _words(build, group, met),
                steps=(group.first.step,),
                related=where_placed(build, met, group.first.step),
            )


def _words(build: Build, group: Group[PinOutOfReach], met: tuple[str, ...]) -> Words:
    step, holes = group.first.step, group.these("hole")
    pins = "a pin" if group.one else "pins"
    wide, long = (length(build, value) for value in PIN_BODY)
    size = f"A pin's body is taken as {wide} thick and {long} long (common practice, no source)"
    if met:
        where = f"beside {listed(met)}"
        why = f"{size}; it would stand in {listed(met)}."
        fix = f"Pin other holes, pin from the other side, or place {listed(met)} after step {step}."
    else:
        where = "between the work and the bench"
        why = f"{size}, and the side from which {'it comes' if group.one else 'they come'} lies on the bench."
        fix = f"Pin from the side that is up, or turn the work over before step {step}."
    return Words(
        message=f"{group.named}: no room for {pins} in {holes} in step {step}, {where}.", why=why, fix=fix
    )


CHECK = Check("pin-out-of-reach", "warning", find)
