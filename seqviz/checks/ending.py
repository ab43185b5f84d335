"""Whether the end of the work can be judged: the sequence is finished, and every line of it was read."""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.structure import Stack
from seqviz.build import Build
from seqviz.checks.places import sound_stacks
from seqviz.checks.targets import later_parts, later_stacks
from seqviz.records.remarks import READING_KINDS

__all__ = ["drilled_through", "finished", "steps_read", "there_at_the_end", "to_be_filled", "to_be_placed"]


def steps_read(build: Build) -> bool:
    """Tell whether every step was understood; one that was not may do what seems to be missing."""
    sequence = build.sequence
    if sequence is None or sequence.broken:
        return False
    begin = sequence.steps[0].at if sequence.steps else sequence.at
    # A sub-assembly may have its steps in a file of its own.
    others = {step.at.file for step in sequence.steps} - {begin.file}
    return not any(
        finding.kind in READING_KINDS
        and (finding.at.file in others or (finding.at.file == begin.file and finding.at >= begin))
        for finding in build.noticed
    )


def finished(build: Build) -> bool:
    """Tell whether the sequence says that it is finished, and was read whole."""
    return build.sequence is not None and build.sequence.finished and steps_read(build)


def to_be_placed(build: Build) -> frozenset[str]:
    """Return the placed parts that a finished sequence forgets."""
    if build.replay is None or not finished(build):
        return frozenset()
    assembly = build.assembly
    there = {assembly.base} | there_at_the_end(build) | assembly.muted | later_parts(build)
    return frozenset(name for name, part in assembly.placed.items() if not part.part.tool) - there


def there_at_the_end(build: Build) -> frozenset[str]:
    """Return the placed parts that are in the main work after the last step."""
    if build.replay is None:
        return frozenset()
    last = max((state.step.number for state in build.replay.states), default=0)
    return frozenset(part for part in build.replay.where if build.replay.there(part, last, None))


def to_be_filled(build: Build) -> Iterator[Stack]:
    """Yield the stacks that a finished sequence never fills: all their layers are there and drilled."""
    if build.replay is None or not finished(build):
        return
    later, at_the_end = later_stacks(build), {build.assembly.base} | there_at_the_end(build)
    for stack in sound_stacks(build.assembly):
        joined = stack.joins and drilled_through(build, stack)
        there = at_the_end.issuperset(stack.parts)
        if joined and there and stack.index not in later and stack.index not in build.replay.filled_at:
            yield stack


def drilled_through(build: Build, stack: Stack) -> bool:
    """Say whether every layer has its hole in the end: punched, or made by a step."""
    made = build.replay.drilled.get(stack.index, ()) if build.replay else ()
    return all(layer.hole or layer.part in made for layer in stack.layers)
