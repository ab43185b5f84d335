"""A step fills a hole that has its rivet already.

What it means: the step names a hole in which an earlier step has set a rivet or a bolt. Often a number of
the row is wrong.

What to do: correct the numbers, or take the hole out with `except`. A rivet that is to be replaced is
drilled out first.

Found, because hole 10 is in both steps:

```yaml
steps:
  - place: rail left
  - rivet: rail left.foot.1-10
  - rivet: rail left.foot.10-20
```

In order:

```yaml
steps:
  - place: rail left
  - rivet: rail left.foot.1-10
  - rivet: rail left.foot.11-20
```

The rule: a hole takes one fastener. A whole row, named without numbers, means what is still empty of it,
and `everything ready` skips what is filled. A bolt that was run on finger tight is tightened by the second
step. (Project choice.)
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import fastener_word, fills
from seqviz.checks.grouping import Words, grouped
from seqviz.checks.places import said_at
from seqviz.checks.sightings import seen_at_holes
from seqviz.checks.wording import steps_named
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and row."""
    troubles = build.replay.set_twice if build.replay else ()
    for group in grouped(
        build, "set-twice", seen_at_holes(build, troubles, lambda t: (t.stack,), lambda _: ())
    ):
        step, since = group.first.step, sorted({twice.since for twice in group.all})
        word = fastener_word(build, (twice.stack for twice in group.all))
        words = Words(
            message=f"{group.named}: step {step} {fills(build, step)} {group.these('hole')} again.",
            why=f"{group.these(word).capitalize()} {'was' if group.one else 'were'} set in "
            f"{steps_named(since)}, and a hole takes one.",
            fix=f"Leave {group.them} out of step {step} or of {steps_named(since)}, or add a drill out "
            f"step before step {step} where {group.these(word)} must be replaced.",
        )
        related = [
            place
            for number in since
            for place in said_at(build, number, f"Step {number} fills {group.these('hole')}.")
        ]
        yield group.finding("set-twice", "warning", words, steps=(*since, step), related=related)


CHECK = Check("set-twice", "warning", find)
