"""The lines of a sequence as a tree, and the numbers of its steps in reading order."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from seqviz.findings import At
from seqviz.records.model import Name
from seqviz.records.steps import Apart, Step

__all__ = ["Numbered", "ReadApart", "ReadSteps", "numbered"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReadSteps:
    """Lines in the order written: steps without a number yet, sub-assemblies, None for a wrong step."""

    lines: tuple[Step | ReadApart | None, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReadApart:
    """An ``apart`` as read.

    Attributes
    ----------
    name
        None where it could not be read.
    up
        A side of the base, or a placed part, its flat and the face; None: not said.
    file
        The path of the file with its steps, seen from the file that names it.
    steps
        None where they stand in a file that is not read yet, or could not be read.
    wrong
        Something in it is wrong: nothing is known of how it lies, so its steps are left out.
    """

    name: Name | None
    at: At
    up: str | tuple[Name, str, str] | None = None
    bench: str | None = None
    over_the_edge: tuple[Name, ...] = ()
    note: str | None = None
    file: Name | None = None
    steps: ReadSteps | None = None
    finished_at: At | None = None
    wrong: bool = False


@dataclass(slots=True, kw_only=True, eq=False)
class Numbered:
    """Steps with their numbers, sub-assemblies, and the numbers of the steps that are left out.

    ``wrong``: names of sub-assemblies that could not be read; ``nameless``: one of them has no name.
    """

    steps: list[Step] = field(default_factory=list)
    apart: list[Apart] = field(default_factory=list)
    broken: list[int] = field(default_factory=list)
    wrong: set[str] = field(default_factory=set)
    nameless: bool = False
    count: int = 0


def numbered(read: ReadSteps) -> Numbered:
    """Number the steps from 1 in reading order, those of sub-assemblies where their line stands."""
    found = Numbered()
    _take(found, read, None, wrong=False)
    return found


def _take(found: Numbered, read: ReadSteps, work: str | None, wrong: bool) -> None:
    for line in read.lines:
        if isinstance(line, ReadApart):
            _take_apart(found, line, work, wrong)
            continue
        found.count += 1
        if line is None or wrong:
            found.broken.append(found.count)
        else:
            found.steps.append(replace(line, number=found.count, work=work))


def _take_apart(found: Numbered, read: ReadApart, inside: str | None, wrong: bool) -> None:
    wrong = wrong or read.wrong or read.name is None
    first = found.count + 1
    place = len(found.apart)
    name = read.name.text if read.name else None
    _take(found, read.steps or ReadSteps(), name, wrong)
    if wrong:
        found.nameless = found.nameless or name is None
        found.wrong |= {name} if name else set()
        # Without a step of its own there is no number that could tell of it.
        found.broken += [] if found.count >= first else [0]
        return
    assert read.name is not None
    apart = Apart(
        name=read.name.text,
        inside=inside,
        up=read.up if isinstance(read.up, tuple) else None,
        up_side=read.up if isinstance(read.up, str) else None,
        bench=read.bench,
        over_the_edge=read.over_the_edge,
        first=first,
        last=found.count,
        at=read.at,
        name_at=read.name.at,
        finished_at=read.finished_at,
        note=read.note,
    )
    found.apart.insert(place, apart)
