"""Rules of spacing on parts of a kit: one note for all of them, because the maker's drawing governs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from seqviz.build import Build
from seqviz.checks.makers import Makers
from seqviz.checks.wording import counted, listed
from seqviz.findings import Finding

__all__ = ["RULES", "of_the_kit", "one_note"]

RULES = ("edge-distance", "hole-pitch", "bend-radius", "rivet-for-sheet")
"""The kinds that are told in one note, the heaviest first."""


def of_the_kit(build: Build, findings: Iterable[Finding]) -> list[Finding]:
    """Return those about the spacing rules on parts that a kit made; what is settled stays as it is."""
    makers = Makers(build.model)
    return [
        finding
        for finding in findings
        if finding.kind in RULES and finding.known is None and _kits(makers, build, finding)
    ]


def one_note(folded: Sequence[Finding]) -> list[Finding]:
    """Return the one note about ``folded``; none where all that is broken are rules of thumb.

    It stands where the worst of them stands, and is of its kind.
    """
    if not any(_counts(finding) for finding in folded):
        return []
    worst = min(folded, key=_weight)
    places = sum(_places(finding) for finding in folded)
    kinds = {kind: sum(_places(f) for f in folded if f.kind == kind) for kind in RULES}
    named = listed(f"{kind} {number}" for kind, number in kinds.items() if number)
    return [
        replace(
            worst,
            severity="note",
            message=f"The handbooks' rules are not kept at {counted(places, 'place')} on parts of the kit: "
            f"{named}. The worst: {worst.message}",
            why=f"On parts of a kit the maker's drawing governs, so this is one note. {worst.why}",
            fix="See them all with `seqviz check --rules`, compare with the drawing, and settle under "
            "`known` what it shows. What you made yourself is `made by: me`: there each counts.",
            related=(),
        )
    ]


def _kits(makers: Makers, build: Build, finding: Finding) -> bool:
    """Say whether no part concerned was made by the builder."""
    holes = {hole.partition(".")[0] for hole in finding.holes}
    names = [*finding.holes, *(part for part in finding.parts if part not in holes)]
    return all(
        makers.kit(name) if name.partition(".")[0] in build.assembly.placed else makers.kits_part(name)
        for name in names
    )


def _counts(finding: Finding) -> bool:
    """Say whether it is more than a rule of thumb: a limit, or a rivet that no table lists for its sheet."""
    return finding.severity == "warning" or (finding.kind == "rivet-for-sheet" and finding.figure is not None)


def _weight(finding: Finding) -> tuple[bool, bool, int, float]:
    """Return what sorts the worst first: limits, then by kind, then by figure."""
    limit, counts = finding.severity == "warning", _counts(finding)
    return not limit, not counts, RULES.index(finding.kind), -(finding.figure or 0.0)


def _places(finding: Finding) -> int:
    """Return at how many holes, or bends, something is found."""
    return max(len(finding.holes), 1)
