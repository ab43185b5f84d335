"""Holes stay without a rivet to the end.

What it means: the sequence says `finished: yes`, all layers of these holes are there, and no step
sets anything in them. An empty hole in a finished joint is a forgotten rivet.

What to do: add the holes to a `rivet` step. Where they wait for other work, list them under `later`
with the reason.

Found, because holes 11 to 30 have no step:

```yaml
finished: yes
steps:
  - place: rail left
  - rivet: rail left.foot.1-10
```

All set:

```yaml
finished: yes
steps:
  - place: rail left
  - rivet: rail left.foot
```

The rule: at the end every hole with two or more drilled layers is filled, or named under `later`.
Holes left open with `leave open` are told as `left-open-forever`. While the sequence is not
finished this is a count in the summary.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.ending import to_be_filled
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import entries_of, row_of, said_at
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row and set of parts."""
    for group in grouped(build, "never-set", _sightings(build)):
        word = fastener_word(build, (s.stack for s in group.sightings if s.stack is not None))
        kind, emptied = "bolt" if word == "bolt" else "rivet", group.first
        nothing = f"no step sets a {kind} in {group.these('hole')}"
        if emptied is not None:
            nothing = f"step {emptied} drills {group.these(kind)} out, and no step sets {group.them} again"
        words = Words(
            message=f"{group.named}: {nothing}.",
            why="The sequence says that it is finished, and all the layers are there.",
            fix=f"Add {group.them} to a {kind} step{f' after step {emptied}' if emptied else ''}, "
            f"or list {group.them} under later with the reason.",
        )
        related = said_at(build, emptied, f"Step {emptied} drills {group.these(kind)} out.")
        steps = () if emptied is None else (emptied,)
        yield group.finding("never-set", "error", words, steps=steps, related=related)


def _sightings(build: Build) -> Iterator[Sighting[int | None]]:
    assembly = build.assembly
    left_open = {still.stack for still in build.replay.open_since} if build.replay else set()
    states = build.replay.states if build.replay else ()
    emptied = {index: state.step.number for state in states for index in state.emptied}
    for stack in to_be_filled(build):
        if stack.index not in left_open:
            yield Sighting(
                key=(*entries_of(assembly, stack.parts), emptied.get(stack.index)),
                seen=emptied.get(stack.index),
                at=row_of(assembly, stack),
                parts=tuple(dict.fromkeys(stack.parts)),
                stack=stack.index,
            )


CHECK = Check("never-set", "error", find)
