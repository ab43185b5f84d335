"""Which fastener goes into a hole stack, as far as a picture and its words need to know."""

from __future__ import annotations

from seqviz.assembly.structure import Stack
from seqviz.records.model import Model
from seqviz.trade.fasteners import BLIND_RIVET, KINDS, Fastener, parse_fastener

__all__ = ["fastener_of"]


def fastener_of(model: Model, stack: Stack, use: str | None = None) -> Fastener:
    """Return kind and shank diameter, mm; ``use`` goes before what the stack's size names.

    Without a known kind it is a blind rivet; without a known diameter it is as thick as the hole.
    """
    name = use or stack.fastener
    if name is not None and name in model.hardware:
        entry = model.hardware[name]
        return Fastener(kind=entry.kind if entry.kind in KINDS else BLIND_RIVET, diameter=entry.diameter)
    named = parse_fastener(name) if name else None
    return named or Fastener(kind=BLIND_RIVET, diameter=stack.diameter)
