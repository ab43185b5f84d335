"""A step fills holes that an earlier step leaves open.

What it means: the holes were kept free for something that is not there yet, and now a rivet goes
in. When it comes, the rivet has to be drilled out.

What to do: take these holes out of the step, with `except:` or by naming the others; `everything
ready` skips them by itself. If nothing has to come any more, say so first with `open no longer`.

Found:

```yaml
steps:
  - leave open: rail left.foot.28-30
    for: strap
  - rivet: rail left.foot
```

Left alone:

```yaml
steps:
  - leave open: rail left.foot.28-30
    for: strap
  - rivet: rail left.foot
    except: rail left.foot.28-30
```

The rule: `leave open` holds until the part it names is placed, or until `open no longer`. A pin
does not fill a hole.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import fills
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import row_of, said_at, sound, step_numbered
from seqviz.findings import Finding
from seqviz.records.steps import LeaveOpen
from seqviz.sequence.replay_types import FilledOpen

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step, row and ``leave open`` step."""
    for group in grouped(build, "fills-left-open", _sightings(build)):
        filled = group.first
        begun = step_numbered(build, filled.since)
        reason = begun.action.reason if begun and isinstance(begun.action, LeaveOpen) else None
        waits = f" for {reason}" if reason else ""
        them = group.them
        words = Words(
            message=f"{group.named}: step {filled.step} {fills(build, filled.step)} {group.these('hole')}, "
            f"which step {filled.since} leaves open{waits}.",
            why=f"{reason or 'What comes there'} still needs {them}; nothing says that it no longer does.",
            fix=f"Leave {them} out of step {filled.step} with except, or say open no longer first.",
        )
        related = said_at(build, filled.since, f"Step {filled.since} leaves {them} open{waits}.")
        steps = (filled.since, filled.step)
        yield group.finding("fills-left-open", "error", words, steps=steps, related=related)


def _sightings(build: Build) -> Iterator[Sighting[FilledOpen]]:
    assembly = build.assembly
    for filled in build.replay.filled_open if build.replay else ():
        stack = assembly.stacks[filled.stack]
        if sound(assembly, stack.parts):
            yield Sighting(
                key=(filled.step, filled.since, row_of(assembly, stack)),
                seen=filled,
                at=filled.at,
                parts=tuple(dict.fromkeys(stack.parts)),
                stack=filled.stack,
            )


CHECK = Check("fills-left-open", "error", find)
