"""What stops a tool, grouped for the checks that speak of it: parts, pins, or the bench."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seqviz.build import Build
from seqviz.checks.grouping import Sighting
from seqviz.checks.places import entries_of, row_of, sound
from seqviz.sequence.replay_types import Cause, NoWay, ToolStopped

__all__ = ["culprits", "parts_of", "stopped_tools", "stopped_ways"]


def stopped_tools(build: Build, cause: Cause) -> Iterator[Sighting[ToolStopped]]:
    """Yield the fasteners that no tool reaches for that cause, keyed by step, row and what is in the way."""
    assembly = build.assembly
    for stopped in build.replay.tool_stopped if build.replay else ():
        stack = assembly.stacks[stopped.stack]
        if stopped.cause != cause or not sound(assembly, stack.parts):
            continue
        newest = culprits(build, stopped)
        yield Sighting(
            key=(stopped.step, row_of(assembly, stack), entries_of(assembly, newest), stopped.last),
            seen=stopped,
            at=stopped.at,
            parts=tuple(dict.fromkeys((*newest, *stack.parts))),
            stack=stopped.stack,
        )


def stopped_ways(build: Build, cause: Cause) -> Iterator[Sighting[NoWay]]:
    """Yield the parts that do not go in for that cause, keyed by step and entry."""
    assembly = build.assembly
    for way in build.replay.no_way if build.replay else ():
        involved = parts_of((way.part, *way.blockers))
        if way.cause == cause and sound(assembly, involved):
            yield Sighting(
                key=(way.step, *entries_of(assembly, (way.part,))),
                seen=way,
                at=way.at,
                parts=involved,
            )


def culprits(build: Build, stopped: ToolStopped) -> tuple[str, ...]:
    """Return the parts placed since the hole could last be reached; where there are none all in the way."""
    parts = parts_of(stopped.blockers)
    placed_at = build.replay.placed_at if build.replay else {}
    if stopped.last is None:
        return parts
    newest = tuple(part for part in parts if placed_at.get(part, 0) > stopped.last)
    return newest or parts


def parts_of(blockers: Iterable[str]) -> tuple[str, ...]:
    """Return the placed parts among ``blockers``; of a pinned or filled hole the part it is named by."""
    return tuple(dict.fromkeys(name.split(".")[0] for name in blockers))
