"""The structure as far as it stands while it is being put together."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.assembly.directions import UP
from seqviz.assembly.entries import Entry
from seqviz.assembly.flats import StandingFlat
from seqviz.assembly.lay_up import LayUp
from seqviz.assembly.structure import PlacedPart
from seqviz.geometry.pose import Array
from seqviz.records.model import Model

__all__ = ["Site"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Site:
    """What an entry is placed into: the model, what the entries say, and the parts that already stand."""

    model: Model
    base: str
    known: dict[str, Entry]
    lay: LayUp
    placed: dict[str, PlacedPart]
    flats: dict[str, tuple[StandingFlat, ...]]

    @property
    def up(self) -> Array:
        """``(3,)`` the base's upper side."""
        return self.placed[self.base].pose.vectors(UP)
