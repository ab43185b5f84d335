"""One door to every choice: whatever the fastener, the length for a grip."""

from __future__ import annotations

from seqviz.trade.bolt_choice import bolt_of
from seqviz.trade.choice import LengthChoice, in_range, solid_of
from seqviz.trade.fasteners import BOLT, SOLID_RIVET
from seqviz.trade.supply import Supply

__all__ = ["choice_for"]


def choice_for(supply: Supply, grip: float) -> LengthChoice:
    """Return what to take of ``supply`` for a grip of ``grip`` mm."""
    kinds = {SOLID_RIVET: solid_of, BOLT: bolt_of}
    return kinds.get(supply.fastener.kind, in_range)(supply, grip)
