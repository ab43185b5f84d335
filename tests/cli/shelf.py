"""A panel with a stiffener, and the order of work, written into a folder for the tests of the commands."""

from __future__ import annotations

from pathlib import Path

__all__ = ["MODEL", "SEQUENCE", "write_shelf"]

MODEL = """\
format: 1
name: First shelf
units: mm
base: panel
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
parts:
  panel:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 120], [0, 120]]
    holes:
      edge: {from: [20, 10], to: [280, 10], count: 14, size: small}
  stiffener:
    shape: angle
    thickness: 1.0
    length: 300
    legs: [20, 20]
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [280, 10], count: 14, size: small}
placed:
  stiffener: {part: stiffener, match: {foot.1: panel.edge.1, foot.14: panel.edge.14}}
"""

SEQUENCE = """\
format: 1
model: shelf.yaml
up: upper
steps:
  - place: stiffener
    pins: ends and every 4th
  - rivet: everything ready
"""


def write_shelf(folder: Path, *, model: str = MODEL, sequence: str = SEQUENCE) -> None:
    """Write ``shelf.yaml`` and ``evening.yaml`` into ``folder``."""
    (folder / "shelf.yaml").write_text(model, encoding="utf-8")
    (folder / "evening.yaml").write_text(sequence, encoding="utf-8")
