"""All checks in one go."""

from __future__ import annotations

from seqviz.build import Build
from seqviz.checks import CHECKS
from seqviz.checks.kit_rules import RULES, of_the_kit, one_note
from seqviz.checks.known import settle
from seqviz.findings import Finding

__all__ = ["broken_rules", "run"]


def run(build: Build, *, rules: bool = False) -> tuple[Finding, ...]:
    """Return all findings about ``build``: errors first, in file order, with what is ``known`` applied.

    Those about the models that it uses are among them, each once, however often they are used. The rules of
    spacing on parts of a kit are one note, unless all ``rules`` are asked for.
    """
    every = (build, *build.used)
    found = {one: _about(one) for one in every}
    folded = [] if rules else [finding for one in every for finding in of_the_kit(one, found[one])]
    apart = set(folded)
    told = [finding for one in every for finding in found[one] if finding not in apart]
    return tuple(sorted(dict.fromkeys([*told, *one_note(folded)]), key=lambda finding: finding.sort_key))


def broken_rules(build: Build) -> tuple[Finding, ...]:
    """Return what is found of the rules of spacing alone, each by itself, with what is ``known`` applied."""
    checks = [check for check in CHECKS if check.kind in RULES]
    found = [
        finding
        for one in (build, *build.used)
        for finding in settle(one, [finding for check in checks for finding in check.find(one)])
        if finding.kind in RULES
    ]
    return tuple(sorted(dict.fromkeys(found), key=lambda finding: finding.sort_key))


def _about(build: Build) -> list[Finding]:
    """Return the findings about one structure; what is ``known`` in its own files applies."""
    return list(settle(build, [finding for check in CHECKS for finding in check.find(build)]))
