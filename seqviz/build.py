"""The story from top to bottom: two files become records, parts, a structure, a replayed order of work."""

from __future__ import annotations

from dataclasses import dataclass, field

from seqviz.assembly.assemble import assemble
from seqviz.assembly.structure import Assembly
from seqviz.findings import Finding
from seqviz.parts.make import make_parts
from seqviz.parts.part import Part
from seqviz.records.load import load
from seqviz.records.model import Model
from seqviz.records.source import Source
from seqviz.records.steps import Sequence
from seqviz.sequence.replay import replay
from seqviz.sequence.replay_types import Replay

__all__ = ["Build", "build"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Build:
    """Everything that is known about a model, and about a sequence where one was given.

    Attributes
    ----------
    sources
        Path as shown in findings -> the text of each file read.
    parts
        By name, as they are written; those with a mistake in their body are left out.
    sequence, replay
        None where a model alone was given.
    noticed
        Findings made while reading, placing and replaying; each kind's check yields its own from here.
    """

    sources: dict[str, Source]
    model: Model
    sequence: Sequence | None
    assembly: Assembly
    replay: Replay | None
    noticed: tuple[Finding, ...]
    parts: dict[str, Part] = field(default_factory=dict)


def build(path: str) -> Build:
    """Read the file at ``path`` (a sequence, which names its model, or a model) and compute everything.

    Raises
    ------
    seqviz.records.load.Unreadable
        There is no such file, or it is no YAML text: nothing can be checked.
    """
    loaded = load(path)
    parts, part_findings = make_parts(loaded.model)
    assembly, placing_findings = assemble(loaded.model, parts)
    played, step_findings = replay(loaded.model, assembly, loaded.sequence)
    noticed = (*loaded.findings, *part_findings, *placing_findings, *step_findings)
    return Build(
        sources=loaded.sources,
        model=loaded.model,
        sequence=loaded.sequence,
        assembly=assembly,
        replay=played,
        noticed=noticed,
        parts=parts,
    )
