"""What the tests of reading are written with: texts of files in, (kind, line, column) out."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent

from seqviz.findings import Finding
from seqviz.records.load import Loaded, load

__all__ = ["MODEL", "Place", "changed", "loaded", "model_of", "places", "said", "sequence_of"]

Place = tuple[str, int, int]

MODEL = """\
format: 1
base: skin
mirror line: y=180
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  big: {diameter: 4.1, with: pull 4.0}
hardware:
  pull 4.0: {kind: blind rivet, diameter: 4.0, lengths: {6: [1.0, 3.0]}}
stock:
  light angle: {shape: angle, thickness: 0.6, legs: [18, 18], row in: 9, ends: 12}
parts:
  skin:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [620, 0], [620, 360], [0, 360]]
    holes:
      rail: {from: [20, 10], to: [600, 10], count: 30, size: small, both sides: yes}
      cross 1: {from: [100, 55], to: [100, 305], pitch: 25, size: small}
      edge: {along: aft edge, in: 10, first: 20, last in: 20, pitch: 20, size: small}
  rail:
    shape: angle
    thickness: 1
    length: 620
    legs: [20, 25]
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [600, 10], count: 30, size: small, skip: [4], 7-8: none}
placed:
  rail: {part: rail, match: {foot.1: skin.rail.1, foot.30: skin.rail.30}, both sides: other hand}
  cross 1: {stock: light angle, along: skin.cross 1, over: [rail left, rail right]}
"""
"""A model without a mistake; 30 lines."""

_SEQUENCE_HEAD = "format: 1\nmodel: model.yaml\nsteps:\n"


def loaded(folder: Path, model: str, sequence: str | None = None) -> Loaded:
    """Write the texts to files and load them; the sequence where there is one."""
    (folder / "model.yaml").write_text(model, encoding="utf-8")
    if sequence is None:
        return load(str(folder / "model.yaml"))
    (folder / "sequence.yaml").write_text(sequence, encoding="utf-8")
    return load(str(folder / "sequence.yaml"))


def model_of(folder: Path, text: str) -> Loaded:
    """Load a model of that text."""
    return loaded(folder, dedent(text))


def sequence_of(folder: Path, steps: str, model: str = MODEL) -> Loaded:
    """Load a sequence with these steps; the first stands in line 4."""
    return loaded(folder, model, _SEQUENCE_HEAD + dedent(steps))


def places(read: Loaded) -> list[Place]:
    """Return where the findings stand, in the order of the files' names, lines and columns."""
    ordered = sorted(read.findings, key=lambda finding: finding.at)
    return [(finding.kind, finding.at.line, finding.at.column) for finding in ordered]


def said(read: Loaded) -> Finding:
    """Return the only finding."""
    assert len(read.findings) == 1, [finding.message for finding in read.findings]
    return read.findings[0]


def changed(old: str, new: str) -> str:
    """Return MODEL with ``old``, which stands in it, replaced once."""
    assert old in MODEL
    return MODEL.replace(old, new, 1)
