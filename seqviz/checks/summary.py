"""The summary under the findings: what was looked at, and how much of each there is."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from seqviz.build import Build
from seqviz.checks.ending import there_at_the_end
from seqviz.checks.targets import later_parts, later_stacks
from seqviz.findings import Finding

__all__ = ["summary"]


def summary(build: Build, findings: Iterable[Finding]) -> dict[str, Any]:
    """Return the counts of ``seqviz check --json``.

    ``parts`` are the kinds of parts described, ``placed`` their occurrences, the base included; ``holes``
    those of all occurrences, a hole with two names once; ``fasteners`` those set in the sequence. A settled
    finding counts as ``known`` and as nothing else. ``open`` is there while the sequence is not finished,
    ``not_checked`` where parts, or holes of them, have no dimensions, so that no geometry was asked of them.
    """
    found = list(findings)
    stacks = build.assembly.stacks
    counts: dict[str, Any] = {
        "parts": len(build.model.parts),
        "placed": len(build.assembly.placed),
        "holes": sum(layer.hole is not None for stack in stacks for layer in stack.layers),
        "stacks": len(stacks),
        "fasteners": len(build.replay.filled_at) if build.replay else 0,
        "steps": len(build.sequence.steps) if build.sequence else 0,
    }
    for severity in ("error", "warning", "note"):
        counts[f"{severity}s"] = sum(f.severity == severity and f.known is None for f in found)
    counts["known"] = sum(finding.known is not None for finding in found)
    if build.sequence is not None and not build.sequence.finished:
        counts["open"] = _open(build)
    if build.assembly.unmeasured:
        counts["not_checked"] = {"why": "no dimensions", "parts": list(build.assembly.unmeasured)}
    return counts


def _open(build: Build) -> dict[str, int]:
    """Return how many parts are not on the main work yet and how many holes not set; ``later`` left out."""
    replay, assembly = build.replay, build.assembly
    filled_at = replay.filled_at if replay else {}
    wanted = {name for name, part in assembly.placed.items() if not part.part.tool}
    parts = wanted - there_at_the_end(build) - later_parts(build) - {assembly.base}
    joined = {stack.index for stack in assembly.stacks if stack.joins}
    return {"parts": len(parts), "holes": len(joined - set(filled_at) - later_stacks(build))}
