"""A part closes rivets that nobody has checked.

What it means: once this part is on, no tool reaches those rivets or bolts any more. They were set, but
since the parts were pinned up no `check` or `inspect` was made: whether all is straight and every rivet is
tight can be seen now, and hardly later.

What to do: add a `check` or `inspect` step before this one, with what is looked at.

Found, because the lid closes the box unseen:

```yaml
steps:
  - place: [rail left, rail right]
    pins: ends and every 4th
  - rivet: everything ready
  - place: lid
```

In order:

```yaml
steps:
  - place: [rail left, rail right]
    pins: ends and every 4th
  - rivet: everything ready
  - inspect: every rivet inside is tight, nothing lies in the box
  - place: lid
```

The rule: a step that places something after which set fasteners of the same work are never reached again,
by any of your tools, to the end of the steps, wants a check since the last pinning (project choice). What
only the bench closes does not count, nor what is laid over heads: that is `head-under-part`.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.blocked import unreached_stacks
from seqviz.checks.check import Check
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.places import said_at
from seqviz.checks.sightings import seen_at_holes
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.sequence.replay_types import ClosingUnchecked

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step that closes something."""
    troubles = build.replay.closing_unchecked if build.replay else ()
    unreached = unreached_stacks(build)
    seen = seen_at_holes(
        build,
        troubles,
        lambda t: [k for k in t.stacks if k not in unreached],
        lambda t: t.parts,
        by_row=False,
    )
    for group in grouped(build, "closing-unchecked", seen):
        step, pinned = group.first.step, group.first.pinned
        yield group.finding(
            "closing-unchecked",
            "warning",
            _words(build, group),
            steps=(pinned, step),
            related=said_at(build, pinned, f"Step {pinned} puts the last pins in."),
        )


def _words(build: Build, group: Group[ClosingUnchecked]) -> Words:
    closing = group.first
    word = group.these(fastener_word(build, (s.stack for s in group.sightings if s.stack is not None)))
    return Words(
        message=f"Step {closing.step} places {listed(closing.parts)}; after it no tool reaches "
        f"{word} any more: {group.named}.",
        why=f"Nobody has checked the work since it was pinned in step {closing.pinned}, and what is wrong "
        f"with {group.them} could not be mended afterwards (project choice).",
        fix=f"Add a check or inspect step before step {closing.step}.",
    )


CHECK = Check("closing-unchecked", "warning", find)
