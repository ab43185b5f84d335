"""Whole files, written into a folder and replayed: plates of boxes on a base of 300 x 200, mm."""

from __future__ import annotations

from pathlib import Path

from seqviz.build import build
from seqviz.sequence.replay_types import Replay

HEAD = """\
format: 1
name: trial
units: mm
base: skin
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  solid: {diameter: 3.3, with: solid rivet 1/8}
  bolt: {diameter: 4.8, with: bolt AN3}
"""
ORDER = """\
format: 1
model: model.yaml
up: upper
"""
PULLER = """\
tools:
  puller: {for: blind rivet, body: [{cylinder: 20, from: 0, to: 90}], reach: {diameter: 20, length: 200}}
"""


def replayed(
    folder: Path, model: str, steps: str, words: str = "bench: trestles\n", tools: str = PULLER
) -> Replay:
    """Write a model (parts, placed) and the steps, and replay them; nothing may be wrong with the words."""
    (folder / "model.yaml").write_text(HEAD + model, encoding="utf-8")
    path = folder / "order.yaml"
    path.write_text(f"{ORDER}{words}{tools}steps:\n{steps}", encoding="utf-8")
    made = build(str(path))
    assert [(f.at.line, f.kind, f.message) for f in made.noticed if f.severity == "error"] == []
    assert made.replay is not None
    return made.replay
