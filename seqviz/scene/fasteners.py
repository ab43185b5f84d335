"""Which fastener goes into a hole stack, as far as a picture and its words need to know."""

from __future__ import annotations

from seqviz.assembly.fastening import fastener_named, supply_named
from seqviz.assembly.structure import Stack
from seqviz.records.model import Model
from seqviz.trade.choice import LengthChoice
from seqviz.trade.choose import choice_for
from seqviz.trade.fasteners import BLIND_RIVET, Fastener

__all__ = ["choice_in", "fastener_of"]


def choice_in(model: Model, stack: Stack, use: str | None = None) -> LengthChoice | None:
    """Return what is taken for the grip of ``stack``; ``use`` goes before what its size names.

    None where the fastener is unknown, or there is nothing to join.
    """
    if use in (None, stack.fastener):
        return stack.choice
    supply = supply_named(model, use)
    return choice_for(supply, stack.clamped) if supply and stack.joins else None


def fastener_of(model: Model, stack: Stack, use: str | None = None) -> Fastener:
    """Return kind and shank diameter, mm; ``use`` goes before what the stack's size names.

    Without a known kind it is a blind rivet; without a known diameter it is as thick as the hole.
    """
    name = use or stack.fastener
    named = fastener_named(model, name) if name else None
    return named or Fastener(kind=BLIND_RIVET, diameter=stack.diameter)
