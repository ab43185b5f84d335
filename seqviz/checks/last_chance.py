"""After this step holes that are not set yet can no longer be reached.

What it means: the sequence is not finished, and no step sets these holes so far. Once this step is done no
tool of yours reaches them any more, whatever is written after it so far.

What to do: set them before this step, or place the part that closes them later. If something is to be
taken off again anyhow, write that step, and the note goes away.

Found, because the rail's holes are not set when the lid comes:

```yaml
finished: no
steps:
  - place: rail left
  - place: lid
```

In order:

```yaml
finished: no
steps:
  - place: rail left
  - rivet: rail left.foot
  - place: lid
```

The rule: as `tool-blocked`, asked ahead of time: of every hole whose layers are all there and that could be
reached before the step, and by none of the tools after it, to the last step written. What only the bench
closes does not count. In a finished sequence such a hole is `never-set` or `tool-blocked`.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.sightings import seen_at_holes
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.sequence.replay_types import LastChance

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and row that it closes."""
    troubles = build.replay.last_chance if build.replay else ()
    seen = seen_at_holes(build, troubles, lambda t: t.stacks, lambda t: t.parts)
    for group in grouped(build, "last-chance", seen):
        yield group.finding("last-chance", "note", _words(build, group), steps=(group.first.step,))


def _words(build: Build, group: Group[LastChance]) -> Words:
    step, names = group.first.step, listed(group.first.parts)
    bolts = fastener_word(build, (s.stack for s in group.sightings if s.stack is not None)) == "bolt"
    return Words(
        message=f"{group.named}: no tool reaches {group.these('hole')} any more after step {step} "
        f"places {names}.",
        why=f"No step sets {group.them} yet, and none so far makes room again.",
        fix=f"{'Bolt' if bolts else 'Rivet'} {group.them} before step {step}, or place {names} later.",
    )


CHECK = Check("last-chance", "note", find)
