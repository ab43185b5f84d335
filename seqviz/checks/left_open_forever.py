"""Holes are left open, and nothing ever fills them.

What it means: a `leave open` step kept these holes free, and the sequence ends without a rivet in
them. What they waited for has come, or never comes; either way they were forgotten.

What to do: rivet them after the part they wait for is there. Where they wait for other work, list
them under `later` in the model with the reason.

Found:

```yaml
finished: yes
steps:
  - leave open: rail left.foot.28-30
    for: strap
  - rivet: everything ready
  - place: strap
```

Filled in the end:

```yaml
finished: yes
steps:
  - leave open: rail left.foot.28-30
    for: strap
  - rivet: everything ready
  - place: strap
  - rivet: rail left.foot.28-30
```

The rule: at the end of a finished sequence no hole is left open but those named under `later`.
Holes of a part that no step places are told with that part, as `part-unplaced`.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.ending import drilled_through, finished, to_be_placed
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import row_of, sound, step_numbered
from seqviz.checks.targets import later_stacks
from seqviz.findings import Finding
from seqviz.records.steps import LeaveOpen
from seqviz.sequence.replay_types import OpenSince

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row and the last step that left it open."""
    for group in grouped(build, "left-open-forever", _sightings(build)):
        number, them = group.first.step, group.them
        word = fastener_word(build, (still.stack for still in group.all))
        words = Words(
            message=f"{group.named}: step {number} leaves {group.these('hole')} open{_purpose(build, number)}"
            f", and no step ever fills {them}.",
            why=f"The sequence says that it is finished. An open hole is a forgotten {word}.",
            fix=f"{'Bolt' if word == 'bolt' else 'Rivet'} {them} in a later step, "
            f"or list {them} under later with the reason.",
        )
        yield group.finding("left-open-forever", "error", words, steps=(number,))


def _sightings(build: Build) -> Iterator[Sighting[OpenSince]]:
    if build.replay is None or not finished(build):
        return
    assembly, later, unplaced = build.assembly, later_stacks(build), to_be_placed(build)
    last = {still.stack: still for still in sorted(build.replay.open_since, key=lambda still: still.step)}
    for index, still in sorted(last.items()):
        stack = assembly.stacks[index]
        if index in build.replay.filled_at or index in later or not sound(assembly, stack.parts):
            continue
        if not unplaced.isdisjoint(stack.parts):
            continue  # the part they wait for has no step: that is told as part-unplaced
        if not drilled_through(build, stack):
            continue  # nothing could fill it: that is told as layer-undrilled
        yield Sighting(
            key=(still.step, row_of(assembly, stack)),
            seen=still,
            at=still.at,
            parts=tuple(dict.fromkeys(stack.parts)),
            stack=index,
        )


def _purpose(build: Build, number: int) -> str:
    """Return what the step leaves the holes open for, as the file says it."""
    step = step_numbered(build, number)
    reason = step.action.reason if step and isinstance(step.action, LeaveOpen) else None
    return f" for {reason}" if reason else ""


CHECK = Check("left-open-forever", "error", find)
