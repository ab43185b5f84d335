"""Lengths were taken with a tape, so small misfits are not reported.

What it means: the model, or a part of it, says `measured to:`. Holes of such a part may be off, gaps
may be open and parts may cut into each other by so much more than usual before anything is said.
What is left is trustworthy as far as the order of work, stacks and rivets go; whether the holes
really meet shows on the bench.

What to do: nothing now. Take the words out when the part has arrived or the drawing is there, and
look at what is found then.

Told, because the rail was measured on the neighbour's airframe:

```yaml
parts:
  rail: {shape: angle, thickness: 1.0, length: 620, legs: [20, 25], measured to: 1 mm}
```

Nothing to tell, because its lengths are those of the drawing:

```yaml
parts:
  rail: {shape: angle, thickness: 1.0, length: 620, legs: [20, 25]}
```

The rule: holes that are off, gaps between layers and interference count from their usual limit plus
the length given; of two parts the looser one counts, and a part's own words before those of the
model (project choice). Told once, however many parts say so.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.wording import length, listed
from seqviz.findings import Finding, Related

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one note where anything was measured loosely."""
    model = build.model
    parts = [(part.name, part.measured) for part in model.parts.values() if part.measured is not None]
    said = [(None, model.measured)] if model.measured is not None else []
    every = [*said, *parts]
    if not every:
        return
    (first, measured), *others = every
    whose = "The parts were" if first is None else f"{first} was"
    most = max(one.to for _, one in every)
    names = listed(name for name, _ in others if name is not None)
    yield Finding(
        kind="measured-loosely",
        severity="note",
        at=measured.at,
        message=f"{whose} measured to {length(build, measured.to)}"
        f"{f', and {names} loosely too' if others else ''}.",
        why=f"Holes that are off, gaps and interference of up to {length(build, most)} more than usual are "
        "not reported there.",
        fix="Take `measured to` out when you have the drawing or the part itself.",
        parts=tuple(name for name, _ in parts),
        related=tuple(
            Related(at=one.at, message=f"{name}: to {length(build, one.to)}") for name, one in others
        ),
    )


CHECK = Check("measured-loosely", "note", find)
