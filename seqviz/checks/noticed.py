"""Kinds that are noticed below the checks, while reading and placing: the check yields what is there."""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import replace

from seqviz.assembly.entries import entries
from seqviz.build import Build
from seqviz.checks.check import Find
from seqviz.checks.known import answers
from seqviz.checks.wording import listed
from seqviz.findings import Finding

__all__ = ["noticed"]


def noticed(kind: str) -> Find:
    """Return the function that yields the findings of ``kind`` made by the layers below.

    What is wrong with the left and the right of one entry in the same way is one finding.
    """

    def find(build: Build) -> Iterator[Finding]:
        groups: dict[Hashable, list[Finding]] = {}
        for number, finding in enumerate(build.noticed):
            if finding.kind == kind:
                groups.setdefault(_key(build, finding, number), []).append(finding)
        return (_one(group) for group in groups.values())

    return find


def _key(build: Build, finding: Finding, number: int) -> Hashable:
    """Return what is equal for the twins of one entry; where no part is named every finding is its own."""
    if not finding.parts:
        return number
    known = entries(build.model)
    named = tuple(known[part].record.name if part in known else part for part in finding.parts)
    return (finding.at, named, answers(build, finding))


def _one(group: list[Finding]) -> Finding:
    """Put twins together: the words of the first, and who else it goes for."""
    first, *others = group
    if not others:
        return first
    also = listed(dict.fromkeys(finding.parts[0] for finding in others))
    return replace(
        first,
        message=f"{first.message} The same goes for {also}.",
        parts=tuple(dict.fromkeys(part for finding in group for part in finding.parts)),
        holes=tuple(dict.fromkeys(hole for finding in group for hole in finding.holes)),
        figure=max((f.figure for f in group if f.figure is not None), default=None),
    )
