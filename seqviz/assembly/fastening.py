"""What goes into a hole: the fastener's kind and thickness, from the model's hardware or by its name."""

from __future__ import annotations

from seqviz.records.model import Model
from seqviz.trade.fasteners import BLIND_RIVET, Fastener, parse_fastener
from seqviz.trade.heads import FLUSH_ANGLE, Head, sunk_head
from seqviz.trade.supply import Supply, supply_of

__all__ = ["PLAY", "fastener_named", "fastener_of_size", "sunk_in", "supply_named", "thickness_of"]

PLAY = 0.1
"""mm: play of a fastener that nobody named in its hole (project choice)."""


def fastener_named(model: Model, name: str) -> Fastener | None:
    """Return the fastener ``name``: the maker's data in the model go before its name; None: unknown."""
    entry = model.hardware.get(name)
    if entry is not None:
        return Fastener(kind=entry.kind or "blind rivet", diameter=entry.diameter)
    return parse_fastener(name)


def fastener_of_size(model: Model, size: str | None) -> str | None:
    """Return the name of the fastener that goes into holes of ``size``, None where nobody said."""
    entry = model.sizes.get(size) if size else None
    return entry.fastener.text if entry and entry.fastener else None


def supply_named(model: Model, name: str | None) -> Supply | None:
    """Return in which lengths the fastener ``name`` is to be had; None: it is unknown."""
    fastener = fastener_named(model, name) if name else None
    own = model.hardware.get(name) if name else None
    if fastener is None or own is None:
        return supply_of(fastener) if fastener else None
    return supply_of(fastener, own.lengths, own.plain_lengths, own.half_sizes)


def sunk_in(model: Model, name: str | None, hole: float, *, countersunk: bool) -> Head | None:
    """Return the manufactured head of the fastener ``name`` where it lies flush, its height downwards.

    Parameters
    ----------
    hole
        mm; of an unknown fastener the shank.
    countersunk
        What the holes of its stack say; a fastener with a ``head angle`` lies flush whatever they say.
    """
    own = model.hardware.get(name) if name else None
    if not countersunk and (own is None or own.head_angle is None):
        return None
    found = fastener_named(model, name) if name else None
    found = found or Fastener(kind=BLIND_RIVET, diameter=hole)
    if own is None:
        return sunk_head(found.kind, found.diameter)
    angle = own.head_angle or FLUSH_ANGLE
    return sunk_head(found.kind, found.diameter, angle, own.head_diameter, own.head_height)


def thickness_of(model: Model, name: str | None, hole: float) -> float:
    """Return the thickness, mm, of the fastener ``name``; of an unknown one the hole's less 0.1 mm."""
    fastener = fastener_named(model, name) if name else None
    return fastener.diameter if fastener else hole - PLAY
