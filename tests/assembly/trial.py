"""A model from text, placed: what the tests of this folder start from."""

from pathlib import Path

from seqviz.assembly.assemble import assemble
from seqviz.assembly.structure import Assembly
from seqviz.findings import Finding
from seqviz.parts.make import make_parts
from seqviz.records.load import load

HEAD = "format: 1\nname: Trial\nbase: floor\nforward: +x\nmirror line: y=100\n"


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
