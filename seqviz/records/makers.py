"""``made by``: who made the parts and their holes, of one part or of the whole model."""

from __future__ import annotations

from seqviz.records.kinds import Choice
from seqviz.records.tables import Field

__all__ = ["KIT", "MADE_BY", "MADE_BY_OF_MODEL", "MAKERS"]

KIT = "kit"
MAKERS = (KIT, "me")

_MAKER = Choice(words=MAKERS, label="a maker")

MADE_BY = Field(
    word="made by",
    kind=_MAKER,
    help="Who made it and its holes: kit or me; left out: as the model says.",
)
MADE_BY_OF_MODEL = Field(
    word="made by",
    kind=_MAKER,
    help="Who made the parts and their holes: kit (where it is left out) or me; a part may say otherwise. "
    "On parts of a kit the rules for edges, pitch, rivets and bends are told in one note.",
)
