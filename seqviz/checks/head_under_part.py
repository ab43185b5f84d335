"""A part is laid over rivets that stand out of the metal.

What it means: heads or tails of rivets already set stand where this part has to lie flat, and it
has no openings for them. It would rock on the heads, and the next rivets would bend it.

What to do: place the part before these rivets are set, so that they go through it or come after it.
Or give it openings over the heads. Or set those rivets with the flat side up, where they allow it.

Found, because the cover lies where the foot's heads are:

```yaml
steps:
  - place: rail left
  - rivet: rail left.foot
  - place: cover
```

Lies flat, with an opening over each head (holes are for what goes through the cover too):

```yaml
parts:
  cover:
    openings: {head 1: {center: [20, 10], diameter: 10}, head 2: {center: [40, 10], diameter: 10}}
```

The rule: a set head or tail is as solid as a part; its size is the maker's, or a published one
(`trade` tables). An opening in the part that takes the head lets it pass.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.places import entries_of, row_of, said_at, sound
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.sequence.replay_types import HeadUnder

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each part and row of rivets under it."""
    filled_at = build.replay.filled_at if build.replay else {}
    for group in grouped(build, "head-under-part", _sightings(build)):
        step, names = group.first.step, listed(dict.fromkeys(laid.part for laid in group.all))
        set_in = sorted({filled_at[s.stack] for s in group.sightings if s.stack in filled_at})
        word = fastener_word(build, (s.stack for s in group.sightings if s.stack is not None))
        when = listed(f"step {number}" for number in set_in)
        words = Words(
            message=f"{names} cannot lie flat in step {step}: {_stand_out(group, word)} under it.",
            why=f"{group.these(word).capitalize()} {'was' if group.one else 'were'} set in "
            f"{when or 'an earlier step'}, and {names} has no opening for what stands out.",
            fix=f"Place {names} before {when or 'they are set'}, or give it openings over the heads.",
        )
        related = [
            place
            for number in set_in
            for place in said_at(build, number, f"Step {number} sets {group.these(word)}.")
        ]
        yield group.finding("head-under-part", "error", words, steps=(*set_in, step), related=related)


def _stand_out(group: Group[HeadUnder], word: str) -> str:
    return f"the {word} in {group.named} stands out" if group.one else f"{word}s in {group.named} stand out"


def _sightings(build: Build) -> Iterator[Sighting[HeadUnder]]:
    assembly = build.assembly
    for laid in build.replay.head_under if build.replay else ():
        for index in laid.stacks:
            stack = assembly.stacks[index]
            if sound(assembly, (laid.part, *stack.parts)):
                yield Sighting(
                    key=(laid.step, entries_of(assembly, (laid.part,)), row_of(assembly, stack)),
                    seen=laid,
                    at=laid.at,
                    parts=(laid.part, *dict.fromkeys(stack.parts)),
                    stack=index,
                )


CHECK = Check("head-under-part", "error", find)
