"""Which placed parts penetrate each other by more than 0.05 mm, and which only ride on a bend."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from seqviz.assembly.axes import Indices
from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.geometry.boxes import near_pairs
from seqviz.geometry.prism import Prism
from seqviz.geometry.separation import GUARD, TOLERANCE, close_pairs, deepest, depths

__all__ = ["Riding", "interfering", "meeting_flats", "only_with_heads", "riding"]


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
            known = flat in rider.part.flats
            if flat and known and not _crosses(rider, flat, bent):
                found.append(Riding(rider=rider.name, flat=flat, bent=bent.name, depth=depth))
                break
    return tuple(found)


def meeting_flats(one: PlacedPart, other: PlacedPart) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the flats of both that meet, by name; a bend has none."""
    pairs = _deep_pairs(one, other)
    mine, theirs = (
        tuple(
            dict.fromkeys(name for k in sorted(set(column)) if (name := part.part.piece_flats[k]) is not None)
        )
        for part, column in ((one, pairs[:, 0].tolist()), (other, pairs[:, 1].tolist()))
    )
    return mine, theirs


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
        depth = _depth(assembly.placed[names[i]], assembly.placed[names[j]])
        if depth > TOLERANCE + assembly.measured_to((names[i], names[j])) + GUARD:
            found.append((names[i], names[j], depth))
    return tuple(found)


def _depth(one: PlacedPart, other: PlacedPart) -> float:
    """Return how deep they meet, mm; heads set in one that stand in holes of the other do not count."""
    if not (one.part.heads or other.part.heads):
        return deepest(one.solids, other.solids)
    return float(depths(one.solids, other.solids, _deep_pairs(one, other)).max(initial=0.0))


def _deep_pairs(one: PlacedPart, other: PlacedPart) -> Indices:
    """Return ``(k, 2)`` the pieces of both that meet."""
    pairs = close_pairs(one.solids, other.solids)
    pairs = pairs[depths(one.solids, other.solids, pairs) > TOLERANCE + GUARD]
    for part, against, column in ((one, other, 0), (other, one, 1)):
        free = _in_holes(part, against, {int(k) for k in pairs[:, column]})
        pairs = pairs[[int(k) not in free for k in pairs[:, column]]]
    return np.asarray(pairs, dtype=np.intp)


def _in_holes(one: PlacedPart, other: PlacedPart, pieces: set[int]) -> set[int]:
    """Return those of ``pieces`` that are heads set in ``one`` and have room in holes of ``other``."""
    first = len(one.part.pieces) - one.part.heads
    return {k for k in pieces if k >= first and _stands_in_a_hole(one, k, other)}


def _stands_in_a_hole(one: PlacedPart, piece: int, other: PlacedPart) -> bool:
    head = one.part.pieces[piece]
    assert isinstance(head, Prism)
    frame, radius = one.pose.after(head.frame), float(np.linalg.norm(head.polygon[0]))
    for hole in other.part.holes:
        away = other.pose.points(hole.centre) - frame.translation
        aside = float(np.linalg.norm(away - (away @ frame.rotation[:, 2]) * frame.rotation[:, 2]))
        parallel = abs(float(other.pose.vectors(hole.axis) @ frame.rotation[:, 2])) >= PARALLEL
        if parallel and aside + radius <= hole.diameter / 2 + GUARD:
            return True
    return False
