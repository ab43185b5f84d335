"""Runs small files and compares what is found with the ``# expect: kind`` marks written into them."""

import re
from pathlib import Path

from seqviz.build import Build, build
from seqviz.checks.kit_rules import RULES
from seqviz.checks.run import run
from seqviz.findings import Finding

__all__ = ["FLOOR", "MODEL", "SEQUENCE", "STEPS", "besides_the_kit", "built", "expected", "found_as_marked"]

_MARK = re.compile(r"#\s*expect:\s*(?P<kinds>[a-z, -]+)")

FLOOR = """\
format: 1
name: Trial
base: floor
forward: +x
mirror line: y=50
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  big: {diameter: 4.1, with: blind rivet 4.0}
"""
"""The top of a model; `MODEL` goes on with it."""

MODEL = (
    FLOOR
    + """\
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 100], [0, 100]]
    holes:
      mid: {from: [20, 50], to: [180, 50], count: 5, size: small}
  rail:
    shape: plate
    thickness: 1.6
    outline: [[0, 0], [180, 0], [180, 20], [0, 20]]
    holes:
      foot: {from: [10, 10], to: [170, 10], count: 5, size: small}
"""
)
"""A floor of 200 x 100 with five holes 40 apart, and a rail that covers x = 10 to 190, y = 40 to 60."""

STEPS = """\
format: 1
model: model.yaml
up: upper
bench: flat
finished: no
tools:
  puller: {for: blind rivet, body: [{cylinder: 10, from: 0, to: 20}, {cylinder: 24, from: 20, to: 90}]}
steps:
"""
"""The top of a sequence that is not finished."""

SEQUENCE = STEPS.replace("finished: no", "finished: yes")
"""The top of a finished sequence."""


def built(folder: Path, model: str, sequence: str | None = None) -> Build:
    """Write the files and compute everything."""
    (folder / "model.yaml").write_text(model, encoding="utf-8")
    if sequence is None:
        return build(str(folder / "model.yaml"))
    (folder / "sequence.yaml").write_text(sequence, encoding="utf-8")
    return build(str(folder / "sequence.yaml"))


def expected(name: str, text: str) -> set[tuple[str, int, str]]:
    """Return (file, line, kind) of each mark in ``text``."""
    return {
        (name, number, kind.strip())
        for number, line in enumerate(text.splitlines(), start=1)
        for mark in _MARK.finditer(line)
        for kind in mark["kinds"].split(",")
    }


def besides_the_kit(made: Build) -> tuple[Finding, ...]:
    """Return what is found but for the one note about a kit: small trials are not spaced as real work is."""
    return tuple(f for f in run(made) if not (f.kind in RULES and f.why.startswith("On parts of a kit")))


def found_as_marked(folder: Path, model: str, sequence: str | None = None) -> list[Finding]:
    """Insist that what is not settled stands exactly where it is marked, each once; return all findings.

    The one note about the spacing of a kit counts only where it is marked.
    """
    made = built(folder, model, sequence)
    wanted = expected("model.yaml", model) | expected("sequence.yaml", sequence or "")
    of_rules = {kind for _, _, kind in wanted} & set(RULES)
    findings = list(run(made) if of_rules else besides_the_kit(made))
    told = [f for f in findings if f.known is None]
    places = [(Path(f.at.file).name, f.at.line, f.kind) for f in told]
    assert sorted(places) == sorted(wanted), "\n".join(f"{f.at} {f.kind}: {f.message}" for f in told)
    return findings
