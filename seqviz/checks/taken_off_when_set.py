"""A part is taken off while rivets or bolts hold it.

What it means: the step takes a part off that is fastened to what stays. It comes away only when those
fasteners are drilled out.

What to do: take it off before they are set, or drill them out first; a bolt is taken out with `drill out`
too. Where the part was only put on for a trial, pins are enough.

Found, because the strap's rivets are in:

```yaml
steps:
  - place: [rail left, strap]
  - rivet: strap.eye
  - take off: strap
```

In order:

```yaml
steps:
  - place: [rail left, strap]
    pins: all
  - drill: strap.eye
  - pull pins: strap.eye
  - take off: strap
```

The rule: a set fastener holds every part that was there when it was set, and a bolt whose nut is only
run on holds as well. What is taken off together, as one sub-assembly, may be fastened to itself.
Pins that are still in are told as `pin-in-the-way`.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.places import said_at
from seqviz.checks.sightings import seen_at_holes
from seqviz.checks.wording import listed, steps_named
from seqviz.findings import Finding
from seqviz.sequence.replay_types import OffWhenSet

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and part that is held."""
    troubles = build.replay.off_when_set if build.replay else ()
    seen = seen_at_holes(build, troubles, lambda t: t.stacks, lambda t: t.members or (t.part,), by_row=False)
    for group in grouped(build, "taken-off-when-set", seen):
        set_at = sorted({number for held in group.all for number in held.set_at})
        word = fastener_word(build, (s.stack for s in group.sightings if s.stack is not None))
        related = [
            place
            for number in set_at
            for place in said_at(build, number, f"Step {number} sets {group.these(word)}.")
        ]
        yield group.finding(
            "taken-off-when-set",
            "error",
            _words(group, word, set_at),
            steps=(*set_at, group.first.step),
            related=related,
        )


def _words(group: Group[OffWhenSet], word: str, set_at: list[int]) -> Words:
    step, names = group.first.step, listed(dict.fromkeys(held.part for held in group.all))
    count = f"a {word} holds" if group.one else f"{len(group.holes)} {word}s hold"
    return Words(
        message=f"{names} cannot come off in step {step}: {count} it in {group.named}.",
        why=f"{group.these(word).capitalize()} {'was' if group.one else 'were'} set in "
        f"{steps_named(set_at)}, and no step takes {group.them} out again.",
        fix=f"Take {names} off before step {set_at[0]}, or add a drill out step for {group.these(word)} "
        f"before step {step}.",
    )


CHECK = Check("taken-off-when-set", "error", find)
