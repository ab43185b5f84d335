"""A part's body before any hole is in it, and the smallest sizes that the geometry can tell apart."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import At, Finding
from seqviz.geometry.prism import Piece
from seqviz.parts.blank import Blank
from seqviz.parts.mistakes import bad_value, plain
from seqviz.parts.part import Flat, Member
from seqviz.parts.roll import Roll
from seqviz.parts.spine import STRAIGHT, Spine
from seqviz.parts.surface import Mesh

__all__ = ["NARROWEST", "Body", "too_narrow"]

NARROWEST = 0.2
"""mm: a piece narrower than this could sink into another without the depth of penetration showing it."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Body:
    """Flats and pieces of a part, part frame, mm; see `seqviz.parts.part.Part`."""

    flats: dict[str, Flat]
    pieces: tuple[Piece, ...]
    piece_flats: tuple[str | None, ...]
    members: tuple[Member, ...] = ()
    surface: Mesh | None = None
    roll: Roll | None = None
    facets: tuple[Flat, ...] = ()
    blank: Blank | None = None
    spine: Spine = STRAIGHT


def too_narrow(at: At, part: str, sizes: dict[str, float]) -> Finding | None:
    """Return a finding where one of ``sizes`` (word -> mm) is narrower than 0.2 mm."""
    for word, size in sizes.items():
        if not size >= NARROWEST:
            return bad_value(
                at,
                f"{part}: {word} {plain(size)} mm is too small.",
                "Pieces narrower than 0.2 mm cannot be told from touching ones (project choice).",
                "Check the number and its unit.",
            )
    return None
