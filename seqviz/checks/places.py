"""Where things stand: the row of a hole, the entry of a placed part, the step of a number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seqviz.assembly.row_pairs import row_pairs, strays
from seqviz.assembly.structure import Assembly, Stack
from seqviz.build import Build
from seqviz.findings import At, Related
from seqviz.parts.part import Hole
from seqviz.records.steps import Place, Step
from seqviz.scene.phrases import listed

__all__ = [
    "brought",
    "by_distance",
    "entries_of",
    "farther_first",
    "hole_named",
    "measured_stacks",
    "members_of",
    "placing",
    "row_of",
    "said_at",
    "sound",
    "sound_stacks",
    "step_numbered",
    "strayed_stacks",
    "where_placed",
]


def sound(assembly: Assembly, names: Iterable[str]) -> bool:
    """Tell whether no part of ``names`` is muted by an earlier finding."""
    return assembly.muted.isdisjoint(names)


def sound_stacks(assembly: Assembly) -> Iterator[Stack]:
    """Yield the stacks without a muted part."""
    return (stack for stack in assembly.stacks if sound(assembly, stack.parts))


def strayed_stacks(build: Build) -> dict[str, set[int]]:
    """Return for each part the stacks in which it lacks a hole that its row has in a wrong place."""
    assembly = build.assembly
    found: dict[str, set[int]] = {}
    for stray in strays(assembly, row_pairs(assembly, measured_stacks(assembly))):
        far, near = stray.far.split(".")[0], stray.near.split(".")[0]
        found.setdefault(near, set()).add(assembly.stack_of[stray.far])
        found.setdefault(far, set()).add(assembly.stack_of[stray.near])
    return found


def measured_stacks(assembly: Assembly) -> Iterator[Stack]:
    """Yield the sound stacks of which all layers have a place: geometry is asked of no others."""
    return (stack for stack in sound_stacks(assembly) if stack.located)


def hole_named(assembly: Assembly, name: str) -> Hole:
    """Return the hole ``PLACED.ROW.N``."""
    placed, _, own = name.partition(".")
    return assembly.placed[placed].by_name[own]


def row_of(assembly: Assembly, stack: Stack) -> At:
    """Return where the row of the stack's hole farthest from the base stands."""
    return hole_named(assembly, stack.holes[0]).at


def by_distance(assembly: Assembly, names: Iterable[str]) -> list[str]:
    """Return placed parts in order of their distance from the base along ``match``, then by name."""
    return sorted(names, key=lambda name: (assembly.placed[name].depth, name))


def farther_first(assembly: Assembly, one: str, other: str) -> tuple[str, str]:
    """Return the two parts, the one farther from the base first; of equals the later name."""
    near, far = by_distance(assembly, (one, other))
    return far, near


def members_of(build: Build, name: str) -> tuple[str, ...]:
    """Return the parts of the sub-assembly ``name`` in the structure's order; of a placed part itself."""
    if name in build.assembly.placed or build.replay is None:
        return (name,)
    return tuple(part for part, works in build.replay.where.items() if name in works)


def entries_of(assembly: Assembly, names: Iterable[str]) -> tuple[At, ...]:
    """Return where the entries of placed parts stand, sorted; left and right of one entry are the same."""
    return tuple(sorted({assembly.placed[name].at for name in names if name in assembly.placed}))


def step_numbered(build: Build, number: int) -> Step | None:
    """Return the step of that number; None for 0, what was there before the first."""
    steps = build.sequence.steps if build.sequence else ()
    return next((step for step in steps if step.number == number), None)


def said_at(build: Build, number: int | None, message: str) -> tuple[Related, ...]:
    """Return the step of that number as a related place; nothing where there is no such step."""
    step = step_numbered(build, number) if number is not None else None
    return (Related(at=step.at, message=message),) if step else ()


def where_placed(build: Build, parts: Iterable[str], by: int) -> tuple[Related, ...]:
    """Return the steps that brought ``parts`` to where they are in step ``by``, each as a related place."""
    steps: dict[int, list[str]] = {}
    for part in parts:
        if build.replay and part in build.replay.where:
            steps.setdefault(build.replay.came_at(part, by), []).append(part)
    return tuple(
        place
        for number, names in sorted(steps.items())
        for place in said_at(build, number, f"Step {number} places {placing(build, number, names)}.")
    )


def placing(build: Build, number: int, parts: Iterable[str]) -> str:
    """Return what the step places, in words: parts in a sub-assembly as ``set, with strap in it``."""
    pieces = brought(build, number, parts)
    alone = [piece for piece, members in pieces.items() if members == [piece]]
    joined = [
        f"{piece}, with {listed(members)} in it" for piece, members in pieces.items() if members != [piece]
    ]
    return ", ".join([*([listed(alone)] if alone else []), *joined])


def brought(build: Build, number: int | None, parts: Iterable[str]) -> dict[str, list[str]]:
    """Return by which name the step brings each of ``parts``: its own, or that of a sub-assembly."""
    step = step_numbered(build, number) if number is not None else None
    words = [name.text for name in step.action.names] if step and isinstance(step.action, Place) else []
    pieces = {name: members_of(build, name) for name in words if name not in build.assembly.placed}
    found: dict[str, list[str]] = {}
    for part in parts:
        piece = next((name for name, members in pieces.items() if part in members), part)
        found.setdefault(piece, []).append(part)
    return found
