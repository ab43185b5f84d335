"""Which way a placed part faces, in bench words: its standing leg, its web, its flanges."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from seqviz.assembly import mistakes
from seqviz.assembly.directions import UP, direction
from seqviz.assembly.entries import Entry
from seqviz.assembly.fitting import Pair
from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import PlacedPart
from seqviz.findings import Finding
from seqviz.geometry.pose import Array
from seqviz.parts.part import Flat, Part
from seqviz.records.model import Model, Name, Placed

__all__ = ["faces_otherwise"]

AGREES = 0.5
"""Cosine: a leg stands in the direction said when it is within 60 degrees of it."""

_Ways = Callable[[Part, list[str]], list[Array]]


def faces_otherwise(entry: Entry, pairs: list[Pair], placed: PlacedPart, model: Model) -> Finding | None:
    """Check where leg, web and flanges of a placed part face against what the entry says.

    Where no holes hold the part, the lowest of the flats that are level lies down.
    """
    if pairs:
        spot = np.mean([p.spot for p in pairs], axis=0)
        lying = list(dict.fromkeys(p.own.flat for p in pairs))
    else:
        spot = placed.solids.vertices.mean(axis=(0, 1)) if len(placed.solids) else placed.pose.translation
        level = [name for name, flat in placed.part.flats.items() if _is_level(placed, flat)]
        lying = sorted(level, key=lambda name: _height(placed, placed.part.flats[name]))[:1]
    for word, said, ways_of in _said(entry.record):
        wanted = direction(said.text, model, spot)
        ways = [placed.pose.vectors(way) for way in ways_of(placed.part, lying)]
        if wanted is None or not ways:
            return mistakes.no_direction(entry, word, said, turned=bool(ways))
        off = next((way for way in ways if way @ wanted < AGREES), None)
        if off is not None:
            return mistakes.faces_elsewhere(entry, word, said, off, model)
    return None


def _is_level(placed: PlacedPart, flat: Flat) -> bool:
    return bool(abs(placed.pose.vectors(flat.frame.rotation[:, 2]) @ UP) >= PARALLEL)


def _height(placed: PlacedPart, flat: Flat) -> float:
    return float(placed.pose.points(flat.frame.translation) @ UP)


def _said(record: Placed) -> list[tuple[str, Name, _Ways]]:
    every: list[tuple[str, Name | None, _Ways]] = [
        ("standing leg", record.standing_leg, _standing),
        ("web faces", record.web_faces, _web_outside),
        ("flange faces", record.flange_faces, _flange_reach),
    ]
    return [(word, said, ways) for word, said, ways in every if said is not None]


def _standing(part: Part, lying: list[str]) -> list[Array]:
    """Return on which side of a lying leg, flange or foot the next flat stands: where its outer corner is."""
    return [-_reach(part.flats[name]) for name in lying if _has_corner(part.flats[name])][:1]


def _web_outside(part: Part, _lying: list[str]) -> list[Array]:
    return [part.flats["web"].face_normal("outside")] if "web" in part.flats else []


def _flange_reach(part: Part, lying: list[str]) -> list[Array]:
    """Return which way the flanges that do not lie down reach from their corners to their edges."""
    down = {part.flats[name].written for name in lying}
    flanges = [f for name, f in part.flats.items() if name.startswith("flange") and f.written not in down]
    return [_reach(flat) for flat in flanges if _has_corner(flat)]


def _has_corner(flat: Flat) -> bool:
    """Say whether the flat is a leg, flange or foot: bent up on one side, which is where its y begins."""
    y = flat.outline[:, 1]
    return flat.name.startswith(("leg", "flange", "foot")) and bool((y > 0).all() or (y < 0).all())


def _reach(flat: Flat) -> Array:
    """Return the way from the outer corner to the edge; the other hand has its region at negative y."""
    return flat.frame.rotation[:, 1] * (1.0 if flat.outline[:, 1].mean() > 0 else -1.0)
