"""The structure as far as it stands while it is being put together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from seqviz.assembly.directions import UP
from seqviz.assembly.entries import Entry
from seqviz.assembly.flats import StandingFlat
from seqviz.assembly.lay_up import LayUp
from seqviz.assembly.one_piece import Piece
from seqviz.assembly.structure import PlacedPart
from seqviz.geometry.pose import Array
from seqviz.records.model import Model

__all__ = ["Site"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Site:
    """What an entry is placed into: the model, what the entries say, and the parts that already stand.

    ``pieces``: entry of ``placed`` -> the other model that it uses, as one piece.
    """

    model: Model
    base: str
    known: dict[str, Entry]
    lay: LayUp
    placed: dict[str, PlacedPart]
    flats: dict[str, tuple[StandingFlat, ...]]
    pieces: Mapping[str, Piece] = field(default_factory=dict)

    def without_templates(self) -> Site:
        """Return the structure without what only leads the drill: it is no layer and nothing sits on it."""
        tools = [name for name, part in self.placed.items() if part.part.tool]
        if not tools:
            return self
        return replace(
            self,
            placed={name: part for name, part in self.placed.items() if name not in tools},
            flats={name: flats for name, flats in self.flats.items() if name not in tools},
        )

    @property
    def up(self) -> Array:
        """``(3,)`` the base's upper side."""
        return self.placed[self.base].pose.vectors(UP)
