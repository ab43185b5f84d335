"""No step places a part.

What it means: the sequence says `finished: yes`, and this part is still on the shelf. Either its
step was forgotten, or it belongs to work that comes later.

What to do: add a `place` step where the part goes in, in time before the rivets that go through it.
Where it comes in other work, list it under `later` in the model.

Found, because the strap is under `placed` in the model:

```yaml
finished: yes
steps:
  - place: [rail left, rail right]
  - rivet: everything ready
```

Placed:

```yaml
finished: yes
steps:
  - place: [rail left, rail right, strap]
  - rivet: everything ready
```

The rule: at the end of a finished sequence every part of the model is there but the templates and what
`later` names; the base is there from the start. A part that was taken off and not placed again, and the
parts of a sub-assembly that was never placed, are missing too. While the sequence is
not finished this is a count in the summary, no finding.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.ending import to_be_placed
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.places import said_at
from seqviz.checks.wording import listed
from seqviz.findings import At, Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each entry of ``placed`` that no step places."""
    for group in grouped(build, "part-unplaced", _sightings(build)):
        yield _finding(build, group)


def _finding(build: Build, group: Group[_Missing]) -> Finding:
    names, why = listed(missing.part for missing in group.all), group.first
    many = len(group.all) > 1
    finished = "The sequence says that it is finished, so every part must be in its place at the end."
    if why.apart is not None:
        words = Words(
            message=f"{names} {'are' if many else 'is'} joined apart in {why.apart}, and no "
            f"step places {why.apart} on the main work.",
            why=finished,
            fix=f"Add a step that places {why.apart}, or name its parts under later.",
        )
    elif why.off is not None:
        words = Words(
            message=f"Step {why.off} takes {names} off, and no later step places "
            f"{'them' if many else 'it'} again.",
            why=finished,
            fix=f"Add a step after step {why.off} that places {names}, or name the part under later.",
        )
    else:
        words = Words(
            message=f"No step places {names}.",
            why="The sequence says that it is finished, so every part must have its step.",
            fix=f"Add a step that places {names}, or name the part under later.",
        )
    related = said_at(build, why.off, f"Step {why.off} takes {names} off.")
    steps = () if why.off is None else (why.off,)
    return group.finding("part-unplaced", "error", words, steps=steps, related=related)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Missing:
    """A part that is not there at the end; the sub-assembly in which it was left, or who took it off."""

    part: str
    apart: str | None
    off: int | None


def _sightings(build: Build) -> Iterator[Sighting[_Missing]]:
    missing = to_be_placed(build)
    for name, placed in build.assembly.placed.items():
        if name in missing:
            seen = _missing(build, name)
            at = _apart_at(build, seen.apart) or placed.at
            yield Sighting(key=(seen.apart, seen.off), seen=seen, at=at, parts=(name,))


def _apart_at(build: Build, name: str | None) -> At | None:
    """Return where the name of the sub-assembly stands: its parts lack one step, not one each."""
    apart = build.sequence.apart if build.sequence else ()
    return next((one.name_at or one.at for one in apart if one.name == name), None)


def _missing(build: Build, name: str) -> _Missing:
    states = build.replay.states if build.replay else ()
    last = max((state.step.number for state in states), default=0)
    works = build.replay.where.get(name, {}) if build.replay else {}
    apart = next((work for work, bits in works.items() if bits >> last & 1), None)
    off = max((state.step.number for state in states if name in state.taken_off), default=None)
    return _Missing(part=name, apart=apart, off=off if apart is None else None)


CHECK = Check("part-unplaced", "error", find)
