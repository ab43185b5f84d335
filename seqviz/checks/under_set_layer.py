"""A part has to go between two others that are fastened to each other already.

What it means: the part lies between two layers, and near its place rivets hold those two tight. It has
no open hole in common with them there, so nothing would even tell that it was forgotten: it just does
not go in any more.

What to do: place the part before the rivets beside it are set, or drill those out first.

Found, because the shim comes when the rivets round it are in:

```yaml
steps:
  - place: rail left
  - rivet: rail left.foot
  - place: shim
```

In order:

```yaml
steps:
  - place: [shim, rail left]
  - rivet: rail left.foot
```

The rule: a set fastener that goes through two parts clamps what lies within 25 mm of it (project
choice). A part that in the finished structure lies between them there, and is no layer of the
fastener's hole, must be in before. Where it shares a hole with both that is still open, or a set rivet
goes through its own place, another finding tells.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.places import said_at
from seqviz.checks.sightings import seen_at_holes
from seqviz.checks.wording import length, listed, steps_named
from seqviz.findings import Finding
from seqviz.sequence.replay_types import UnderSet
from seqviz.sequence.under_set import NEAR

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and part that comes too late to go between."""
    troubles = build.replay.under_set if build.replay else ()
    seen = seen_at_holes(build, troubles, lambda t: t.stacks, lambda t: (t.part, *t.between), by_row=False)
    for group in grouped(build, "under-set-layer", seen):
        set_at = sorted({number for late in group.all for number in late.set_at})
        word = group.these(fastener_word(build, (s.stack for s in group.sightings if s.stack is not None)))
        related = [
            place for number in set_at for place in said_at(build, number, f"Step {number} sets {word}.")
        ]
        yield group.finding(
            "under-set-layer",
            "error",
            _words(build, group, word, set_at),
            steps=(*set_at, group.first.step),
            related=related,
        )


def _words(build: Build, group: Group[UnderSet], word: str, set_at: list[int]) -> Words:
    step, part = group.first.step, listed(dict.fromkeys(late.part for late in group.all))
    pair = listed(sorted({name for late in group.all for name in late.between}))
    return Words(
        message=f"{part} cannot go between {pair} in step {step}: {word}, {group.named}, "
        f"{'holds' if group.one else 'hold'} them together.",
        why=f"{word.capitalize()} {'was' if group.one else 'were'} set in {steps_named(set_at)}, within "
        f"{length(build, NEAR)} of where {part} lies (project choice): there is no gap left to slide it in.",
        fix=f"Place {part} before step {set_at[0]}, or drill {word} out before step {step}.",
    )


CHECK = Check("under-set-layer", "error", find)
