"""Findings as text for a person: one block each, in the order of the files."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from seqviz.findings import Finding
from seqviz.report.excerpt import Lines, excerpt
from seqviz.report.style import PLAIN, Style, harmless, wrapped
from seqviz.report.totals import totals

__all__ = ["as_blocks", "as_lines", "as_text"]


def as_text(
    findings: Sequence[Finding], lines: Lines, summary: Mapping[str, Any], style: Style = PLAIN
) -> str:
    """Return the whole report: open findings, settled ones in short, and the totals.

    Parameters
    ----------
    findings
        In any order; they are printed by file, line and column.
    lines
        The lines of the files, for the excerpts.
    summary
        As in ``seqviz check --json``.
    """
    blocks = [*_blocks(findings, lines, style), "\n".join(totals(summary))]
    return "\n\n".join(blocks) + "\n"


def as_blocks(findings: Sequence[Finding], lines: Lines, style: Style = PLAIN) -> str:
    """Return the findings without totals: open ones, then settled ones in short; nothing where none is."""
    return "".join(f"{block}\n\n" for block in _blocks(findings, lines, style))[:-1]


def as_lines(findings: Sequence[Finding]) -> str:
    """Return one line a finding: ``file:line:column: severity kind: message``; settled ones are left out."""
    ordered = sorted(findings, key=lambda finding: (finding.at, finding.sort_key))
    return "".join(
        f"{finding.at}: {finding.severity} {finding.kind}: {harmless(finding.message)}\n"
        for finding in ordered
        if finding.known is None
    )


def _blocks(findings: Sequence[Finding], lines: Lines, style: Style) -> list[str]:
    ordered = sorted(findings, key=lambda finding: (finding.at, finding.sort_key))
    blocks = [_block(finding, lines, style) for finding in ordered if finding.known is None]
    settled = [_settled(finding, style) for finding in ordered if finding.known is not None]
    if settled:
        blocks.append("\n".join(["Known, and settled with a reason:", *settled]))
    return blocks


def _block(finding: Finding, lines: Lines, style: Style) -> str:
    out = [f"{style.severity(finding.severity)}: {finding.kind} at {finding.at}"]
    out += excerpt(finding.at, lines, style.width)
    out += wrapped("  ", finding.message, style.width)
    out += wrapped("  Why: ", finding.why, style.width)
    out += wrapped("  Fix: ", finding.fix, style.width)
    for place in finding.related:
        out += wrapped("  See: ", f"{place.at}: {place.message}", style.width)
    return "\n".join(out)


def _settled(finding: Finding, style: Style) -> str:
    return "\n".join(wrapped("  ", f"{finding.at}: {finding.kind}: {finding.known}", style.width))
