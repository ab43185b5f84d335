"""The story from top to bottom: two files become records, parts, a structure, a replayed order of work."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from seqviz.assembly.assemble import assemble
from seqviz.assembly.one_piece import Piece, SetInside, one_piece
from seqviz.assembly.structure import Assembly
from seqviz.findings import Finding
from seqviz.geometry.rounds import prism_inside
from seqviz.parts.make import make_parts
from seqviz.parts.part import Part
from seqviz.records.load import Loaded, load
from seqviz.records.model import Model, UsedModel
from seqviz.records.source import Source
from seqviz.records.steps import Sequence
from seqviz.sequence.choose import Chooser
from seqviz.sequence.replay import replay
from seqviz.sequence.replay_types import Replay
from seqviz.sequence.set_heads import set_heads

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
    used
        The models that entries of ``placed`` use, here or within each other, each once; innermost first.
    """

    sources: dict[str, Source]
    model: Model
    sequence: Sequence | None
    assembly: Assembly
    replay: Replay | None
    noticed: tuple[Finding, ...]
    parts: dict[str, Part] = field(default_factory=dict)
    used: tuple[Build, ...] = ()


def build(path: str) -> Build:
    """Read the file at ``path`` (a sequence, which names its model, or a model) and compute everything.

    Raises
    ------
    seqviz.records.load.Unreadable
        There is no such file, or it is no YAML text: nothing can be checked.
    """
    loaded = load(path)
    inner: dict[str, _Inner] = {}
    whole = _computed(loaded, loaded.model, loaded.sequence, inner)
    used = tuple(one.build for one in inner.values())
    return replace(whole, noticed=(*loaded.findings, *whole.noticed), used=used)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Inner:
    """A model that others use, computed once however often it is used."""

    build: Build
    piece: Piece


def _computed(loaded: Loaded, model: Model, sequence: Sequence | None, inner: dict[str, _Inner]) -> Build:
    """Compute one structure after those that it uses, which are kept in ``inner`` by path."""
    pieces = {entry: _inner(loaded, used, inner).piece for entry, used in model.uses.items()}
    parts, part_findings = make_parts(model)
    assembly, placing_findings = assemble(model, parts, pieces)
    played, step_findings = replay(model, assembly, sequence)
    return Build(
        sources=loaded.sources,
        model=model,
        sequence=sequence,
        assembly=assembly,
        replay=played,
        noticed=(*part_findings, *placing_findings, *step_findings),
        parts=parts,
    )


def _inner(loaded: Loaded, used: UsedModel, inner: dict[str, _Inner]) -> _Inner:
    if used.path not in inner:
        sequence = loaded.used[used.sequence_path] if used.sequence_path else None
        build = _computed(loaded, used.model, sequence, inner)
        later = Chooser(build.model, build.assembly).later()
        piece = one_piece(build.model, build.assembly, _done(build), later)
        inner[used.path] = _Inner(build=build, piece=piece)
    return inner[used.path]


def _done(build: Build) -> SetInside | None:
    """Return what the sequence of a used model leaves set in it."""
    if build.sequence is None or build.replay is None:
        return None
    heads = set_heads(build.model, build.assembly, build.replay)
    return SetInside(
        file=build.sequence.path,
        filled=frozenset(build.replay.filled_at),
        drilled=build.replay.drilled,
        heads=tuple(prism_inside(end) for _, ends in heads for end in ends),
    )
