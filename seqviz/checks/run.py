"""All checks in one go."""

from __future__ import annotations

from seqviz.build import Build
from seqviz.checks import CHECKS
from seqviz.checks.known import settle
from seqviz.findings import Finding

__all__ = ["run"]


def run(build: Build) -> tuple[Finding, ...]:
    """Return all findings about ``build``: errors first, in file order, with what is ``known`` applied."""
    found = [finding for check in CHECKS for finding in check.find(build)]
    return tuple(sorted(settle(build, found), key=lambda finding: finding.sort_key))
