"""What goes into a hole: the fastener's kind and thickness, from the model's hardware or by its name."""

from __future__ import annotations

from seqviz.records.model import Model
from seqviz.trade.fasteners import Fastener, parse_fastener
from seqviz.trade.lengths import Lengths, known_lengths

__all__ = ["PLAY", "fastener_named", "fastener_of_size", "lengths_of", "thickness_of"]

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


def lengths_of(model: Model, name: str | None) -> Lengths:
    """Return the lengths in which the fastener ``name`` is made, each with its grips; none: not known."""
    fastener = fastener_named(model, name) if name else None
    own = model.hardware.get(name) if name else None
    return known_lengths(fastener, own.lengths if own else ()) if fastener else ()


def thickness_of(model: Model, name: str | None, hole: float) -> float:
    """Return the thickness, mm, of the fastener ``name``; of an unknown one the hole's less 0.1 mm."""
    fastener = fastener_named(model, name) if name else None
    return fastener.diameter if fastener else hole - PLAY
