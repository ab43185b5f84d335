"""A rivet is set before every layer is there.

What it means: the step sets rivets through holes that another part shares, and that part comes in a
later step, or in none. Its holes are then closed by rivets that have to be drilled out.

What to do: place the part before the rivets, or leave these holes open for it with `leave open` and
rivet them afterwards.

Found, because the strap shares rail holes 4 to 8 and comes too late:

```yaml
steps:
  - place: rail left
  - rivet: rail left.foot
  - place: strap
```

In order:

```yaml
steps:
  - place: rail left
  - leave open: rail left.foot.4-8
    for: strap
  - rivet: everything ready
  - place: strap
  - rivet: rail left.foot.4-8
```

The rule: a fastener is set when all the layers of its hole are there. The late step is shown beside
the finding. When the sequence is `finished: yes` and no step places the part at all, that is told
as `part-unplaced` and not here. From a step on that could not be read nothing is said, for it may
be the one that places the part.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import deed, fastener_word, fills
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.places import brought, entries_of, placing, row_of, said_at, sound
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.sequence.replay_types import TooEarly

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step, row and late part."""
    for group in grouped(build, "layer-missing", _sightings(build)):
        step = group.first.step
        comes: dict[int | None, list[str]] = {}
        for part, number in _late(group).items():
            comes.setdefault(number, []).append(part)
        related = [
            place
            for number, parts in comes.items()
            for place in said_at(build, number, f"{_comes(build, number, parts)}: too late.")
        ]
        steps = (step, *sorted(number for number in comes if number is not None))
        yield group.finding(
            "layer-missing", "error", _words(build, group, comes), steps=steps, related=related
        )


def _words(build: Build, group: Group[TooEarly], comes: dict[int | None, list[str]]) -> Words:
    step, late = group.first.step, list(_late(group))
    names = listed(late)
    rivets = group.these(fastener_word(build, (early.stack for early in group.all)))
    when = " ".join(f"{_comes(build, number, parts)}." for number, parts in comes.items())
    return Words(
        message=f"{group.named}: step {step} {fills(build, step)} {group.these('hole')} "
        f"before {names} {'is' if len(late) == 1 else 'are'} there.",
        why=f"{when} {rivets.capitalize()} would have to be drilled out again.",
        fix=_fix(build, group, comes),
    )


def _fix(build: Build, group: Group[TooEarly], comes: dict[int | None, list[str]]) -> str:
    step, holes = group.first.step, group.these("hole")
    joined = [number for number, parts in comes.items() if number and _is_there(build, number, parts)]
    if joined:
        word = deed(build, step)
        return f"Leave {holes} out of step {step}, and {word} {group.them} after step {max(joined)}."
    pieces = [piece for number, parts in comes.items() for piece in brought(build, number, parts)]
    them = "it" if len(_late(group)) == 1 else "them"
    return f"Place {listed(pieces)} before step {step}, or leave {holes} open for {them} till then."


def _is_there(build: Build, number: int, parts: list[str]) -> bool:
    """Tell whether ``parts`` are on the other work already, to which the step brings this one."""
    states = build.replay.states if build.replay else ()
    return not any(state.step.number == number and set(parts) & set(state.placed) for state in states)


def _comes(build: Build, number: int | None, parts: list[str]) -> str:
    if number is None:
        return f"No step places {listed(parts)}"
    if _is_there(build, number, parts):
        return f"Step {number} brings this work to {listed(parts)}"
    return f"Step {number} places {placing(build, number, parts)}"


def _late(group: Group[TooEarly]) -> dict[str, int | None]:
    """Return the parts that are missing, and the step that places each."""
    return {
        part: number for early in group.all for part, number in zip(early.missing, early.comes, strict=True)
    }


def _sightings(build: Build) -> Iterator[Sighting[TooEarly]]:
    assembly = build.assembly
    for early in build.replay.too_early if build.replay else ():
        stack = assembly.stacks[early.stack]
        if not sound(assembly, stack.parts):
            continue
        yield Sighting(
            key=(early.step, row_of(assembly, stack), entries_of(assembly, early.missing), early.comes),
            seen=early,
            at=early.at,
            parts=(*early.missing, *dict.fromkeys(p for p in stack.parts if p not in early.missing)),
            stack=early.stack,
        )


CHECK = Check("layer-missing", "error", find)
