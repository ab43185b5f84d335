"""A model from text, placed: what the tests of this folder start from."""

from pathlib import Path

from seqviz.assembly.assemble import assemble
from seqviz.assembly.structure import Assembly
from seqviz.findings import Finding
from seqviz.parts.make import make_parts
from seqviz.records.load import load

HEAD = "format: 1\nname: Trial\nbase: floor\nforward: +x\nmirror line: y=100\n"

FLOOR = """
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes:
      left:  {from: [20, 190], to: [280, 190], count: 3, diameter: 3.3}
      right: {from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}
      cross: {from: [150, 30], to: [150, 170], count: 3, diameter: 3.3}
      trio:  {at: [[40, 60], [80, 60], [40, 90]], diameter: 3.3}
"""

RAIL = """
  rail:
    shape: angle
    thickness: 1.0
    length: 300
    legs: [20, 25]
    bend radius: 2
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [280, 10], count: 3, diameter: 3.3}
"""


def placed(folder: Path, text: str) -> tuple[Assembly, list[Finding]]:
    """Read ``HEAD`` and ``text`` as a model, insist that it reads cleanly, and place it."""
    path = folder / "trial.yaml"
    path.write_text(HEAD + text, encoding="utf-8")
    loaded = load(str(path))
    parts, part_findings = make_parts(loaded.model)
    assert [f.message for f in (*loaded.findings, *part_findings)] == []
    return assemble(loaded.model, parts)


def kinds(findings: list[Finding]) -> list[str]:
    """Return the kinds of ``findings`` in order."""
    return [finding.kind for finding in findings]
