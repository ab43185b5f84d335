"""What is set into a hole: its kind and the sizes of what stands out on both ends, mm."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.assembly.fastening import fastener_named, sunk_in, supply_named
from seqviz.assembly.structure import Stack
from seqviz.records.model import Model
from seqviz.trade.choose import choice_for
from seqviz.trade.fasteners import BLIND_RIVET, BOLT, SOLID_RIVET, Fastener, protrusion
from seqviz.trade.heads import head_size, tail_size

__all__ = ["SetFastener", "fastener_in"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SetFastener:
    """A fastener with what stands above the complete stack once it is set, mm.

    Attributes
    ----------
    kind
        ``blind rivet``, ``solid rivet`` or ``bolt``.
    head, tail
        (diameter, height) of the manufactured head, and of the formed head, bulb or nut. A flush head has
        the height 0.
    room
        (diameter, height) of what must be free at the tail's end to set it: a solid rivet is longer before,
        1.5 D or what its length stands out, and a bolt may stand out of its nut. None: as the tail.
    way_in
        How long a straight way, as thick as the head, a bolt takes to come in: its length and its head.
    """

    kind: str
    head: tuple[float, float]
    tail: tuple[float, float]
    room: tuple[float, float] | None = None
    way_in: float = 0.0


def fastener_in(model: Model, stack: Stack, name: str | None) -> SetFastener:
    """Return the fastener ``name`` in ``stack``; one nobody knows is a blind rivet as thick as the hole."""
    found = fastener_named(model, name) if name else None
    found = found or Fastener(kind=BLIND_RIVET, diameter=stack.diameter)
    own = model.hardware.get(name) if name else None
    tail = tail_size(found.kind, found.diameter)
    lengths = own.lengths if own else ()
    head = _head(model, stack, name, found)
    out = protrusion(found.kind, found.diameter, lengths, stack.grip)
    length = _length(model, stack, name) if found.kind in (BOLT, SOLID_RIVET) else None
    before = protrusion(found.kind, found.diameter, lengths, stack.grip, unset=True)
    return SetFastener(
        kind=found.kind,
        head=head,
        tail=(tail.diameter, out),
        room=(tail.diameter, max(before, length - stack.clamped if length else 0.0)),
        way_in=(length or stack.clamped + out) + head[1] if found.kind == BOLT else 0.0,
    )


def _length(model: Model, stack: Stack, name: str | None) -> float | None:
    """Return how long the fastener is that is taken there, mm; None: nobody knows."""
    supply = supply_named(model, name)
    return choice_for(supply, stack.clamped).length if supply else None


def _head(model: Model, stack: Stack, name: str | None, found: Fastener) -> tuple[float, float]:
    """Return diameter and height of the manufactured head above the sheet: a flush one has none."""
    sunk = sunk_in(model, name, stack.diameter, countersunk=stack.countersunk)
    if sunk is not None:
        return sunk.diameter, 0.0
    own = model.hardware.get(name) if name else None
    usual = head_size(found.kind, found.diameter)
    across = own.head_diameter if own and own.head_diameter else usual.diameter
    return across, own.head_height if own and own.head_height else usual.height
