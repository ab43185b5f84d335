"""The findings of a page: their words, and what to show of them in the work."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from seqviz.build import Build
from seqviz.findings import Finding
from seqviz.page.contract import FindingData
from seqviz.page.numbers import millimetres, place
from seqviz.page.shelf import Shelf
from seqviz.scene.conflict import conflict_of

__all__ = ["findings_data"]


def findings_data(
    build: Build, findings: Iterable[Finding], index: Mapping[str, int], shelf: Shelf
) -> list[FindingData]:
    """Return the findings; ``index``: placed part -> its place in the page's list. Tools go on the shelf."""
    return [_finding(build, finding, index, shelf) for finding in findings]


def _finding(build: Build, finding: Finding, index: Mapping[str, int], shelf: Shelf) -> FindingData:
    conflict = conflict_of(build, finding)
    parts = dict.fromkeys((*finding.parts, *(conflict.parts if conflict else ())))
    blockers = conflict.blockers if conflict else ()
    path = conflict.path if conflict else None
    stack_of = build.assembly.stack_of
    return {
        "kind": finding.kind,
        "severity": finding.severity,
        "message": finding.message,
        "why": finding.why,
        "fix": finding.fix,
        "known": finding.known,
        "at": place(finding.at),
        "steps": list(finding.steps),
        "parts": [index[name] for name in parts if name in index],
        "stacks": list(dict.fromkeys(stack_of[hole] for hole in finding.holes if hole in stack_of)),
        "spot": millimetres(conflict.spot) if conflict else None,
        "step": conflict.step if conflict else None,
        "blockers": [index[name] for name in blockers if name in index],
        "tool": shelf.pieces(conflict.tool) if conflict else None,
        "path": None if path is None else [millimetres(point) for point in path],
    }
