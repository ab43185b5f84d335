"""Which placed parts penetrate each other by more than 0.05 mm, and which only ride on a bend."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.geometry.boxes import near_pairs
from seqviz.geometry.pose import Array
from seqviz.geometry.separation import GUARD, TOLERANCE, close_pairs, deepest, depths

__all__ = ["Riding", "interfering", "only_with_heads", "riding"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Riding:
    """A flat of ``rider`` lies on a flat of ``bent`` and reaches into its bend, ``depth`` mm at most."""

    rider: str
    flat: str
    bent: str
    depth: float


def interfering(assembly: Assembly) -> tuple[tuple[str, str, float], ...]:
    """Return pairs of placed parts that interfere, with the depth in mm; muted parts are left out.

    Parts that were measured with a tape may meet by as much more as they may be off.
    A pair of which one only rides on the other's bend is left out too: see `riding`.
    """
    on_bends = {frozenset({one.rider, one.bent}) for one in riding(assembly)}
    return tuple(pair for pair in _meeting(assembly) if frozenset(pair[:2]) not in on_bends)


def only_with_heads(assembly: Assembly, name: str, other: str) -> bool:
    """Say whether ``name`` meets ``other`` only with heads and tails of fasteners that came set in it."""
    one = assembly.placed[name]
    pairs = _deep_pairs(one, assembly.placed[other])
    return bool(len(pairs)) and bool((pairs[:, 0] >= len(one.part.pieces) - one.part.heads).all())


def riding(assembly: Assembly) -> tuple[Riding, ...]:
    """Return the parts that meet no more of another than its bend, with a flat that lies beside it."""
    sits = {frozenset({contact.upper, contact.lower}) for contact in assembly.contacts}
    found: list[Riding] = []
    for a, b, depth in _meeting(assembly):
        if frozenset({a, b}) not in sits:
            continue
        one, other = assembly.placed[a], assembly.placed[b]
        pairs = _deep_pairs(one, other)
        for rider, bent, mine, theirs in ((one, other, 0, 1), (other, one, 1, 0)):
            flats = {_bend(rider, k) for k in pairs[:, mine]}
            bends = {_bend(bent, k) for k in pairs[:, theirs]}
            flat = flats.pop() if len(flats) == 1 and bends == {None} else None
            if flat and not _crosses(rider, flat, bent):
                found.append(Riding(rider=rider.name, flat=flat, bent=bent.name, depth=depth))
                break
    return tuple(found)


def _bend(part: PlacedPart, piece: int) -> str | None:
    """Return the flat of a piece, None for one of a bend; heads that are set in it are no bend."""
    return "" if piece >= len(part.part.pieces) - part.part.heads else part.part.piece_flats[piece]


def _crosses(rider: PlacedPart, flat: str, bent: PlacedPart) -> bool:
    """Say whether the rider's flat reaches through the plane of a leg that stands on the bend."""
    own = rider.part.flats[flat]
    normal = rider.pose.vectors(own.frame.rotation[:, 2])
    pieces = [k for k, name in enumerate(rider.part.piece_flats) if name == flat]
    corners = rider.solids.vertices[pieces].reshape(-1, 3)
    for other in bent.part.flats.values():
        frame = bent.pose.after(other.frame)
        if abs(frame.rotation[:, 2] @ normal) >= PARALLEL:
            continue
        levels = frame.inverse().points(corners)[:, 2]
        if levels.min() < other.thickness - TOLERANCE and levels.max() > TOLERANCE:
            return True
    return False


@lru_cache(maxsize=1)
def _meeting(assembly: Assembly) -> tuple[tuple[str, str, float], ...]:
    """Return all pairs that meet; kept, because two kinds of findings ask for them one after the other."""
    muted = assembly.muted | {name for name, part in assembly.placed.items() if part.part.tool}
    names = sorted(name for name in assembly.placed if name not in muted)
    solids = [assembly.placed[name].solids for name in names]
    found: list[tuple[str, str, float]] = []
    for i, j in near_pairs(solids):
        depth = deepest(solids[i], solids[j])
        if depth > TOLERANCE + assembly.measured_to((names[i], names[j])) + GUARD:
            found.append((names[i], names[j], depth))
    return tuple(found)


def _deep_pairs(one: PlacedPart, other: PlacedPart) -> Array:
    """Return ``(k, 2)`` the pieces of both that meet."""
    pairs = close_pairs(one.solids, other.solids)
    deep = depths(one.solids, other.solids, pairs) > TOLERANCE + GUARD
    return np.asarray(pairs[deep])
