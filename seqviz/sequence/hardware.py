"""What is set into a hole: its kind and the sizes of what stands out on both ends, mm."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.assembly.fastening import fastener_named
from seqviz.assembly.structure import Stack
from seqviz.records.model import Model
from seqviz.trade.fasteners import BLIND_RIVET, Fastener, protrusion
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
        (diameter, height) of the manufactured head, and of the formed head, bulb or nut.
    """

    kind: str
    head: tuple[float, float]
    tail: tuple[float, float]


def fastener_in(model: Model, stack: Stack, name: str | None) -> SetFastener:
    """Return the fastener ``name`` in ``stack``; one nobody knows is a blind rivet as thick as the hole."""
    found = fastener_named(model, name) if name else None
    found = found or Fastener(kind=BLIND_RIVET, diameter=stack.diameter)
    own = model.hardware.get(name) if name else None
    head = head_size(found.kind, found.diameter)
    tail = tail_size(found.kind, found.diameter)
    lengths = own.lengths if own else ()
    return SetFastener(
        kind=found.kind,
        head=(
            own.head_diameter if own and own.head_diameter else head.diameter,
            own.head_height if own and own.head_height else head.height,
        ),
        tail=(tail.diameter, protrusion(found.kind, found.diameter, lengths, stack.grip)),
    )
