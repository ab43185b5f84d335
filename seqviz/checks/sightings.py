"""Troubles met in the replay, as sightings that can be put together."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Protocol, TypeVar

from seqviz.build import Build
from seqviz.checks.grouping import Sighting
from seqviz.checks.places import entries_of, row_of, sound
from seqviz.findings import At

__all__ = ["Trouble", "seen_at_holes", "seen_at_parts"]


class Trouble(Protocol):
    """What every trouble of the replay has."""

    @property
    def step(self) -> int:
        """The step that meets it."""
        ...

    @property
    def at(self) -> At:
        """Where it stands in the file."""
        ...


T = TypeVar("T", bound=Trouble)


def seen_at_holes(
    build: Build,
    troubles: Iterable[T],
    holes: Callable[[T], Iterable[int]],
    others: Callable[[T], Iterable[str]],
    *,
    by_row: bool = True,
) -> Iterator[Sighting[T]]:
    """Yield each trouble at each of its holes, equal where step, row and the entries of ``others`` are.

    Parameters
    ----------
    holes
        Indices of the stacks at which it is met.
    others
        Placed parts concerned, named before the layers of the hole.
    by_row
        False where holes of several rows are one mistake.
    """
    assembly = build.assembly
    for trouble in troubles:
        first = tuple(others(trouble))
        for index in holes(trouble):
            stack = assembly.stacks[index]
            parts = tuple(dict.fromkeys((*first, *stack.parts)))
            if sound(assembly, parts):
                row = (row_of(assembly, stack),) if by_row else ()
                yield Sighting(
                    key=(trouble.step, *row, entries_of(assembly, first)),
                    seen=trouble,
                    at=trouble.at,
                    parts=parts,
                    stack=index,
                )


def seen_at_parts(
    build: Build, troubles: Iterable[T], parts: Callable[[T], Iterable[str]]
) -> Iterator[Sighting[T]]:
    """Yield each trouble that is about parts and no holes; those of one step and place are equal."""
    for trouble in troubles:
        concerned = tuple(dict.fromkeys(parts(trouble)))
        if sound(build.assembly, concerned):
            yield Sighting(key=(trouble.step,), seen=trouble, at=trouble.at, parts=concerned)
