"""``known``: findings that the builder has settled with a reason, and at what figure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from seqviz.build import Build
from seqviz.checks.known_unused import unused
from seqviz.checks.targets import Target, target_of
from seqviz.checks.wording import length
from seqviz.findings import Finding, Related
from seqviz.records.model import Known

__all__ = ["FIGURE_GUARD", "answers", "known_entries", "settle", "within"]

FIGURE_GUARD = 1e-6
"""mm: a figure that grew by less is the same."""


def known_entries(build: Build) -> tuple[Known, ...]:
    """Return the ``known`` entries of both files."""
    return (*build.model.known, *(build.sequence.known if build.sequence else ()))


def within(entry: Known, figure: float | None) -> bool:
    """Tell whether ``figure``, mm, is no worse than the one at which ``entry`` settled it."""
    return entry.figure is None or figure is None or figure <= entry.figure + FIGURE_GUARD


def answers(build: Build, finding: Finding) -> tuple[int, ...]:
    """Return which entries of `known_entries` speak of ``finding``, by their numbers from 0."""
    return tuple(
        number
        for number, entry in enumerate(known_entries(build))
        if entry.kind == finding.kind and _covers(build, target_of(build, entry), finding)
    )


def settle(build: Build, findings: Iterable[Finding]) -> list[Finding]:
    """Return the findings with what ``known`` says of them; entries that answer nothing are added.

    A finding is settled when an entry of its kind names its part or all of its holes, and its figure is no
    worse than the entry's. Entries for kinds that cannot be settled were refused while reading.
    """
    entries = known_entries(build)
    used: set[int] = set()
    settled = []
    for finding in findings:
        numbers = answers(build, finding)
        used.update(numbers)
        settled.append(_settled(build, finding, [entries[number] for number in numbers]))
    idle = (entry for number, entry in enumerate(entries) if number not in used)
    return [*settled, *(unused(entry) for entry in idle)]


def _settled(build: Build, finding: Finding, entries: list[Known]) -> Finding:
    """Return ``finding`` settled by one of ``entries``; open again where its figure is worse than theirs."""
    if not entries:
        return finding
    good = [entry for entry in entries if within(entry, finding.figure)]
    if good:
        return replace(finding, known=good[0].why)
    entry = entries[0]
    then, now = length(build, entry.figure or 0.0), length(build, finding.figure or 0.0)
    return replace(
        finding,
        message=f"{finding.message} It was settled at {then}; now it is {now}.",
        related=(*finding.related, Related(at=entry.at, message=f"Settled here: {entry.why}")),
    )


def _covers(build: Build, target: Target, finding: Finding) -> bool:
    """Tell whether ``target`` is a part of the finding, or holds all of its holes."""
    if not target.parts.isdisjoint(finding.parts):
        return True
    stacks = {build.assembly.stack_of.get(hole, -1) for hole in finding.holes}
    return bool(stacks) and stacks <= target.stacks
