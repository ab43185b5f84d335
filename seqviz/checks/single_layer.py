"""A hole that should hold parts together goes through one part only.

What it means: these holes have a fastener, and nothing lies under or over them but the part itself.
Either the other part is missing, too short or on the wrong holes, or the row has a hole too many.

What to do: look in the drawing for what else belongs there. Where a part that lies over would have its
hole there if it were turned over, the `face` to write is told. If it is known to come, list the holes
under `later` with the reason, or leave them open in a step. A hole that is for a cable or a bolt of
your own gets a `diameter` instead of a `size`.

Found, because the rail ends at hole 28 of 30:

```yaml
parts:
  shelf skin:
    holes:
      rail: {from: [20, 10], to: [600, 10], count: 30, size: small}
  rail:
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [560, 10], count: 28, size: small}
```

Goes through:

```yaml
parts:
  shelf skin:
    holes:
      rail: {from: [20, 10], to: [600, 10], count: 30, size: small}
later:
  - {holes: shelf skin.rail.29-30, why: the bracket of the lamp}
```

The rule: a fastener holds two layers or more. It is asked of every hole whose size has a fastener
once the sequence says `finished: yes`; before that only of holes that a step fills, and of those
whose row holds parts together elsewhere: a whole row without a partner waits for a part that is not
typed yet. Holes with a plain `diameter`, under `later` or left open are exempt (project choice).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from seqviz.assembly.entries import Entry, entries
from seqviz.assembly.structure import Assembly, Stack
from seqviz.assembly.turning import Turn, turns_that_join
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.ending import finished
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import row_of, sound_stacks, strayed_stacks
from seqviz.checks.targets import later_stacks
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.geometry.separation import GUARD
from seqviz.geometry.solids import solids_of
from seqviz.records.model import HoleChoice
from seqviz.sequence.choose import Chooser

__all__ = ["CHECK"]

NEAR = 25.0
"""mm: holes this near to a part that lies wrongly may be meant for it (project choice)."""


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row."""
    for group in grouped(build, "single-layer", _sightings(build)):
        alone = listed(group.parts)
        turn = group.first
        words = Words(
            message=f"{group.named}: nothing but {alone} there; a fastener would hold nothing.",
            why="A fastener holds two layers or more together.",
            fix=f"Write `face: {turn.face}` of {turn.part}: turned over it would bring the missing layer."
            if turn
            else "Look for the part that belongs there: is it long enough, and on the right holes? "
            f"If it comes later, list {group.these('hole')} under later, or leave {group.them} open. "
            "Give a hole that holds nothing a diameter instead of a size.",
        )
        yield group.finding("single-layer", "error", words)


def _sightings(build: Build) -> Iterator[Sighting[Turn | None]]:
    alone = list(_alone(build))
    turns = turns_that_join(build.assembly, entries(build.model), alone)
    for stack in alone:
        turn = turns.get(stack.index)
        at = row_of(build.assembly, stack)
        yield Sighting(key=(turn,), seen=turn, at=at, parts=stack.parts, stack=stack.index)


def _alone(build: Build) -> Iterator[Stack]:
    """Yield the stacks of one layer that should have another."""
    assembly = build.assembly
    if build.model.broken:
        return
    excused = _excused(build)
    at_work = {row for stack in assembly.stacks if stack.joins for row in _rows(stack)}
    for stack in sound_stacks(assembly):
        if stack.joins or stack.index in excused or _held_inside(stack):
            continue
        meant = stack.fastener is not None and (finished(build) or not at_work.isdisjoint(_rows(stack)))
        if meant or _is_filled(build, stack):
            yield stack


def _rows(stack: Stack) -> set[str]:
    return {name.rpartition(".")[0] for name in stack.holes}


def _held_inside(stack: Stack) -> bool:
    """Say whether it is a joint of another model as one piece, which has layers of its own."""
    return any(layer.column is not None and layer.column.held for layer in stack.layers)


def _is_filled(build: Build, stack: Stack) -> bool:
    return build.replay is not None and stack.index in build.replay.filled_at


def _excused(build: Build) -> set[int]:
    """Return stacks that wait for something, or about which another finding speaks."""
    open_since = build.replay.open_since if build.replay else ()
    strayed = set().union(*strayed_stacks(build).values())
    return {*later_stacks(build), *(still.stack for still in open_since), *strayed, *_awaited(build)}


def _awaited(build: Build) -> set[int]:
    """Return stacks that parts may belong to which could not be placed, or which lie wrongly."""
    assembly = build.assembly
    astray = [
        entry
        for name, entry in entries(build.model).items()
        if name not in assembly.placed or name in assembly.muted
    ]
    choices = [choice for entry in astray for choice in _named(entry)]
    stacks = set(Chooser(build.model, assembly).stacks(choices))
    for name in assembly.muted & set(assembly.placed):
        stacks |= set(_near(assembly, name))
    return stacks


def _named(entry: Entry) -> Iterator[HoleChoice]:
    """Yield the whole rows that the entry is matched on."""
    choices = [match.target for match in entry.record.match]
    choices += [entry.record.along] if entry.record.along else []
    return (replace(choice, first=None, last=None) for choice in choices)


def _near(assembly: Assembly, name: str) -> Iterator[int]:
    """Yield the stacks within 25 mm of the box around a placed part, in the part's own frame."""
    here = assembly.placed[name]
    if not here.part.pieces:
        return
    own, back = solids_of(here.part.pieces), here.pose.inverse()
    low, high = own.low.min(axis=0) - NEAR - GUARD, own.high.max(axis=0) + NEAR + GUARD
    for stack in assembly.stacks:
        spot = back.points(stack.point)
        if np.all(low <= spot) and np.all(spot <= high):
            yield stack.index


CHECK = Check("single-layer", "error", find)
