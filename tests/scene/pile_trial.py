"""Piles for the tests: a small model that is told from its text."""

from __future__ import annotations

from pathlib import Path

from seqviz.build import build
from seqviz.scene.pile import Piece, Pile, pile_of

__all__ = ["HEAD", "piece_called", "pile"]

HEAD = """\
format: 1
name: Pile
base: floor
forward: +x
mirror line: y=60
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  big:   {diameter: 4.1, with: blind rivet 4.0}
"""


def pile(folder: Path, text: str, head: str = HEAD) -> Pile:
    path = folder / "pile.yaml"
    path.write_text(head + text, encoding="utf-8")
    return pile_of(build(str(path)))


def piece_called(found: Pile, name: str) -> Piece:
    return next(piece for piece in found.pieces if piece.name == name)
