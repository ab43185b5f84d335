"""Something stands in a space that is to be kept clear.

What it means: a part, or the head or tail of a rivet, reaches into a space that the model keeps for
something else, a cable or a control rod. When that comes, it rubs, or does not go through.

What to do: correct the space's points and diameter if they are rough, move or trim the part, give it a hole
or an opening there, or set the rivet with its flat side towards the space.

Found, because the strap lies 2 mm inside the room for the cable:

```yaml
keep clear:
  cable: {cylinder: 20, from: [0, 50, 12], to: [200, 50, 12]}
```

Passes:

```yaml
keep clear:
  cable: {cylinder: 20, from: [0, 50, 14], to: [200, 50, 14]}
```

The rule: nothing of the finished structure penetrates a kept space by more than 0.05 mm (project choice).
Openings, and holes wide enough for the whole space, let it through. Templates do not count, for they come
off again.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.wording import length, listed
from seqviz.findings import Finding, Related
from seqviz.sequence.kept_spaces import InSpace, kept_spaces_met

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each space and entry that reaches into it, or row of heads that does."""
    for group in grouped(build, "in-kept-space", _sightings(build)):
        space = group.first.space
        related = (Related(at=space.at, message=f"The space {space.name} is kept clear here."),)
        yield group.finding("in-kept-space", "warning", _words(build, group), related=related)


def _words(build: Build, group: Group[InSpace]) -> Words:
    space = group.first.space
    deep = length(build, group.figure or 0.0)
    kept = f"The space {space.name} is to stay clear{f': {space.why}' if space.why else ''}."
    if group.holes:
        word = fastener_word(build, (s.stack for s in group.all if s.stack is not None))
        heads = f"the head or tail of {group.these(word)} reaches {deep} into the space {space.name}."
        fix = f"Set {group.them} from the other side, use a lower head, or correct the space."
        return Words(message=f"{group.named}: {heads}", why=kept, fix=fix)
    names = listed(dict.fromkeys(met.part for met in group.all))
    reach = "reaches" if len(group.all) == 1 else "reach"
    return Words(
        message=f"{names} {reach} {deep} into the space {space.name}.",
        why=kept,
        fix=f"Move or trim {names}, give it an opening there, or correct the space.",
    )


def _sightings(build: Build) -> Iterator[Sighting[InSpace]]:
    assembly = build.assembly
    for met in kept_spaces_met(build.model, assembly, build.replay):
        layers = assembly.stacks[met.stack].parts if met.stack is not None else ()
        yield Sighting(
            key=(met.space.name, met.stack is None),
            seen=met,
            at=assembly.placed[met.part].at,
            parts=tuple(dict.fromkeys((met.part, *layers))),
            stack=met.stack,
            figure=met.depth,
        )


CHECK = Check("in-kept-space", "warning", find)
