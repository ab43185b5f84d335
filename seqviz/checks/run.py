"""All checks in one go."""

from __future__ import annotations

from seqviz.build import Build
from seqviz.checks import CHECKS
from seqviz.checks.known import settle
from seqviz.findings import Finding

__all__ = ["run"]


def run(build: Build) -> tuple[Finding, ...]:
    """Return all findings about ``build``: errors first, in file order, with what is ``known`` applied.

    Those about the models that it uses are among them, each once, however often they are used.
    """
    found = [finding for one in (build, *build.used) for finding in _about(one)]
    return tuple(sorted(dict.fromkeys(found), key=lambda finding: finding.sort_key))


def _about(build: Build) -> list[Finding]:
    """Return the findings about one structure; what is ``known`` in its own files applies."""
    return list(settle(build, [finding for check in CHECKS for finding in check.find(build)]))
