"""What stops a tool, grouped for the checks that speak of it: parts, pins, or the bench."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TypeVar

from seqviz.build import Build
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Sighting
from seqviz.checks.places import entries_of, row_of, sound
from seqviz.checks.wording import listed
from seqviz.sequence.replay_types import Cause, NoWay, NoWayOut, ToolStopped

__all__ = [
    "InTheWay",
    "culprits",
    "in_the_way",
    "parts_of",
    "stopped_tools",
    "stopped_ways",
    "stopped_ways_out",
    "unreached_stacks",
]

W = TypeVar("W", bound=NoWay | NoWayOut)


def stopped_tools(build: Build, cause: Cause) -> Iterator[Sighting[ToolStopped]]:
    """Yield the fasteners that no tool reaches for that cause, keyed by step, row and what is in the way."""
    assembly = build.assembly
    for stopped in build.replay.tool_stopped if build.replay else ():
        stack = assembly.stacks[stopped.stack]
        if stopped.cause != cause or not sound(assembly, stack.parts):
            continue
        newest = culprits(build, stopped)
        yield Sighting(
            key=(
                stopped.step,
                row_of(assembly, stack),
                entries_of(assembly, newest),
                stopped.last,
                stopped.by_hand,
            ),
            seen=stopped,
            at=stopped.at,
            parts=tuple(dict.fromkeys((*newest, *stack.parts))),
            stack=stopped.stack,
        )


def unreached_stacks(build: Build) -> frozenset[int]:
    """Return the holes about which it is told that no tool reaches them: later checks are silent there."""
    return frozenset(stopped.stack for stopped in build.replay.tool_stopped) if build.replay else frozenset()


def stopped_ways(build: Build, cause: Cause) -> Iterator[Sighting[NoWay]]:
    """Yield the parts that do not go in for that cause, keyed by step and entry."""
    return _ways(build, build.replay.no_way if build.replay else (), cause)


def stopped_ways_out(build: Build, cause: Cause) -> Iterator[Sighting[NoWayOut]]:
    """Yield the parts that do not come off for that cause, keyed by step and entry."""
    return _ways(build, build.replay.no_way_out if build.replay else (), cause)


def _ways(build: Build, ways: Iterable[W], cause: Cause) -> Iterator[Sighting[W]]:
    assembly = build.assembly
    for way in ways:
        members: tuple[str, ...] = way.members
        moved = members or (way.part,)
        involved = parts_of((*moved, *way.blockers))
        if way.cause == cause and sound(assembly, involved):
            yield Sighting(
                key=(way.step, *(members and (way.part,)), *entries_of(assembly, moved)),
                seen=way,
                at=way.at,
                parts=involved,
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class InTheWay:
    """What is in the way: placed parts, and in words all of it with the verb that fits."""

    parts: tuple[str, ...]
    named: str
    stand: str


def in_the_way(build: Build, ways: Iterable[NoWay | NoWayOut]) -> InTheWay:
    """Return what closes the best of all ways."""
    blockers = tuple(dict.fromkeys(name for way in ways for name in way.blockers))
    parts = tuple(name for name in blockers if "." not in name)
    stack_of = build.assembly.stack_of
    holes = [f"the {fastener_word(build, [stack_of[hole]])} in {hole}" for hole in blockers if "." in hole]
    return InTheWay(
        parts=parts,
        named=listed([*parts, *holes]) or "everything there",
        stand="stands" if len(blockers) < 2 else "stand",
    )


def culprits(build: Build, stopped: ToolStopped) -> tuple[str, ...]:
    """Return the parts placed since the hole could last be reached; where there are none all in the way."""
    parts = parts_of(stopped.blockers)
    if stopped.last is None or build.replay is None:
        return parts
    came = {part: build.replay.came_at(part, stopped.step) for part in parts}
    newest = tuple(part for part in parts if came[part] > stopped.last)
    return newest or parts


def parts_of(blockers: Iterable[str]) -> tuple[str, ...]:
    """Return the placed parts among ``blockers``; of a pinned or filled hole the part it is named by."""
    return tuple(dict.fromkeys(name.split(".")[0] for name in blockers))
